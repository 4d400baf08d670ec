import type { Metadata } from 'next'
import { numberText } from '#language/figures'
import { say } from '#language/say'
import { requireRight } from '#lib/db/access/right'
import { findGiven } from '#lib/db/archive/archive-files'
import { heldHere } from '#lib/db/archive/held-here'
import { lookAtArchive } from '#lib/db/archive/look-at-archive'
import { database } from '#lib/db/client'
import { LinkButton } from '#ui/button'
import { Facts } from '#ui/facts'
import { Form } from '#ui/form'
import { Notice } from '#ui/notice'
import { PageHead } from '#ui/page-head'
import { bytesWords, describeArchiveRefusal, holdingWords, missingWords, notEmptyAdvice } from '#words/archive'
import { momentWords } from '#words/date'
import { bringBackAction, forgetGivenAction } from '../../actions'

export const generateMetadata = (): Metadata => ({ title: say('Bring an archive back') })

const crumbs = () => [{ label: say('Everything in a file'), href: '/archive' }, { label: say('Bring an archive back') }]

export default async function GivenPage({ params }: { params: Promise<{ givenId: string }> }) {
  requireRight('keep')
  const { givenId } = await params
  const given = await findGiven(givenId)
  const another = (
    <LinkButton href="/archive#bring-back" kind="first">
      {say('Choose another')}
    </LinkButton>
  )
  if (!given)
    return (
      <>
        <PageHead title={say('Bring an archive back')} crumbs={crumbs()} />
        <Notice kind="caution" title={say('This archive is not kept here any more')} actions={another}>
          {say('One that was sent is kept for a day, or until it is brought back. Nothing was changed.')}
        </Notice>
      </>
    )
  const [looked, held] = await Promise.all([lookAtArchive(given.file), heldHere(database().prisma)])
  if (!looked.ok)
    return (
      <>
        <PageHead title={say('Bring an archive back')} crumbs={crumbs()} />
        <Notice kind="refusal" title={describeArchiveRefusal(looked.error)} actions={another}>
          {say('Nothing was changed.')}
        </Notice>
      </>
    )
  const { madeAt, rowCount, uploadCount, missingCount, tables } = looked.value
  return (
    <>
      <PageHead
        title={say('Bring an archive back')}
        crumbs={crumbs()}
        byline={say('Written {moment}.', { moment: momentWords(madeAt) })}
      >
        {say('It holds {holding}.', { holding: holdingWords(tables) })}
      </PageHead>
      <Facts
        items={[
          { label: say('Rows'), value: numberText(rowCount) },
          { label: say('Photos and files'), value: numberText(uploadCount) },
          { label: say('Size'), value: bytesWords(given.bytes) },
        ]}
      />
      {missingCount > 0 && <Notice kind="caution" title={missingWords(missingCount)} />}
      {held.length > 0 ? (
        <Notice
          kind="refusal"
          title={describeArchiveRefusal({ kind: 'not-empty', held })}
          actions={
            <LinkButton href="/archive" kind="first">
              {say('Take this one out')}
            </LinkButton>
          }
        >
          {notEmptyAdvice()}
        </Notice>
      ) : (
        <>
          <p>
            {say(
              'Every row and file is held against what the archive says of it; if one does not fit, nothing is brought back. Owners and settings entered here by now give way to the archive’s.',
            )}
          </p>
          <Form
            action={bringBackAction}
            hidden={{ givenId }}
            submit={say('Bring {rowCount, plural, one {# row} other {# rows}} back', { rowCount })}
            pending={say('Beginning')}
          />
        </>
      )}
      <Form action={forgetGivenAction} hidden={{ givenId }} submit={say('Leave it, and forget the file')} submitKind="quiet" />
    </>
  )
}
