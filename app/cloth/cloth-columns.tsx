import { formatClothSize } from '#language/lengths'
import { say } from '#language/say'
import { largeEnough } from '#lib/cloth/filter-cloth'
import type { ClothListed } from '#lib/db/cloth/queries'
import type { LengthUnit } from '#lib/quantity/cloth-length'
import { PlaceLabel } from '#trade/place-label'
import type { Column } from '#ui/ledger'
import { pieceTitle } from '#words/cloth'
import { countWords } from '#words/cloth-count'
import { tickColumn } from '../_listing/tick-column'
import s from './cloth.module.css'
import { ClothScale } from './cloth-scale'
import type { ClothColumnKey } from './columns'
import { PieceWords } from './piece-words'

/** A piece as the list has it: plain data, so that it can be sent. */
export type ClothRow = Omit<ClothListed, 'outSince'>

/** What every row of a list shares. */
export type ClothColumnsAsked = {
  shown: readonly ClothColumnKey[]
  unit: LengthUnit
  /** The longest side in the whole list. */
  longestUm: number
  /** Goods of more than one owner are shown. */
  hasOwners: boolean
  /** The size that was asked for. */
  atLeast: { widthUm: number; heightUm: number } | null
  /** Under which what is chosen of the list is kept. */
  list: string
}

/** The columns shown, in their order; drawn by the server and by the window over a long list alike. */
export function clothColumns({ shown, unit, longestUm, hasOwners, atLeast, list }: ClothColumnsAsked): Column<ClothRow>[] {
  const columns: Record<ClothColumnKey, Omit<Column<ClothRow>, 'key'>> = {
    drawn: {
      head: say('Drawn to one scale'),
      headIsHidden: true,
      cell: (piece) => <ClothScale piece={piece} longestUm={longestUm} />,
      width: '5rem',
      phone: 'mark',
    },
    name: { head: say('Piece'), width: '18rem', cell: (piece) => <b>{pieceTitle(piece)}</b>, phone: 'lead' },
    count: {
      head: say('{as, select, other {Count}}'),
      width: '7rem',
      cell: ({ ends, picks }) => countWords(ends, picks),
      isNumeric: true,
      phone: 'line',
    },
    size: {
      head: say('Size, weft × warp'),
      width: '10rem',
      cell: (piece) => (
        <>
          {formatClothSize(piece, unit)}
          <small className={s.second}>{formatClothSize(piece, unit === 'in' ? 'cm' : 'in')}</small>
        </>
      ),
      isNumeric: true,
      phone: 'side',
    },
    words: {
      head: say('To know'),
      width: '18rem',
      cell: (piece) => (
        <span className={s.words}>
          {atLeast && largeEnough(piece, atLeast) === 'turned' && <span>{say('large enough turned')}</span>}
          <PieceWords piece={piece} hasOwner={hasOwners} isLinked={false} />
        </span>
      ),
      phone: 'line',
    },
    owner: { head: say('Owner'), width: '9rem', cell: ({ ownerName }) => ownerName, phone: 'hide' },
    maker: { head: say('Maker'), width: '9rem', cell: ({ makerName }) => makerName ?? '', phone: 'hide' },
    washed: { head: say('Washed on'), width: '7rem', cell: ({ washedOn }) => washedOn ?? '', phone: 'hide' },
    place: {
      head: say('Place'),
      width: '9rem',
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
  }
  return [tickColumn<ClothRow>(list, ({ id }) => id, pieceTitle), ...shown.map((key) => ({ key, ...columns[key] }))]
}

export const clothRowHref = ({ id }: Pick<ClothRow, 'id'>): string => `/cloth/${id}`
