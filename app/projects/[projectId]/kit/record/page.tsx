import type { Metadata } from 'next'
import { notFound } from 'next/navigation'
import { formatDate } from '#language/day'
import { type KitBags, readKitBags } from '#lib/db/kit-bag/queries'
import { lotsOverBags, numbersOf } from '#lib/project/kit/record'
import { LinkButton } from '#ui/button'
import { Empty } from '#ui/empty'
import { Facts } from '#ui/facts'
import { Ledger } from '#ui/ledger'
import { Link } from '#ui/link'
import { Notice } from '#ui/notice'
import { PageHead } from '#ui/page-head'
import { PrintLine } from '#ui/print-line'
import { Section } from '#ui/section'
import { counted, listed } from '#words/amounts'
import { calendarDay, dayOf } from '#words/date'
import { bagStatusWords, bagsWords } from '#words/kit'
import { threadName } from '#words/thread'
import { ThreadCell } from '../../../../_things/thread-cell'

type PageProps = { params: Promise<{ projectId: string }> }

export async function generateMetadata({ params }: PageProps): Promise<Metadata> {
  const kit = await readKitBags((await params).projectId)
  return { title: kit ? `Batch record of ${kit.project.title}` : 'Batch record' }
}

/** Which stock went into which bags, when and by whose hand; and who has each bag. */
export default async function KitRecordPage({ params }: PageProps) {
  const { projectId } = await params
  const kit = await readKitBags(projectId)
  if (!kit) notFound()
  const { project, master, bags, lots, threads } = kit
  const here = `/projects/${projectId}/kit`
  const cut = [...threads.values()].flatMap((thread) => {
    const over = lotsOverBags(lots, thread.id)
    return over.length > 0 ? [{ thread, over, needsOneLot: needsOneLot(kit, thread.id) }] : []
  })
  const differing = cut.filter(({ over, needsOneLot: wants }) => wants && over.length > 1)
  const touched = bags.filter(({ status }) => status !== 'open')
  return (
    <>
      <PageHead
        title={`Batch record of ${project.title}`}
        crumbs={[
          { label: 'Projects', href: '/projects' },
          { label: project.title, href: `/projects/${projectId}` },
          { label: 'Bags', href: `${here}/bags` },
          { label: 'Batch record' },
        ]}
        byline="Which stock went into which bags, when and by whom, so that a wrong lot can be found again."
        actions={<LinkButton href="/kits">Search all records</LinkButton>}
      />
      <PrintLine>
        Batch record of {project.title}, {formatDate(calendarDay(new Date()))}
      </PrintLine>
      <Facts
        items={[
          { label: 'Kits', value: master.copies },
          ...(master.spares > 0 ? [{ label: 'Of them spares', value: master.spares }] : []),
          { label: 'From the goods of', value: project.owner.name },
          { label: 'Sealed', value: touched.filter(({ status }) => status === 'sealed' || status === 'sold').length },
          { label: 'Sold', value: touched.filter(({ status }) => status === 'sold').length },
        ]}
      />
      {differing.map(({ thread, over }) => (
        <Notice key={thread.id} kind="caution" title={`${threadName(thread)} is not all of one lot.`}>
          {listed(
            over.map(
              ({ lot, bags: numbers }) => `${bagsWords(numbers)} ${lot === null ? 'of an unmarked batch' : `of lot ${lot}`}`,
            ),
          )}
          .
        </Notice>
      ))}
      {lots.length === 0 ? (
        <Empty title="Nothing is cut yet">
          The record begins with the first cut. <Link href={`${here}/bags`}>To the bags</Link>
        </Empty>
      ) : (
        <Section
          title="Thread by lot"
          note={
            cut.every(({ over }) => over.length === 1)
              ? 'every thread of one lot over all its bags'
              : `${counted(cut.filter(({ over }) => over.length > 1).length, 'thread')} of more than one lot`
          }
        >
          <Ledger
            caption="Which bags have which lot"
            groups={cut.map(({ thread }) => ({
              key: thread.id,
              title: <ThreadCell thread={thread} />,
              rows: lots.filter(({ threadId }) => threadId === thread.id),
            }))}
            rowKey={({ id }) => id}
            columns={[
              { key: 'bags', head: 'Bags', cell: (lot) => <b>{bagsWords(numbersOf(lot))}</b>, phone: 'lead' },
              { key: 'lot', head: 'Lot', cell: ({ lot }) => lot ?? 'unmarked', phone: 'side' },
              {
                key: 'batch',
                head: 'Other kits',
                cell: ({ batchId }) => <Link href={`/kits?batch=${batchId}`}>of the same batch</Link>,
                phone: 'line',
                isOffPaper: true,
              },
              {
                key: 'cut',
                head: 'Cut',
                cell: ({ at, who }) => [dayOf(at), who].filter(Boolean).join(', '),
                phone: 'labelled',
              },
            ]}
          />
        </Section>
      )}
      {touched.length > 0 && (
        <Section title="Bags">
          <Ledger
            caption="Each bag: packed, checked, sealed, sold"
            rows={touched}
            rowKey={({ number }) => number}
            columns={[
              {
                key: 'bag',
                head: 'Bag',
                cell: ({ number, isSpare }) => (
                  <Link href={`${here}/bags/${number}`}>
                    {number}
                    {isSpare && ', spare'}
                  </Link>
                ),
                phone: 'lead',
              },
              { key: 'status', head: 'Stands', cell: ({ status }) => bagStatusWords[status], phone: 'side' },
              { key: 'packed', head: 'Packed', cell: (bag) => done(bag.packedAt, bag.packedBy), phone: 'labelled' },
              { key: 'checked', head: 'Checked', cell: (bag) => done(bag.checkedAt, bag.checkedBy), phone: 'labelled' },
              { key: 'sealed', head: 'Sealed', cell: (bag) => done(bag.sealedAt, bag.sealedBy), phone: 'labelled' },
              { key: 'sold', head: 'Sold', cell: (bag) => done(bag.soldAt, bag.soldTo), phone: 'labelled' },
            ]}
          />
        </Section>
      )}
    </>
  )
}

const needsOneLot = ({ master }: KitBags, threadId: string): boolean =>
  master.lines.some((line) => line.kind === 'thread' && line.threadId === threadId && line.needsOneLot)

const done = (at: Date | null, who: string | null): string => (at ? [dayOf(at), who].filter(Boolean).join(', ') : '–')
