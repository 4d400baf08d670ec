import type { Metadata } from 'next'
import { say } from '#language/say'
import { sayParts } from '#language/say-parts'
import { readRevision } from '#lib/db/read-revision'
import { notionKinds } from '#lib/notion/notion'
import { LinkButton } from '#ui/button'
import { Empty } from '#ui/empty'
import { FormStrip, StripCheck, StripSelect } from '#ui/form-strip'
import { Ledger } from '#ui/ledger'
import { Notice } from '#ui/notice'
import { PageHead } from '#ui/page-head'
import { Pager } from '#ui/pager'
import { PrintLine } from '#ui/print-line'
import { getViewer } from '#viewer/viewer'
import { counted } from '#words/amounts'
import { midSentence } from '#words/capital'
import { notionKindWords } from '#words/notion'
import { ChooseBar } from '../_listing/choose-bar'
import { ColumnsForm } from '../_listing/columns-form'
import { columnsOf } from '../_listing/columns-of'
import { groupsOf } from '../_listing/groups-of'
import { filterText } from '../_listing/list-address'
import { ListTools } from '../_listing/list-tools'
import { notionsHref, notionsQuerySchema } from '../_listing/notions-query'
import { rowsAddress } from '../_listing/rows-address'
import { SavedFilters } from '../_listing/saved-filters'
import { notionColumnsKnown, notionColumnWords } from './columns'
import { NeedleTable } from './needle-table'
import { notionColumns, notionRowHref } from './notion-columns'
import { findNotions } from './notions-found'
import { NotionsList } from './notions-list'

export const generateMetadata = (): Metadata => ({ title: say('Notions') })

const perPage = 120

export default async function NotionsPage({ searchParams }: { searchParams: Promise<Record<string, unknown>> }) {
  const query = notionsQuerySchema.parse(await searchParams)
  const { owners, ownerIds, ownerName } = await getViewer()
  const [found, revision, chosenColumns] = await Promise.all([
    findNotions(query, ownerIds),
    readRevision(),
    columnsOf('notions', notionColumnsKnown),
  ])
  const { every: all, rows: shown } = found
  const filter = filterText(notionsHref(query, 1).split('?')[1] ?? '')
  const list = `notions of ${ownerIds.join()}?${filter}`
  const isNarrowed = filter !== ''
  const pages = Math.max(1, Math.ceil(shown.length / perPage))
  const page = Math.min(query.page, pages)
  const from = (page - 1) * perPage
  const onPage = shown.slice(from, from + perPage)
  const columns = { shown: chosenColumns, hasOwners: ownerIds.length > 1, list }
  const caption = say('Notions, by kind and size')
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
          {shown.length === 0 ? (
            <Empty title={say('No notion is like that')} actions={<LinkButton href="/notions">{say('All notions')}</LinkButton>}>
              {say('Take one of the choices off.')}
            </Empty>
          ) : (
            <>
              <ListTools>
                <ChooseBar room="notions" list={list} filter={filter} total={shown.length} noun="notion" isLong={pages > 1} />
                <ColumnsForm room="notions" known={notionColumnsKnown} words={notionColumnWords} shown={chosenColumns} />
              </ListTools>
              <NotionsList
                isLong={pages > 1}
                props={{ columns, caption, revision, startAt: from, rowsAddress: rowsAddress('notions', filter, ownerIds) }}
              >
                <Ledger
                  caption={caption}
                  columns={notionColumns(columns)}
                  groups={groupsOf(onPage, found.runs, from)}
                  rowKey={({ id }) => id}
                  rowHref={notionRowHref}
                  even="low"
                />
                {pages > 1 && (
                  <Pager
                    page={page}
                    pages={pages}
                    hrefForPage={(to) => notionsHref(query, to)}
                    shown={say('{page} to {page2} of {shown}', {
                      page: from + 1,
                      page2: from + onPage.length,
                      shown: shown.length,
                    })}
                  />
                )}
              </NotionsList>
            </>
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
