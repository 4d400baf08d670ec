import type { Metadata } from 'next'
import { say } from '#language/say'
import { sayParts } from '#language/say-parts'
import { listNotions, type NotionListed } from '#lib/db/notion/queries'
import { notionKinds } from '#lib/notion/notion'
import { toBuy } from '#lib/notion/to-buy'
import { PlaceLabel } from '#trade/place-label'
import { TrayWord } from '#trade/tray'
import { LinkButton } from '#ui/button'
import { Empty } from '#ui/empty'
import { FormStrip, StripCheck, StripSelect } from '#ui/form-strip'
import { type Column, Ledger } from '#ui/ledger'
import { Link } from '#ui/link'
import { Notice } from '#ui/notice'
import { PageHead } from '#ui/page-head'
import { PrintLine } from '#ui/print-line'
import { getViewer } from '#viewer/viewer'
import { counted } from '#words/amounts'
import { midSentence } from '#words/capital'
import { notionKindWords, notionTitle, toBuyWords } from '#words/notion'
import { ChooseBar } from '../_listing/choose-bar'
import { notionMatches } from '../_listing/chosen-things'
import { filterText } from '../_listing/list-address'
import { notionsQuerySchema } from '../_listing/notions-query'
import { SavedFilters } from '../_listing/saved-filters'
import { tickColumn } from '../_listing/tick-column'
import { NeedleTable } from './needle-table'

export const generateMetadata = (): Metadata => ({ title: say('Notions') })

export default async function NotionsPage({ searchParams }: { searchParams: Promise<Record<string, unknown>> }) {
  const query = notionsQuerySchema.parse(await searchParams)
  const { owners, ownerIds, ownerName } = await getViewer()
  const all = await listNotions(ownerIds)
  const shown = all.filter(notionMatches(query))
  const filter = filterText(
    new URLSearchParams(
      Object.entries(query).flatMap(([name, value]): [string, string][] => (value === null ? [] : [[name, value]])),
    ),
  )
  const list = `notions of ${ownerIds.join()}?${filter}`
  const isNarrowed = Object.values(query).some((choice) => choice !== null)
  const places = new Map(all.flatMap(({ current }) => (current ? [[current.id, current.label] as const] : [])))
  const sentence = [
    query.kind && midSentence(notionKindWords[query.kind].many),
    query.place && say('in {place}', { place: places.get(query.place) ?? say('a place with none') }),
    query.low && say('to be bought'),
    query.used && say('in use'),
  ]
    .filter(Boolean)
    .join(', ')
  const isOfNeedles = query.kind === 'needle' || (!isNarrowed && all.some(({ kind }) => kind === 'needle'))

  return (
    <>
      <PageHead
        title={say('Notions')}
        crumbs={[{ label: say('Places'), href: '/places' }, { label: say('Notions') }]}
        note={
          all.length > 0 &&
          (isNarrowed ? say('{shown} of {all}', { shown: shown.length, all: all.length }) : counted(all.length, 'notion'))
        }
        actions={owners.length > 0 && all.length > 0 && <LinkButton href="/notions/new">{say('Add a notion')}</LinkButton>}
      >
        {isOfNeedles && shown.length > 0 && <a href="#which">{say('Which needle for which count')}</a>}
      </PageHead>
      <PrintLine>{sayParts('Notions of {ownerName}{rest}', { ownerName, rest: sentence && `: ${sentence}` })}</PrintLine>
      {all.length === 0 ? (
        <Empty
          title={say('No notions yet')}
          actions={
            <>
              {owners.length > 0 && (
                <LinkButton kind="first" href="/notions/new">
                  {say('Add a notion')}
                </LinkButton>
              )}
              <LinkButton href="/bring-in">{say('Bring in a spreadsheet')}</LinkButton>
            </>
          }
        >
          {say(
            'Hoops, frames, needles, scissors, beads, ribbons, project bags: what is counted, not measured. Give each its place, and Find says where the big hoop went.',
          )}
        </Empty>
      ) : (
        <>
          <FormStrip
            action="/notions"
            label={say('Which notions')}
            summary={sentence || say('All notions')}
            second={
              <>
                <StripCheck name="low" label={say('Only what is to be bought')} isChecked={query.low !== null} />
                <StripCheck name="used" label={say('Only what is in use')} isChecked={query.used !== null} />
              </>
            }
            clear={isNarrowed ? { href: '/notions', label: say('All notions') } : undefined}
          >
            <StripSelect
              name="kind"
              label={say('Kind')}
              value={query.kind ?? ''}
              any={say('any')}
              options={notionKinds
                .filter((kind) => kind === query.kind || all.some((notion) => notion.kind === kind))
                .map((kind) => ({
                  value: kind,
                  label: `${notionKindWords[kind].many} (${all.filter((notion) => notion.kind === kind).length})`,
                }))}
            />
            <StripSelect
              name="place"
              label={say('Place')}
              value={query.place ?? ''}
              any={say('any')}
              options={[...places].map(([value, label]) => ({ value, label }))}
            />
          </FormStrip>
          <SavedFilters
            room="notions"
            filter={filter}
            missingFrom={(text) => {
              const named = new URLSearchParams(text).get('place')
              return named !== null && !places.has(named)
                ? say('This filter names a place that holds no notions any more.')
                : null
            }}
          />
          {shown.length > 0 && <ChooseBar room="notions" list={list} filter={filter} total={shown.length} noun="notion" />}
          {shown.length === 0 ? (
            <Empty title={say('No notion is like that')} actions={<LinkButton href="/notions">{say('All notions')}</LinkButton>}>
              {say('Take one of the choices off.')}
            </Empty>
          ) : (
            <Ledger
              caption={say('Notions, by kind and size')}
              columns={[tickColumn<NotionListed>(list, ({ id }) => id, notionTitle), ...columnsFor(ownerIds.length > 1)]}
              groups={notionKinds
                .map((kind) => ({ kind, rows: shown.filter((notion) => notion.kind === kind) }))
                .filter(({ rows }) => rows.length > 0)
                .map(({ kind, rows }) => ({ key: kind, title: notionKindWords[kind].many, rows }))}
              rowKey={({ id }) => id}
              rowHref={({ id }) => `/notions/${id}`}
            />
          )}
          <Notice kind="caution" title={say('Count needles out and in')}>
            {say(
              'Never leave one in cloth: it can rust, and somebody finds its point. Keep scissors sheathed and sharp things from children and animals. Needle minders are magnets: keep them away from medical implants.',
            )}
          </Notice>
          {isOfNeedles && <NeedleTable notions={all} />}
        </>
      )}
    </>
  )
}

const columnsFor = (hasOwners: boolean): Column<NotionListed>[] => [
  { key: 'name', head: say('Notion'), cell: (notion) => <b>{notionTitle(notion)}</b>, phone: 'lead' },
  {
    key: 'count',
    head: say('How many'),
    cell: ({ count }) => <span className="nb">× {count}</span>,
    isNumeric: true,
    phone: 'side',
  },
  {
    key: 'words',
    head: say('To know'),
    cell: (notion) => {
      const buying = toBuy(notion)
      return (
        <>
          {buying && <TrayWord state="short" word={toBuyWords(buying)} />}
          {notion.usedBy && (
            <span>
              {sayParts('in use for {title}', {
                title: (
                  <Link href={`/projects/${notion.usedBy.id}`} className="title">
                    {notion.usedBy.title}
                  </Link>
                ),
              })}
            </span>
          )}
          {hasOwners && <span className="quiet"> {notion.ownerName}’s</span>}
        </>
      )
    },
    phone: 'line',
  },
  {
    key: 'place',
    head: say('Place'),
    cell: ({ current, home }) =>
      current ? (
        <PlaceLabel
          label={current.label}
          href={`/places/${current.id}`}
          livesIn={home && home.id !== current.id ? home.label : undefined}
        />
      ) : (
        <span className="quiet">{say('no place yet')}</span>
      ),
    isAtEnd: true,
    phone: 'side',
  },
]
