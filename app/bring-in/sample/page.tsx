import type { Metadata } from 'next'
import { listImports } from '#lib/db/importing/imports'
import { importKinds } from '#lib/importing/fields'
import { LinkButton } from '#ui/button'
import { Ledger } from '#ui/ledger'
import { Link } from '#ui/link'
import { PageHead } from '#ui/page-head'
import { Section } from '#ui/section'
import { TourSection } from '../../_tour/tour-section'
import { describeCounts, kindWords } from '../words'

export const metadata: Metadata = { title: 'The sample is in' }

/** Where loading the sample ends: what it brought, and where to look first. */
export default async function SamplePage() {
  const imports = (await listImports(importKinds.length)).reverse()
  return (
    <>
      <PageHead
        title="The sample is in"
        crumbs={[{ label: 'Bring in', href: '/bring-in' }, { label: 'The sample' }]}
        byline="An invented needlework shop, the Oxmarsh Needle Room, and an invented stash at home."
        actions={
          <LinkButton href="/charts?stitchableNow=1" kind="first">
            Charts stitchable now
          </LinkButton>
        }
      />
      <TourSection title="Three errands to begin with" />
      <Section
        title="What came in"
        note="Each file can be undone under Bring in, the last one first. What was stitched on its projects is logged too."
      >
        <Ledger
          caption="Files of the sample"
          rows={imports}
          rowKey={({ id }) => id}
          columns={[
            { key: 'kind', head: 'Kind', cell: ({ kind }) => kindWords[kind].title, phone: 'lead' },
            {
              key: 'rows',
              head: 'Rows',
              cell: ({ addedCount, changedCount, sameCount, refusedCount }) =>
                describeCounts({ added: addedCount, changed: changedCount, same: sameCount, refused: refusedCount }),
            },
            {
              key: 'file',
              head: 'File',
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
