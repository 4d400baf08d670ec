import type { Metadata } from 'next'
import { plainFigure } from '#language/figures'
import { formatClothSize } from '#language/lengths'
import { say } from '#language/say'
import { sayParts } from '#language/say-parts'
import { weaves } from '#lib/cloth/cloth-piece'
import { nearCountRange } from '#lib/cloth/match-cloth'
import { colourFamilies } from '#lib/colour/family'
import { readRevision } from '#lib/db/read-revision'
import { LinkButton } from '#ui/button'
import { Empty } from '#ui/empty'
import type { Option } from '#ui/field'
import { FormStrip, StripCheck, StripSelect, StripText } from '#ui/form-strip'
import { Ledger } from '#ui/ledger'
import { Notice } from '#ui/notice'
import { PageHead } from '#ui/page-head'
import { Pager } from '#ui/pager'
import { PrintLine } from '#ui/print-line'
import { Ways } from '#ui/ways'
import { getViewer } from '#viewer/viewer'
import { listed } from '#words/amounts'
import { givenName } from '#words/given'
import { ChooseBar } from '../_listing/choose-bar'
import { clothHref, clothQuerySchema } from '../_listing/cloth-query'
import { ColumnsForm } from '../_listing/columns-form'
import { columnsOf } from '../_listing/columns-of'
import { groupsOf } from '../_listing/groups-of'
import { filterText } from '../_listing/list-address'
import { ListTools } from '../_listing/list-tools'
import { rowsAddress } from '../_listing/rows-address'
import { SavedFilters } from '../_listing/saved-filters'
import s from './cloth.module.css'
import { clothColumns, clothRowHref } from './cloth-columns'
import { findCloth, longestUmOf } from './cloth-found'
import { ClothList } from './cloth-list'
import { clothColumnsKnown, clothColumnWords } from './columns'
import { weaveWords } from './words'

export const generateMetadata = (): Metadata => ({ title: say('Cloth') })

const perPage = 120

type PageProps = { searchParams: Promise<Record<string, unknown>> }

export default async function ClothPage({ searchParams }: PageProps) {
  const query = clothQuerySchema.parse(await searchParams)
  const { settings, owners, ownerIds, ownerName } = await getViewer()
  const unit = settings.lengthUnit
  const [found, revision, shown] = await Promise.all([
    findCloth(query, ownerIds, unit),
    readRevision(),
    columnsOf('cloth', clothColumnsKnown),
  ])
  const { filter, unread, choices, placeLabels } = found
  const total = found.rows.length
  const { page: _page, ...narrowing } = query
  const isNarrowed = Object.values(narrowing).some((choice) => choice !== null)
  const pages = Math.max(1, Math.ceil(total / perPage))
  const page = Math.min(query.page, pages)
  const from = (page - 1) * perPage
  const onPage = found.rows.slice(from, from + perPage)
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
  const columns = {
    ...{ shown, unit, list, hasOwners: ownerIds.length > 1, longestUm: longestUmOf(found.rows), atLeast: filter.atLeast },
  }
  const caption = say('Cloth, by weave and count')

  return (
    <>
      <PageHead
        title={say('Cloth')}
        note={
          found.every > 0 &&
          (isNarrowed
            ? say('{shown} of {pieces} pieces', { shown: total, pieces: found.every })
            : say('{pieces} pieces', { pieces: found.every }))
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
      {found.every === 0 ? (
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
          {total === 0 ? (
            <Empty title={say('No piece is like that')} actions={<LinkButton href="/cloth">{say('All cloth')}</LinkButton>}>
              {say('Take one of the choices off, or ask for a little less cloth.')}
            </Empty>
          ) : (
            <>
              <ListTools>
                <ChooseBar room="cloth" list={list} filter={filterKept} total={total} noun="piece" isLong={pages > 1} />
                <ColumnsForm room="cloth" known={clothColumnsKnown} words={clothColumnWords} shown={shown} />
              </ListTools>
              <ClothList
                isLong={pages > 1}
                props={{ columns, caption, revision, startAt: from, rowsAddress: rowsAddress('cloth', filterKept, ownerIds) }}
              >
                <Ledger
                  caption={caption}
                  columns={clothColumns(columns)}
                  groups={groupsOf(onPage, found.runs, from)}
                  rowKey={({ id }) => id}
                  rowHref={clothRowHref}
                  even="low"
                />
                <Pager
                  page={page}
                  pages={pages}
                  hrefForPage={(to) => clothHref(query, to)}
                  shown={say('{page} to {page2} of {shown}', { page: from + 1, page2: from + onPage.length, shown: total })}
                />
              </ClothList>
            </>
          )}
        </>
      )}
    </>
  )
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
