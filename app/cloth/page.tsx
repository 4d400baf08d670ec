import type { Metadata } from 'next'
import { plainFigure } from '#language/figures'
import { formatClothSize } from '#language/lengths'
import { say } from '#language/say'
import { sayParts } from '#language/say-parts'
import { weaves } from '#lib/cloth/cloth-piece'
import { filterCloth, largeEnough } from '#lib/cloth/filter-cloth'
import { clothKindKey, nearCountRange } from '#lib/cloth/match-cloth'
import { colourFamilies } from '#lib/colour/family'
import { type ClothListed, listCloth } from '#lib/db/cloth/queries'
import { PlaceLabel } from '#trade/place-label'
import { LinkButton } from '#ui/button'
import { Empty } from '#ui/empty'
import type { Option } from '#ui/field'
import { FormStrip, StripCheck, StripSelect, StripText } from '#ui/form-strip'
import { type Column, type Group, Ledger } from '#ui/ledger'
import { Notice } from '#ui/notice'
import { PageHead } from '#ui/page-head'
import { Pager } from '#ui/pager'
import { PrintLine } from '#ui/print-line'
import { Ways } from '#ui/ways'
import { getViewer } from '#viewer/viewer'
import { counted, listed } from '#words/amounts'
import { pieceTitle } from '#words/cloth'
import { countWords } from '#words/cloth-count'
import { givenName } from '#words/given'
import { ChooseBar } from '../_listing/choose-bar'
import { clothHref, clothQuerySchema, filterOf } from '../_listing/cloth-query'
import { ColumnsForm } from '../_listing/columns-form'
import { columnsOf } from '../_listing/columns-of'
import { filterText } from '../_listing/list-address'
import { ListTools } from '../_listing/list-tools'
import { SavedFilters } from '../_listing/saved-filters'
import { tickColumn } from '../_listing/tick-column'
import s from './cloth.module.css'
import { ClothScale } from './cloth-scale'
import { type ClothColumnKey, clothColumnsKnown, clothColumnWords } from './columns'
import { PieceWords } from './piece-words'
import { kindTitle, otherUnit, weaveWords } from './words'

export const generateMetadata = (): Metadata => ({ title: say('Cloth') })

const perPage = 120

type PageProps = { searchParams: Promise<Record<string, unknown>> }

export default async function ClothPage({ searchParams }: PageProps) {
  const query = clothQuerySchema.parse(await searchParams)
  const { settings, owners, ownerIds, ownerName } = await getViewer()
  const pieces = await listCloth(ownerIds)
  const unit = settings.lengthUnit
  const { filter, unread } = filterOf(query, unit)
  const { shown, choices } = filterCloth(pieces, filter)
  const { page: _page, ...narrowing } = query
  const isNarrowed = Object.values(narrowing).some((choice) => choice !== null)
  const pages = Math.max(1, Math.ceil(shown.length / perPage))
  const page = Math.min(query.page, pages)
  const onPage = shown.slice((page - 1) * perPage, page * perPage)
  const longestUm = Math.max(1, ...shown.map(({ widthUm, heightUm }) => Math.max(widthUm, heightUm)))
  const placeLabels = new Map(pieces.flatMap(({ current }) => (current ? [[current.id, current.label] as const] : [])))
  const placeLabel = (id: string) => placeLabels.get(id) ?? say('elsewhere')
  const { weave, count, colour, place, offcuts, free } = query
  const { atLeast } = filter
  const sentence = [
    weave && weaveWords[weave],
    filter.count !== null && say('near {count} count', { count }),
    colour && colourWords(colour),
    atLeast && say('at least {atLeast}', { atLeast: formatClothSize(atLeast, unit) }),
    place && say('in {place}', { place: placeLabels.get(place) ?? say('a place with none') }),
    offcuts && say('offcuts'),
    free && say('not reserved'),
  ]
    .filter(Boolean)
    .join(', ')

  const filterKept = filterText(clothHref(query, 1).split('?')[1] ?? '')
  const list = `cloth of ${ownerIds.join()}?${filterKept}`
  const chosenColumns = await columnsOf('cloth', clothColumnsKnown)
  const every: (Column<ClothListed> & { key: ClothColumnKey })[] = [
    {
      key: 'drawn',
      head: say('Drawn to one scale'),
      headIsHidden: true,
      cell: (piece) => <ClothScale piece={piece} longestUm={longestUm} />,
      width: '5rem',
      phone: 'mark',
    },
    { key: 'name', head: say('Piece'), cell: (piece) => <b>{pieceTitle(piece)}</b>, phone: 'lead' },
    {
      key: 'count',
      head: say('{as, select, other {Count}}'),
      cell: ({ ends, picks }) => <span className="nb">{countWords(ends, picks)}</span>,
      isNumeric: true,
      phone: 'line',
    },
    {
      key: 'size',
      head: say('Size, weft × warp'),
      cell: (piece) => (
        <span className="nb">
          {formatClothSize(piece, unit)}
          <small className={s.second}>{formatClothSize(piece, otherUnit(unit))}</small>
        </span>
      ),
      isNumeric: true,
      phone: 'side',
    },
    {
      key: 'words',
      head: say('To know'),
      cell: (piece) => (
        <span className={s.words}>
          {atLeast && largeEnough(piece, atLeast) === 'turned' && <span className="nb">{say('large enough turned')}</span>}
          <PieceWords piece={piece} hasOwner={ownerIds.length > 1} isLinked={false} />
        </span>
      ),
      phone: 'line',
    },
    {
      key: 'owner',
      head: say('Owner'),
      cell: ({ ownerName: owner }) => owner,
      phone: 'hide',
    },
    {
      key: 'maker',
      head: say('Maker'),
      cell: ({ makerName }) => makerName ?? '',
      phone: 'hide',
    },
    {
      key: 'washed',
      head: say('Washed on'),
      cell: ({ washedOn }) => washedOn ?? '',
      phone: 'hide',
    },
    {
      key: 'place',
      head: say('Place'),
      cell: ({ current, home }) =>
        current && (
          <PlaceLabel
            label={current.label}
            href={`/places/${current.id}`}
            livesIn={home && home.id !== current.id ? home.label : undefined}
          />
        ),
      isAtEnd: true,
      phone: 'side',
    },
  ]

  const columns = [
    tickColumn<ClothListed>(list, ({ id }) => id, pieceTitle),
    ...chosenColumns.flatMap((key) => every.filter((column) => column.key === key)),
  ]

  return (
    <>
      <PageHead
        title={say('Cloth')}
        note={
          pieces.length > 0 &&
          (isNarrowed
            ? say('{shown} of {pieces} pieces', { shown: shown.length, pieces: pieces.length })
            : say('{pieces} pieces', { pieces: pieces.length }))
        }
        actions={
          owners.length > 0 && (
            <>
              <LinkButton href="/cloth/cut">{say('Plans of cuts')}</LinkButton>
              <LinkButton href="/cloth/new">{say('Add a piece')}</LinkButton>
            </>
          )
        }
      />
      <Ways
        items={[
          { href: '/cloth/count', label: say('What count is it?') },
          { href: '/cloth/yardage', label: say('How much to buy') },
          { href: '/cloth/choose', label: say('What it can become') },
        ]}
      />
      <PrintLine>{sayParts('Cloth of {ownerName}{rest}', { ownerName, rest: sentence && `: ${sentence}` })}</PrintLine>
      {pieces.length === 0 ? (
        <Empty
          title={say('No cloth yet')}
          actions={
            <>
              {owners.length > 0 && (
                <LinkButton kind="first" href="/cloth/new">
                  {say('Add a piece')}
                </LinkButton>
              )}
              <LinkButton href="/bring-in">{say('Bring in a spreadsheet')}</LinkButton>
            </>
          }
        >
          {say(
            'Each piece with its count and its measured size: then every design can say which piece to cut, and whether it fits.',
          )}
        </Empty>
      ) : (
        <>
          <FormStrip
            action="/cloth"
            label={say('Which cloth')}
            summary={sentence || say('All cloth')}
            second={
              <>
                <StripCheck name="offcuts" label={say('Only offcuts')} isChecked={offcuts !== null} />
                <StripCheck name="free" label={say('Only what is not reserved')} isChecked={free !== null} />
              </>
            }
            clear={isNarrowed ? { href: '/cloth', label: say('All cloth') } : undefined}
          >
            <StripSelect
              name="weave"
              label={say('Weave')}
              value={weave ?? ''}
              any={say('any')}
              options={weaves
                .filter((each) => choices.weave.has(each) || each === weave)
                .map((each) => ({ value: each, label: `${weaveWords[each]} (${choices.weave.get(each) ?? 0})` }))}
            />
            <StripSelect
              name="count"
              label={say('Count, or near it')}
              value={count ?? ''}
              any={say('any')}
              options={withChosen(numbered(choices.count, String), count, (value) => value)}
            />
            <StripText
              name="size"
              label={say('At least')}
              value={query.size ?? ''}
              placeholder={unit === 'in' ? '14 × 18' : '35 × 45'}
            />
            <StripSelect
              name="colour"
              label={say('Colour')}
              value={colour ?? ''}
              any={say('any')}
              options={withChosen(
                [
                  ...numbered(choices.family, colourWords).map((option) => ({
                    ...option,
                    group: option.value.includes(' ') ? say('Between two') : say('By family'),
                  })),
                  ...numbered(choices.colour, (value) => value)
                    .sort((a, b) => (a.label < b.label ? -1 : 1))
                    .map((option) => ({ ...option, group: say('By name') })),
                ],
                colour,
                colourWords,
              )}
            />
            <StripSelect
              name="place"
              label={say('Place')}
              value={place ?? ''}
              any={say('any')}
              options={withChosen(numbered(choices.placeId, placeLabel), place, placeLabel)}
            />
          </FormStrip>
          {unread.length > 0 && (
            <Notice kind="caution" title={say('Not all of that could be read')}>
              {unread.includes('size') && (
                <p>
                  {sayParts(
                    '“{query}” is no size. Give it as {isIn, select, yes {14 × 18, or 14 x 18 in} other {35 × 45, or 14 x 18 in}}.',
                    { query: query.size, isIn: unit === 'in' },
                  )}
                </p>
              )}
              {unread.includes('count') && <p>{sayParts('“{count}” is no count. Give it as 32, or as 126/10cm.', { count })}</p>}
            </Notice>
          )}
          {filter.count !== null && <p className={s.near}>{nearWords(filter.count)}</p>}
          <SavedFilters
            room="cloth"
            filter={filterKept}
            missingFrom={(text) => {
              const named = new URLSearchParams(text).get('place')
              return named !== null && !placeLabels.has(named)
                ? say('This filter names a place that holds no cloth any more.')
                : null
            }}
          />
          {shown.length === 0 ? (
            <Empty title={say('No piece is like that')} actions={<LinkButton href="/cloth">{say('All cloth')}</LinkButton>}>
              {say('Take one of the choices off, or ask for a little less cloth.')}
            </Empty>
          ) : (
            <>
              <ListTools>
                <ChooseBar room="cloth" list={list} filter={filterKept} total={shown.length} noun="piece" />
                <ColumnsForm room="cloth" known={clothColumnsKnown} words={clothColumnWords} shown={chosenColumns} />
              </ListTools>
              <Ledger
                caption={say('Cloth, by weave and count')}
                columns={columns}
                groups={groupByKind(onPage)}
                rowKey={({ id }) => id}
                rowHref={({ id }) => `/cloth/${id}`}
              />
              <Pager
                page={page}
                pages={pages}
                hrefForPage={(to) => clothHref(query, to)}
                shown={say('{page} to {page2} of {shown}', {
                  page: (page - 1) * perPage + 1,
                  page2: (page - 1) * perPage + onPage.length,
                  shown: shown.length,
                })}
              />
            </>
          )}
        </>
      )}
    </>
  )
}

/** Pieces of one weave and count under one head, in the order they come. */
function groupByKind(pieces: readonly ClothListed[]): Group<ClothListed>[] {
  const groups = new Map<string, { title: string; rows: ClothListed[] }>()
  for (const piece of pieces) {
    const key = clothKindKey(piece)
    const group = groups.get(key)
    if (group) group.rows.push(piece)
    else groups.set(key, { title: kindTitle(piece), rows: [piece] })
  }
  return [...groups].map(([key, { title, rows }]) => ({
    key,
    title,
    note: counted(rows.length, 'piece'),
    rows,
  }))
}

/** Near 32 is 30.4 to 33.6 to the inch: 31 × 33 is taken in. */
function nearWords(count: number): string {
  const { least, most } = nearCountRange(count)
  const figure = (value: number) => plainFigure(Number(value.toFixed(1)))
  return say('Near {figure} is from {figure2} to {figure3} to the inch, ends and picks taken together; the nearest come first.', {
    figure: figure(count),
    figure2: figure(least),
    figure3: figure(most),
  })
}

/** "grey blue" → "grey and blue"; a name stays as it is. */
const colourWords = (value: string): string => (isFamilies(value) ? listed(value.split(' ').map(givenName)) : value)
const isFamilies = (value: string): boolean => value.split(' ').every((word) => colourFamilies.some((family) => family === word))

/** Choices with how many pieces each would show. */
const numbered = <Value extends string | number>(counts: ReadonlyMap<Value, number>, word: (value: Value) => string): Option[] =>
  [...counts].map(([value, many]) => ({ value: String(value), label: `${word(value)} (${many})` }))

/** A choice that is made stays to be seen, even where it is none of those offered. */
const withChosen = (options: Option[], chosen: string | null, word: (value: string) => string): Option[] =>
  chosen === null || options.some(({ value }) => value === chosen)
    ? options
    : [...options, { value: chosen, label: word(chosen) }]
