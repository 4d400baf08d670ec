import type { Metadata } from 'next'
import { notFound } from 'next/navigation'
import { formatDate } from '#language/day'
import { say } from '#language/say'
import { sayParts } from '#language/say-parts'
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
import { listed } from '#words/amounts'
import { calendarDay, dayOf } from '#words/date'
import { bagStatusWords, bagsWords } from '#words/kit'
import { threadName } from '#words/thread'
import { ThreadCell } from '../../../../_things/thread-cell'

type PageProps = { params: Promise<{ projectId: string }> }

export async function generateMetadata({ params }: PageProps): Promise<Metadata> {
  const kit = await readKitBags((await params).projectId)
  return { title: kit ? say('Batch record of {title}', { title: kit.project.title }) : say('Batch record') }
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
        title={say('Batch record of {title}', { title: project.title })}
        crumbs={[
          { label: say('Projects'), href: '/projects' },
          { label: project.title, href: `/projects/${projectId}` },
          { label: say('Bags'), href: `${here}/bags` },
          { label: say('Batch record') },
        ]}
        byline={say('Which stock went into which bags, when and by whom, so that a wrong lot can be found again.')}
        actions={<LinkButton href="/kits">{say('Search all records')}</LinkButton>}
      />
      <PrintLine>
        {sayParts('Batch record of {title}, {calendarDay}', {
          title: project.title,
          calendarDay: formatDate(calendarDay(new Date())),
        })}
      </PrintLine>
      <Facts
        items={[
          { label: say('Kits'), value: master.copies },
          ...(master.spares > 0 ? [{ label: say('Of them spares'), value: master.spares }] : []),
          { label: say('From the goods of'), value: project.owner.name },
          { label: say('Sealed'), value: touched.filter(({ status }) => status === 'sealed' || status === 'sold').length },
          { label: say('Sold'), value: touched.filter(({ status }) => status === 'sold').length },
        ]}
      />
      {differing.map(({ thread, over }) => (
        <Notice
          key={thread.id}
          kind="caution"
          title={say('{threadName} is not all of one lot.', { threadName: threadName(thread) })}
        >
          {listed(
            over.map(({ lot, bags: numbers }) =>
              say('{bags} {rest}', {
                bags: bagsWords(numbers),
                rest: lot === null ? say('of an unmarked batch') : say('of lot {lot}', { lot }),
              }),
            ),
          )}
          .
        </Notice>
      ))}
      {lots.length === 0 ? (
        <Empty title={say('Nothing is cut yet')}>
          {sayParts('The record begins with the first cut. <link>To the bags</link>', {
            link: (words) => <Link href={`${here}/bags`}>{words}</Link>,
          })}
        </Empty>
      ) : (
        <Section
          title={say('Thread by lot')}
          note={
            cut.every(({ over }) => over.length === 1)
              ? say('every thread of one lot over all its bags')
              : say('{cut, plural, one {# thread} other {# threads}} of more than one lot', {
                  cut: cut.filter(({ over }) => over.length > 1).length,
                })
          }
        >
          <Ledger
            caption={say('Which bags have which lot')}
            groups={cut.map(({ thread }) => ({
              key: thread.id,
              title: <ThreadCell thread={thread} />,
              rows: lots.filter(({ threadId }) => threadId === thread.id),
            }))}
            rowKey={({ id }) => id}
            columns={[
              { key: 'bags', head: say('Bags'), cell: (lot) => <b>{bagsWords(numbersOf(lot))}</b>, phone: 'lead' },
              { key: 'lot', head: say('Lot'), cell: ({ lot }) => lot ?? say('unmarked'), phone: 'side' },
              {
                key: 'batch',
                head: say('Other kits'),
                cell: ({ batchId }) => <Link href={`/kits?batch=${batchId}`}>{say('of the same batch')}</Link>,
                phone: 'line',
                isOffPaper: true,
              },
              {
                key: 'cut',
                head: say('Cut'),
                cell: ({ at, who }) => [dayOf(at), who].filter(Boolean).join(', '),
                phone: 'labelled',
              },
            ]}
          />
        </Section>
      )}
      {touched.length > 0 && (
        <Section title={say('Bags')}>
          <Ledger
            caption={say('Each bag: packed, checked, sealed, sold')}
            rows={touched}
            rowKey={({ number }) => number}
            columns={[
              {
                key: 'bag',
                head: say('Bag'),
                cell: ({ number, isSpare }) => (
                  <Link href={`${here}/bags/${number}`}>
                    {number}
                    {isSpare && say(', spare')}
                  </Link>
                ),
                phone: 'lead',
              },
              { key: 'status', head: say('Stands'), cell: ({ status }) => bagStatusWords[status], phone: 'side' },
              { key: 'packed', head: say('Packed'), cell: (bag) => done(bag.packedAt, bag.packedBy), phone: 'labelled' },
              { key: 'checked', head: say('Checked'), cell: (bag) => done(bag.checkedAt, bag.checkedBy), phone: 'labelled' },
              { key: 'sealed', head: say('Sealed'), cell: (bag) => done(bag.sealedAt, bag.sealedBy), phone: 'labelled' },
              { key: 'sold', head: say('Sold'), cell: (bag) => done(bag.soldAt, bag.soldTo), phone: 'labelled' },
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
