import type { Metadata } from 'next'
import { numberText } from '#language/figures'
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
import { counted } from '#words/amounts'
import { bytesWords, describeArchiveRefusal, holdingWords, missingWords, notEmptyAdvice } from '#words/archive'
import { momentWords } from '#words/date'
import { bringBackAction, forgetGivenAction } from '../../actions'

export const metadata: Metadata = { title: 'Bring an archive back' }

const crumbs = [{ label: 'Everything in a file', href: '/archive' }, { label: 'Bring an archive back' }]

export default async function GivenPage({ params }: { params: Promise<{ givenId: string }> }) {
  requireRight('keep')
  const { givenId } = await params
  const given = await findGiven(givenId)
  const another = (
    <LinkButton href="/archive#bring-back" kind="first">
      Choose another
    </LinkButton>
  )
  if (!given)
    return (
      <>
        <PageHead title="Bring an archive back" crumbs={crumbs} />
        <Notice kind="caution" title="This archive is not kept here any more" actions={another}>
          One that was sent is kept for a day, or until it is brought back. Nothing was changed.
        </Notice>
      </>
    )
  const [looked, held] = await Promise.all([lookAtArchive(given.file), heldHere(database().prisma)])
  if (!looked.ok)
    return (
      <>
        <PageHead title="Bring an archive back" crumbs={crumbs} />
        <Notice kind="refusal" title={describeArchiveRefusal(looked.error)} actions={another}>
          Nothing was changed.
        </Notice>
      </>
    )
  const { madeAt, rowCount, uploadCount, missingCount, tables } = looked.value
  return (
    <>
      <PageHead title="Bring an archive back" crumbs={crumbs} byline={`Written ${momentWords(madeAt)}.`}>
        It holds {holdingWords(tables)}.
      </PageHead>
      <Facts
        items={[
          { label: 'Rows', value: numberText(rowCount) },
          { label: 'Photos and files', value: numberText(uploadCount) },
          { label: 'Size', value: bytesWords(given.bytes) },
        ]}
      />
      {missingCount > 0 && <Notice kind="caution" title={missingWords(missingCount)} />}
      {held.length > 0 ? (
        <Notice
          kind="refusal"
          title={describeArchiveRefusal({ kind: 'not-empty', held })}
          actions={
            <LinkButton href="/archive" kind="first">
              Take this one out
            </LinkButton>
          }
        >
          {notEmptyAdvice}
        </Notice>
      ) : (
        <>
          <p>
            Every row and file is held against what the archive says of it; if one does not fit, nothing is brought back. Owners
            and settings entered here by now give way to the archive’s.
          </p>
          <Form
            action={bringBackAction}
            hidden={{ givenId }}
            submit={`Bring ${counted(rowCount, 'row')} back`}
            pending="Beginning"
          />
        </>
      )}
      <Form action={forgetGivenAction} hidden={{ givenId }} submit="Leave it, and forget the file" submitKind="quiet" />
    </>
  )
}
