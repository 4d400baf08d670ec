import type { Metadata } from 'next'
import { namesInOrder, numberText } from '#language/figures'
import { say, sayings } from '#language/say'
import { type FacetName, longestShort } from '#lib/chart/catalogue'
import { type CatalogueOrder, catalogueOrders } from '#lib/chart/catalogue-orders'
import { anyOwner, type DesignQuery, designQuerySchema } from '#lib/chart/design-query'
import type { Answers } from '#lib/db/answers/answers'
import { findDesigns } from '#lib/db/answers/find-designs'
import { getAnswers } from '#lib/db/answers/get-answers'
import { listRecentPlaces } from '#lib/db/place/recent-places'
import { walkOrder } from '#lib/place/walk-order'
import { calendarDay } from '#lib/quantity/day'
import { Word, WordsUsed } from '#trade/word'
import { LinkButton } from '#ui/button'
import { Empty } from '#ui/empty'
import type { Option } from '#ui/field'
import { FormStrip, StripCheck, StripSelect, StripStep, StripText } from '#ui/form-strip'
import { PageHead } from '#ui/page-head'
import { Pager } from '#ui/pager'
import { Ways } from '#ui/ways'
import { getViewer } from '#viewer/viewer'
import { listed } from '#words/amounts'
import { clothKindWords } from '#words/cloth-kind'
import { givenName } from '#words/given'
import type { GlossaryKey } from '#words/glossary'
import { DragGround } from '../_drag/drag-ground'
import { placesToDropOn } from '../_drag/dragged'
import { ChooseBar } from '../_listing/choose-bar'
import { ColumnsForm } from '../_listing/columns-form'
import { columnsOf } from '../_listing/columns-of'
import { filterText } from '../_listing/list-address'
import { ListTools } from '../_listing/list-tools'
import { rowsAddress } from '../_listing/rows-address'
import { SavedFilters } from '../_listing/saved-filters'
import { chartRuns, longestOf, readChartRows } from './chart-rows'
import { ChartsList } from './charts-list'
import { ChartsTable, chartsCaption } from './charts-table'
import { chartColumnsKnown, chartColumnWords } from './columns'
import { missingFromChartFilter } from './missing-from-filter'

export const generateMetadata = (): Metadata => ({ title: say('Charts') })

const pageSize = 40

const orderWords: Record<CatalogueOrder, string> = sayings({
  bestCovered: 'best covered first',
  title: 'by title',
  designer: 'by designer',
  size: 'smallest first',
  newest: 'newest first',
})

type Props = { searchParams: Promise<Record<string, string | string[] | undefined>> }

export default async function ChartsPage({ searchParams }: Props) {
  const query = designQuerySchema.parse(await searchParams)
  const [viewer, answers] = await Promise.all([getViewer(), getAnswers()])
  const { ownerIds } = viewer
  const found = findDesigns(answers, query, ownerIds, pageSize)
  const on = query.clothCount?.length === 1 ? (query.clothCount[0] ?? null) : null
  const [rows, lately] = await Promise.all([
    readChartRows(answers, found, { ownerIds, today: calendarDay(new Date()), on }),
    listRecentPlaces(placesToDropOn),
  ])
  const runs = query.order === 'bestCovered' ? chartRuns(answers, found, ownerIds) : []
  const shown = await columnsOf('charts', chartColumnsKnown)
  const filter = filterText(hrefOf(query).split('?')[1] ?? '')
  const columns = {
    shown,
    unit: viewer.settings.lengthUnit,
    longest: longestOf(answers, found),
    list: `charts of ${ownerIds.join()}?${filter}`,
    on: on === null ? null : clothKindWords(on),
  }
  const pages = Math.max(1, Math.ceil(found.count / pageSize))
  const labels = facetLabels(answers, viewer.ownerName)
  const chosen = chosenPhrases(query, labels)
  const first = (query.page - 1) * pageSize

  if (answers.catalogue.size === 0) {
    return (
      <>
        <PageHead title={say('Charts')} />
        <Empty
          title={say('No charts yet')}
          actions={
            <>
              <LinkButton kind="first" href="/bring-in">
                {say('Bring in a spreadsheet')}
              </LinkButton>
              <LinkButton href="/charts/read">{say('Read a key, a PDF or a photo')}</LinkButton>
              <LinkButton href="/charts/new">{say('Add a chart by hand')}</LinkButton>
            </>
          }
        >
          {say(
            'Every design you own stands here with its answer: can it be stitched from stash, on which cloth, and where is it.',
          )}
        </Empty>
      </>
    )
  }

  return (
    <>
      <PageHead
        title={say('Charts')}
        note={say('{count, number} of {catalogue, plural, one {# design} other {# designs}}, {order}', {
          count: found.count,
          catalogue: countOf(answers, query, ownerIds),
          order: orderWords[query.order],
        })}
        actions={
          <>
            <LinkButton href="/what-if">{say('What if')}</LinkButton>
            <LinkButton href="/charts/read">{say('Read a key')}</LinkButton>
            <LinkButton href="/charts/new">{say('Add a chart')}</LinkButton>
          </>
        }
      />
      <Ways
        items={[
          { href: '/charts/had', label: say('Have I bought this before?') },
          { href: '/charts/doubles', label: say('Doubles') },
          { href: '/projects/together', label: say('Which together') },
        ]}
      />
      <FormStrip
        action="/charts"
        label={say('Choose which charts to show')}
        summary={
          chosen.length > 0
            ? say('Showing {chosen}', { chosen: listed(chosen) })
            : say('All charts of {ownerName}, {order}', { ownerName: viewer.ownerName, order: orderWords[query.order] })
        }
        clear={
          chosen.length > 0
            ? {
                href: '/charts',
                label: say('Clear {chosen, plural, one {# choice} other {# choices}}', { chosen: chosen.length }),
              }
            : undefined
        }
        second={
          <>
            <StripCheck
              name="stitchableNow"
              label={say('Stitchable now, {stitchableNow}', { stitchableNow: found.switches.stitchableNow })}
              isChecked={query.stitchableNow !== undefined}
            />
            <StripCheck
              name="withSwaps"
              label={say('Swaps allowed, {withSwaps}', { withSwaps: found.switches.withSwaps })}
              isChecked={query.withSwaps !== undefined}
            />
            <StripCheck
              name="clothFits"
              label={say('Cloth that fits, {clothFits}', { clothFits: found.switches.clothFits })}
              isChecked={query.clothFits !== undefined}
            />
            <StripStep
              name="shortByAtMost"
              label={say('Short by at most')}
              unit={say('put-ups{shortCount}', { shortCount: shortCount(query, found.switches.shortByAtMost) })}
              value={query.shortByAtMost ?? null}
              min={0}
              max={longestShort}
            />
          </>
        }
      >
        <StripText name="q" label={say('Words')} value={query.q ?? ''} placeholder={say('title, designer, theme')} />
        {(['designer', 'season', 'subject', 'form', 'place', 'clothCount', 'kind', 'owner'] as const).map((name) => (
          <StripSelect
            key={name}
            name={name}
            label={wordOfFacet[name] ? <Word of={wordOfFacet[name]}>{facetHeads[name]}</Word> : facetHeads[name]}
            value={query[name]?.[0] ?? ''}
            any={name === 'owner' ? viewer.ownerName : say('any of {facets}', { facets: found.facets[name].size })}
            options={facetOptions(name, found.facets[name], labels, answers, query[name] ?? [])}
          />
        ))}
        <StripSelect
          name="order"
          label={say('Order')}
          value={query.order === 'bestCovered' ? '' : query.order}
          any={orderWords.bestCovered}
          options={catalogueOrders
            .filter((order) => order !== 'bestCovered')
            .map((order) => ({ value: order, label: orderWords[order] }))}
        />
      </FormStrip>
      <SavedFilters room="charts" filter={filter} missingFrom={(text) => missingFromChartFilter(text, answers)} />
      {found.count === 0 ? (
        <Empty
          title={say('No chart answers to all of these')}
          actions={<LinkButton href="/charts">{say('Clear the choices')}</LinkButton>}
        >
          {say('Let go of one choice, or allow a few put-ups to buy.')}
        </Empty>
      ) : (
        <>
          <ListTools>
            <ChooseBar room="charts" list={columns.list} filter={filter} total={found.count} noun="design" isLong={pages > 1} />
            <ColumnsForm room="charts" known={chartColumnsKnown} words={chartColumnWords} shown={shown} />
          </ListTools>
          <ChartsList
            isLong={pages > 1}
            props={{
              ...{ columns, caption: chartsCaption(), revision: answers.revision, startAt: first },
              // Whose they are is in the address, so that rows of one owner are never kept for another.
              rowsAddress: rowsAddress('charts', filter, ownerIds),
            }}
          >
            <ChartsTable columns={columns} rows={rows} runs={runs} from={first} />
            <Pager
              page={query.page}
              pages={pages}
              hrefForPage={(page) => hrefOf({ ...query, page })}
              shown={say('{first, number} to {min, number} of {count, number}', {
                first: first + 1,
                min: Math.min(first + pageSize, found.count),
                count: found.count,
              })}
            />
          </ChartsList>
          <WordsUsed of={['cover', 'put-up', 'stand-in', 'design']} />
          <DragGround places={lately} />
        </>
      )}
    </>
  )
}

/** How many there are in all of those whose charts are shown. */
const countOf = (answers: Answers, { owner }: DesignQuery, ownerIds: readonly string[]): number =>
  findDesigns(answers, designQuerySchema.parse(owner ? { owner } : {}), ownerIds, 0).count

const facetHeads: Record<FacetName, string> = sayings({
  designer: 'Designer',
  season: 'Season',
  subject: 'Subject',
  form: 'Form',
  place: 'Place',
  clothCount: 'Count on hand',
  kind: 'Kind',
  owner: 'Charts of',
})

/** Heads whose meaning is not plain to everybody. */
const wordOfFacet: Partial<Record<FacetName, GlossaryKey>> = {
  season: 'theme',
  place: 'place',
  clothCount: 'count',
  owner: 'owner',
  kind: 'chart',
}

const shortCount = ({ shortByAtMost }: DesignQuery, counts: readonly number[]) =>
  shortByAtMost === undefined ? '' : `, ${counts[shortByAtMost]}`

type Labels = (name: FacetName, value: string) => string

function facetLabels(answers: Answers, ownerName: string): Labels {
  const { designers, themes, places, owners } = answers.world
  return (name, value) => {
    switch (name) {
      case 'designer':
        return designers.get(value) ?? value
      case 'season':
      case 'subject':
      case 'form':
        return givenName(themes.get(value)?.name ?? value)
      case 'place':
        return places.get(value)?.label ?? value
      case 'owner':
        return value === anyOwner ? say('any owner') : (owners.get(value) ?? ownerName)
      case 'clothCount':
        return clothKindWords(value)
      case 'kind':
        return givenName(value)
    }
  }
}

/** A longer list is no quicker to look through than typing the name under Words. */
const mostOptions = 60

/** The values of a facet with how many designs each would leave, in the order one looks for them; of very many, those that leave most. */
function facetOptions(
  name: FacetName,
  counts: ReadonlyMap<string, number>,
  labels: Labels,
  answers: Answers,
  chosen: readonly string[],
): Option[] {
  const byCount = [...counts].sort(([a, m], [b, n]) => n - m || (a < b ? -1 : 1))
  const values = new Set([...byCount.slice(0, mostOptions).map(([value]) => value), ...chosen])
  const left = byCount.length - mostOptions
  const more: Option[] =
    left > 0 ? [{ value: `${name}-more`, label: say('{left} more: type the name under Words', { left }), isDisabled: true }] : []
  const option = (value: string, indent = ''): Option => ({
    value,
    label: `${indent}${labels(name, value)}, ${numberText(counts.get(value) ?? 0)}`,
  })
  if (name === 'place') {
    const shown = walkOrder([...answers.world.places.values()]).filter(({ id }) => values.has(id))
    const depth = ({ path }: { path: string }) => Math.max(0, path.split('/').length - 3)
    return [...shown.map((place) => option(place.id, '\u2003'.repeat(depth(place)))), ...more]
  }
  if (name === 'owner') {
    values.delete(anyOwner)
    return [{ value: anyOwner, label: say('any owner') }, ...[...values].map((value) => option(value))]
  }
  const collator = namesInOrder()
  const sorted = [...values]
    .map((value) => option(value))
    .sort((a, b) => collator.compare(a.label, b.label) || (a.value < b.value ? -1 : 1))
  return [...sorted, ...more]
}

/** What was chosen, as phrases for the phone's sentence and for paper. */
function chosenPhrases(query: DesignQuery, labels: Labels): string[] {
  const phrases: string[] = []
  if (query.q) phrases.push(`“${query.q}”`)
  for (const name of ['designer', 'season', 'subject', 'form', 'place', 'clothCount', 'kind', 'owner'] as const) {
    for (const value of query[name] ?? [])
      phrases.push(name === 'owner' ? say('charts of {labels}', { labels: labels(name, value) }) : labels(name, value))
  }
  if (query.stitchableNow) phrases.push(say('stitchable now'))
  if (query.withSwaps) phrases.push(say('swaps allowed'))
  if (query.clothFits) phrases.push(say('cloth that fits'))
  if (query.shortByAtMost !== undefined)
    phrases.push(say('short by at most {shortByAtMost}', { shortByAtMost: query.shortByAtMost }))
  return phrases
}

function hrefOf(query: DesignQuery): string {
  const search = new URLSearchParams()
  for (const [name, value] of Object.entries(query)) {
    if (value === undefined || (name === 'order' && value === 'bestCovered')) continue
    for (const one of [value].flat()) search.append(name, String(one))
  }
  return `/charts?${search}`
}
