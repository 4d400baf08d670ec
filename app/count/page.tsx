import type { Metadata } from 'next'
import { listNotCounted } from '#lib/db/count/not-counted'
import { type CountListed, listCounts } from '#lib/db/count/queries'
import { listPlaceOptions } from '#lib/db/place/queries'
import { PlaceLabel } from '#trade/place-label'
import { Empty } from '#ui/empty'
import { SelectField, TextField } from '#ui/field'
import { Form } from '#ui/form'
import { Ledger } from '#ui/ledger'
import { Link } from '#ui/link'
import { PageHead } from '#ui/page-head'
import { Pager } from '#ui/pager'
import { PrintLine } from '#ui/print-line'
import { Section } from '#ui/section'
import { rememberedName } from '#viewer/remembered-name'
import { getViewer } from '#viewer/viewer'
import { counted } from '#words/amounts'
import { shareWords } from '#words/count'
import { dayOf } from '#words/date'
import { startCountAction } from './actions'
import { countPageSchema } from './schema'
import { statusWords } from './words'

export const metadata: Metadata = { title: 'Count' }

const countsPerPage = 30
const placesShown = 40

export default async function CountPage({ searchParams }: { searchParams: Promise<Record<string, unknown>> }) {
  const { page, place: chosen } = countPageSchema.parse(await searchParams)
  const [{ ownerIds, ownerName }, name] = await Promise.all([getViewer(), rememberedName()])
  const now = new Date()
  const since = new Date(now)
  since.setFullYear(since.getFullYear() - 1)
  const offset = (page - 1) * countsPerPage
  const [places, { counts, total }, due] = await Promise.all([
    listPlaceOptions(),
    listCounts({ offset, limit: countsPerPage }),
    listNotCounted({ ownerIds, since, now }),
  ])
  const open = counts.filter(({ status }) => status === 'open' || status === 'counted')
  const closed = counts.filter(({ status }) => status === 'signed' || status === 'dropped')
  return (
    <>
      <PageHead
        title="Count"
        byline="What stands on the shelf, held against what the record says: counted blind, compared line by line, signed off by somebody else."
      />
      <PrintLine>Counts, and what {ownerName} has not had counted for a year</PrintLine>

      {places.length === 0 ? (
        <Empty title="No places yet">
          A count goes from place to place. <Link href="/places/new">Add a place</Link> first, and say where the threads are.
        </Empty>
      ) : (
        <Section title="Begin a count" id="begin">
          <Form key={chosen} action={startCountAction} submit="Begin" label="Begin a count">
            <SelectField
              name="placeId"
              label="Place, with everything inside it"
              none="Choose a place"
              defaultValue={chosen}
              options={places.map(({ id, depth, label, pathText }) => ({ value: id, label: depth === 0 ? label : pathText }))}
              isRequired
            />
            <TextField name="by" label="Who counts" defaultValue={name} autoComplete="name" width="half" isRequired />
            <TextField name="title" label="Called" width="half" hint="Left empty, it is called after the place" />
          </Form>
        </Section>
      )}

      {open.length > 0 && (
        <Section title="Under way" note={counted(open.length, 'count')}>
          <Counts counts={open} />
        </Section>
      )}

      {due.length > 0 && (
        <Section title="Not counted for a year" note="Places with threads that sell most come first.">
          <Ledger
            caption="Places with what was not counted for a year"
            rows={due.slice(0, placesShown)}
            rowKey={({ place }) => place.id}
            columns={[
              {
                key: 'place',
                head: 'Place',
                phone: 'lead',
                cell: ({ place }) => <PlaceLabel label={place.label} href={`/places/${place.id}`} />,
              },
              {
                key: 'due',
                head: 'Not counted',
                phone: 'line',
                cell: ({ due: lines, batches }) =>
                  lines === batches
                    ? lines === 1
                      ? 'its one batch'
                      : `all ${counted(lines, 'batch')}`
                    : `${lines} of ${counted(batches, 'batch')}`,
              },
              {
                key: 'last',
                head: 'Last',
                phone: 'line',
                cell: ({ oldest, never }) =>
                  oldest ? `${dayOf(oldest)}${never > 0 ? `, ${never} never` : ''}` : 'never counted',
              },
              {
                key: 'a',
                head: 'Much used',
                phone: 'line',
                cell: ({ dueA }) => dueA > 0 && `${counted(dueA, 'batch')} of threads in class A by use`,
              },
              {
                key: 'count',
                head: 'Count',
                headIsHidden: true,
                phone: 'side',
                isAtEnd: true,
                isOffPaper: true,
                cell: ({ place }) => <Link href={`/count?place=${place.id}#begin`}>Count {place.label}</Link>,
              },
            ]}
            foot={due.length > placesShown && `And ${counted(due.length - placesShown, 'place')} more.`}
          />
        </Section>
      )}

      {closed.length > 0 && (
        <Section title="Signed off and given up">
          <Counts counts={closed} />
        </Section>
      )}
      {total > countsPerPage && (
        <Pager
          page={page}
          pages={Math.ceil(total / countsPerPage)}
          hrefForPage={(to) => `/count?page=${to}`}
          shown={`${offset + 1} to ${offset + counts.length} of ${total}`}
        />
      )}
    </>
  )
}

function Counts({ counts }: { counts: readonly CountListed[] }) {
  return (
    <Ledger
      caption="Counts, the newest first"
      rows={counts}
      rowKey={({ id }) => id}
      rowHref={({ id, status }) => (status === 'open' ? `/count/${id}` : `/count/${id}/differences`)}
      columns={[
        { key: 'title', head: 'Count of', phone: 'lead', cell: ({ title }) => <b>{title}</b> },
        { key: 'status', head: 'Stands', phone: 'side', cell: ({ status }) => statusWords[status] },
        {
          key: 'began',
          head: 'Begun',
          phone: 'line',
          cell: ({ startedAt, startedBy }) => `${dayOf(startedAt)}${startedBy ? ` by ${startedBy}` : ''}`,
        },
        {
          key: 'right',
          head: 'Lines',
          phone: 'line',
          cell: ({ status, lines, linesCounted, linesRight }) =>
            // While it is counted, nothing tells how near the record one is.
            status === 'open'
              ? `${linesCounted} of ${lines} counted`
              : `${linesRight} of ${linesCounted} right, ${shareWords(linesRight, linesCounted)}`,
        },
        {
          key: 'signed',
          head: 'Closed',
          phone: 'line',
          cell: ({ signedBy, closedAt }) => [signedBy, closedAt && dayOf(closedAt)].filter(Boolean).join(', '),
        },
      ]}
    />
  )
}
