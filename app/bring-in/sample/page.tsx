import type { Metadata } from 'next'
import { say } from '#language/say'
import { listImports } from '#lib/db/importing/imports'
import { importKinds } from '#lib/importing/fields'
import { LinkButton } from '#ui/button'
import { Ledger } from '#ui/ledger'
import { Link } from '#ui/link'
import { PageHead } from '#ui/page-head'
import { Section } from '#ui/section'
import { TourSection } from '../../_tour/tour-section'
import { describeCounts, kindWords } from '../words'

export const generateMetadata = (): Metadata => ({ title: say('The sample is in') })

/** Where loading the sample ends: what it brought, and where to look first. */
export default async function SamplePage() {
  const imports = (await listImports(importKinds.length)).reverse()
  return (
    <>
      <PageHead
        title={say('The sample is in')}
        crumbs={[{ label: say('Bring in'), href: '/bring-in' }, { label: say('The sample') }]}
        byline={say('An invented needlework shop, the Oxmarsh Needle Room, and an invented stash at home.')}
        actions={
          <LinkButton href="/charts?stitchableNow=1" kind="first">
            {say('Charts stitchable now')}
          </LinkButton>
        }
      />
      <TourSection title={say('Three errands to begin with')} />
      <Section
        title={say('What came in')}
        note={say('Each file can be undone under Bring in, the last one first. What was stitched on its projects is logged too.')}
      >
        <Ledger
          caption={say('Files of the sample')}
          rows={imports}
          rowKey={({ id }) => id}
          columns={[
            { key: 'kind', head: say('Kind'), cell: ({ kind }) => kindWords[kind].title, phone: 'lead' },
            {
              key: 'rows',
              head: say('Rows'),
              cell: ({ addedCount, changedCount, sameCount, refusedCount }) =>
                describeCounts({ added: addedCount, changed: changedCount, same: sameCount, refused: refusedCount }),
            },
            {
              key: 'file',
              head: say('File'),
              cell: ({ id, fileName }) => <Link href={`/bring-in/results/${id}`}>{fileName}</Link>,
              isAtEnd: true,
              phone: 'side',
            },
          ]}
        />
      </Section>
    </>
  )
}
