import type { Metadata } from 'next'
import { say } from '#language/say'
import { sayParts } from '#language/say-parts'
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

export const generateMetadata = (): Metadata => ({ title: say('Count') })

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
        title={say('Count')}
        byline={say(
          'What stands on the shelf, held against what the record says: counted blind, compared line by line, signed off by somebody else.',
        )}
      />
      <PrintLine>{sayParts('Counts, and what {ownerName} has not had counted for a year', { ownerName })}</PrintLine>
      {places.length === 0 ? (
        <Empty title={say('No places yet')}>
          {sayParts('A count goes from place to place. <link>Add a place</link> first, and say where the threads are.', {
            link: (words) => <Link href="/places/new">{words}</Link>,
          })}
        </Empty>
      ) : (
        <Section title={say('Begin a count')} id="begin">
          <Form key={chosen} action={startCountAction} submit={say('Begin')} label={say('Begin a count')}>
            <SelectField
              name="placeId"
              label={say('Place, with everything inside it')}
              none={say('Choose a place')}
              defaultValue={chosen}
              options={places.map(({ id, depth, label, pathText }) => ({ value: id, label: depth === 0 ? label : pathText }))}
              isRequired
            />
            <TextField name="by" label={say('Who counts')} defaultValue={name} autoComplete="name" width="half" isRequired />
            <TextField name="title" label={say('Called')} width="half" hint={say('Left empty, it is called after the place')} />
          </Form>
        </Section>
      )}
      {open.length > 0 && (
        <Section title={say('Under way')} note={counted(open.length, 'count')}>
          <Counts counts={open} />
        </Section>
      )}
      {due.length > 0 && (
        <Section title={say('Not counted for a year')} note={say('Places with threads that sell most come first.')}>
          <Ledger
            caption={say('Places with what was not counted for a year')}
            rows={due.slice(0, placesShown)}
            rowKey={({ place }) => place.id}
            columns={[
              {
                key: 'place',
                head: say('Place'),
                phone: 'lead',
                cell: ({ place }) => <PlaceLabel label={place.label} href={`/places/${place.id}`} />,
              },
              {
                key: 'due',
                head: say('Not counted'),
                phone: 'line',
                cell: ({ due: lines, batches }) =>
                  lines === batches
                    ? lines === 1
                      ? say('its one batch')
                      : say('all {lines, plural, one {# batch} other {# batches}}', { lines })
                    : say('{lines} of {batches, plural, one {# batch} other {# batches}}', { lines, batches }),
              },
              {
                key: 'last',
                head: say('Last'),
                phone: 'line',
                cell: ({ oldest, never }) =>
                  oldest ? `${dayOf(oldest)}${never > 0 ? say(', {never} never', { never }) : ''}` : say('never counted'),
              },
              {
                key: 'a',
                head: say('Much used'),
                phone: 'line',
                cell: ({ dueA }) =>
                  dueA > 0 && say('{dueA, plural, one {# batch} other {# batches}} of threads in class A by use', { dueA }),
              },
              {
                key: 'count',
                head: say('Count'),
                headIsHidden: true,
                phone: 'side',
                isAtEnd: true,
                isOffPaper: true,
                cell: ({ place }) => (
                  <Link href={`/count?place=${place.id}#begin`}>{sayParts('Count {label}', { label: place.label })}</Link>
                ),
              },
            ]}
            foot={
              due.length > placesShown &&
              say('And {due, plural, one {# place} other {# places}} more.', { due: due.length - placesShown })
            }
          />
        </Section>
      )}
      {closed.length > 0 && (
        <Section title={say('Signed off and given up')}>
          <Counts counts={closed} />
        </Section>
      )}
      {total > countsPerPage && (
        <Pager
          page={page}
          pages={Math.ceil(total / countsPerPage)}
          hrefForPage={(to) => `/count?page=${to}`}
          shown={say('{offset} to {offset2} of {total}', { offset: offset + 1, offset2: offset + counts.length, total })}
        />
      )}
    </>
  )
}

function Counts({ counts }: { counts: readonly CountListed[] }) {
  return (
    <Ledger
      caption={say('Counts, the newest first')}
      rows={counts}
      rowKey={({ id }) => id}
      rowHref={({ id, status }) => (status === 'open' ? `/count/${id}` : `/count/${id}/differences`)}
      columns={[
        { key: 'title', head: say('Count of'), phone: 'lead', cell: ({ title }) => <b>{title}</b> },
        { key: 'status', head: say('Stands'), phone: 'side', cell: ({ status }) => statusWords[status] },
        {
          key: 'began',
          head: say('Begun'),
          phone: 'line',
          cell: ({ startedAt, startedBy }) => `${dayOf(startedAt)}${startedBy ? say(' by {startedBy}', { startedBy }) : ''}`,
        },
        {
          key: 'right',
          head: say('Lines'),
          phone: 'line',
          cell: ({ status, lines, linesCounted, linesRight }) =>
            // While it is counted, nothing tells how near the record one is.
            status === 'open'
              ? say('{linesCounted} of {lines} counted', { linesCounted, lines })
              : say('{linesRight} of {linesCounted} right, {share}', {
                  linesRight,
                  linesCounted,
                  share: shareWords(linesRight, linesCounted),
                }),
        },
        {
          key: 'signed',
          head: say('Closed'),
          phone: 'line',
          cell: ({ signedBy, closedAt }) => [signedBy, closedAt && dayOf(closedAt)].filter(Boolean).join(', '),
        },
      ]}
    />
  )
}
