import type { Metadata } from 'next'
import { weaves } from '#lib/cloth/cloth-piece'
import { filterCloth } from '#lib/cloth/filter-cloth'
import { clothKindKey } from '#lib/cloth/match-cloth'
import { type ClothListed, listCloth } from '#lib/db/cloth/queries'
import { formatClothSize } from '#lib/quantity/cloth-length'
import { formatCount } from '#lib/quantity/count'
import { PlaceLabel } from '#trade/place-label'
import { LinkButton } from '#ui/button'
import { Empty } from '#ui/empty'
import { FormStrip, StripCheck, StripSelect } from '#ui/form-strip'
import { type Column, type Group, Ledger } from '#ui/ledger'
import { PageHead } from '#ui/page-head'
import { Pager } from '#ui/pager'
import { PrintLine } from '#ui/print-line'
import { getViewer } from '#viewer/viewer'
import { counted } from '#words/amounts'
import { pieceTitle } from '#words/cloth'
import s from './cloth.module.css'
import { ClothScale } from './cloth-scale'
import { PieceWords } from './piece-words'
import { clothListSchema } from './schema'
import { kindTitle, otherUnit, weaveWords } from './words'

export const metadata: Metadata = { title: 'Cloth' }

const perPage = 120

type PageProps = { searchParams: Promise<Record<string, unknown>> }

export default async function ClothPage({ searchParams }: PageProps) {
  const wanted = clothListSchema.parse(withNulls(await searchParams))
  const { settings, owners, ownerIds, ownerName } = await getViewer()
  const pieces = await listCloth(ownerIds)
  const { weave, count, colour, place, offcuts, free } = wanted
  const { shown, choices } = filterCloth(pieces, {
    weave,
    count,
    colour,
    placeId: place,
    onlyOffcuts: offcuts !== undefined,
    onlyFree: free !== undefined,
  })
  const unit = settings.lengthUnit
  const isNarrowed = [weave, count, colour, place, offcuts, free].some((choice) => choice !== null && choice !== undefined)
  const pages = Math.max(1, Math.ceil(shown.length / perPage))
  const page = Math.min(wanted.page, pages)
  const onPage = shown.slice((page - 1) * perPage, page * perPage)
  const longestUm = Math.max(1, ...shown.map(({ widthUm, heightUm }) => Math.max(widthUm, heightUm)))
  const placeLabels = new Map(pieces.flatMap(({ current }) => (current ? [[current.id, current.label] as const] : [])))
  const numbers = (map: Map<string, number>, word: (value: string) => string) =>
    [...map].map(([value, many]) => ({ value, label: `${word(value)} (${many})` }))
  const sentence = [
    weave && weaveWords[weave],
    count && `${count} count`,
    colour,
    place && `in ${placeLabels.get(place) ?? 'a place with none'}`,
    offcuts && 'offcuts',
    free && 'not reserved',
  ]
    .filter(Boolean)
    .join(', ')

  const columns: Column<ClothListed>[] = [
    {
      key: 'drawn',
      head: 'Drawn to one scale',
      headIsHidden: true,
      cell: (piece) => <ClothScale piece={piece} longestUm={longestUm} />,
      width: '5rem',
      phone: 'mark',
    },
    { key: 'name', head: 'Piece', cell: (piece) => <b>{pieceTitle(piece)}</b>, phone: 'lead' },
    {
      key: 'count',
      head: 'Count',
      cell: ({ ends, picks }) => <span className="nb">{formatCount(ends, picks)}</span>,
      isNumeric: true,
      phone: 'line',
    },
    {
      key: 'size',
      head: 'Size, weft × warp',
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
      head: 'To know',
      cell: (piece) => (
        <span className={s.words}>
          <PieceWords piece={piece} hasOwner={ownerIds.length > 1} isLinked={false} />
        </span>
      ),
      phone: 'line',
    },
    {
      key: 'place',
      head: 'Place',
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
  const hrefForPage = (to: number) => `/cloth?${new URLSearchParams([...chosen(wanted), ['page', String(to)]])}`

  return (
    <>
      <PageHead
        title="Cloth"
        note={pieces.length > 0 && (isNarrowed ? `${shown.length} of ${pieces.length} pieces` : `${pieces.length} pieces`)}
        actions={owners.length > 0 && <LinkButton href="/cloth/new">Add a piece</LinkButton>}
      />
      <PrintLine>
        Cloth of {ownerName}
        {sentence && `: ${sentence}`}
      </PrintLine>
      {pieces.length === 0 ? (
        <Empty
          title="No cloth yet"
          actions={
            <>
              {owners.length > 0 && (
                <LinkButton kind="first" href="/cloth/new">
                  Add a piece
                </LinkButton>
              )}
              <LinkButton href="/bring-in">Bring in a spreadsheet</LinkButton>
            </>
          }
        >
          Each piece with its count and its measured size: then every design can say which piece to cut, and whether it fits.
        </Empty>
      ) : (
        <>
          <FormStrip
            action="/cloth"
            label="Which cloth"
            summary={sentence || 'All cloth'}
            second={
              <>
                <StripCheck name="offcuts" label="Only offcuts" isChecked={offcuts !== undefined} />
                <StripCheck name="free" label="Only what is not reserved" isChecked={free !== undefined} />
              </>
            }
            clear={isNarrowed ? { href: '/cloth', label: 'All cloth' } : undefined}
          >
            <StripSelect
              name="weave"
              label="Weave"
              value={weave ?? ''}
              any="any"
              options={weaves
                .filter((each) => choices.weave.has(each) || each === weave)
                .map((each) => ({ value: each, label: `${weaveWords[each]} (${choices.weave.get(each) ?? 0})` }))}
            />
            <StripSelect
              name="count"
              label="Count"
              value={count ?? ''}
              any="any"
              options={numbers(withChosen(choices.count, count), (value) => value)}
            />
            <StripSelect
              name="colour"
              label="Colour"
              value={colour ?? ''}
              any="any"
              options={numbers(withChosen(choices.colour, colour), (value) => value).sort((a, b) => (a.label < b.label ? -1 : 1))}
            />
            <StripSelect
              name="place"
              label="Place"
              value={place ?? ''}
              any="any"
              options={numbers(withChosen(choices.placeId, place), (id) => placeLabels.get(id) ?? 'elsewhere')}
            />
          </FormStrip>
          {shown.length === 0 ? (
            <Empty title="No piece is like that" actions={<LinkButton href="/cloth">All cloth</LinkButton>}>
              Take one of the choices off. An evenweave may be written down as linen of the same count.
            </Empty>
          ) : (
            <>
              <Ledger
                caption="Cloth, by weave and count"
                columns={columns}
                groups={groupByKind(onPage)}
                rowKey={({ id }) => id}
                rowHref={({ id }) => `/cloth/${id}`}
              />
              <Pager
                page={page}
                pages={pages}
                hrefForPage={hrefForPage}
                shown={`${(page - 1) * perPage + 1} to ${(page - 1) * perPage + onPage.length} of ${shown.length}`}
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

/** A choice that is made stays to be seen, even where it now shows nothing. */
const withChosen = (choices: Map<string, number>, chosenValue: string | null): Map<string, number> =>
  chosenValue === null || choices.has(chosenValue) ? choices : new Map([...choices, [chosenValue, 0]])

const chosen = ({ page: _, ...choices }: Record<string, unknown>): [string, string][] =>
  Object.entries(choices).flatMap(([name, value]) => (typeof value === 'string' ? [[name, value] as [string, string]] : []))

/** Choices left out of the address narrow nothing. */
const withNulls = (search: Record<string, unknown>) => ({ weave: null, count: null, colour: null, place: null, ...search })
