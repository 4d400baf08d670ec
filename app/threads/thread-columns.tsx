import { say } from '#language/say'
import { sayParts } from '#language/say-parts'
import type { ThreadLengthUnit } from '#lib/quantity/thread-length'
import type { Column } from '#ui/ledger'
import { counted, threadLength } from '#words/amounts'
import { givenName } from '#words/given'
import { lineTitle, threadTitle } from '#words/thread'
import { tickColumn } from '../_listing/tick-column'
import type { ThreadColumnKey } from './columns'
import { PlaceCell } from './place-cell'
import { threadMarkColumn } from './thread-mark'
import type { ThreadListRow } from './thread-rows'
import s from './threads.module.css'

/** What every row of a list shares. */
export type ThreadColumnsAsked = {
  shown: readonly ThreadColumnKey[]
  unit: ThreadLengthUnit
  /** Rows of one family stand together, so they say their line and not their family. */
  isByColour: boolean
  /** Under which what is chosen of the list is kept. */
  list: string
}

const notesOf = (row: ThreadListRow): string =>
  [row.lab && row.labCertainty === 'guess' && say('colour rough'), row.isLeaving && say('no longer made')]
    .filter(Boolean)
    .join(', ')

/** The columns shown, in their order; drawn by the server and by the window over a long list alike. */
export function threadColumns({ shown, unit, isByColour, list }: ThreadColumnsAsked): Column<ThreadListRow>[] {
  const length = (row: ThreadListRow, strandTenths: number) =>
    strandTenths === 0 ? '' : threadLength(strandTenths, row.line.strands, unit)
  const columns: Record<ThreadColumnKey, Omit<Column<ThreadListRow>, 'key'>> = {
    bar: threadMarkColumn(),
    code: {
      head: say('Thread'),
      width: '16rem',
      cell: (row) => (
        <>
          <span className={isByColour ? undefined : 'vh'}>{lineTitle(row.line)} </span>
          <b>{row.code}</b>
          {row.name && ` ${row.name}`}
          {notesOf(row) && <span className={s.under}>{notesOf(row)}</span>}
        </>
      ),
      phone: 'lead',
    },
    maker: { head: say('Maker and line'), width: '11rem', phone: 'hide', cell: ({ line }) => lineTitle(line) },
    family: { head: say('Family'), cell: (row) => row.family && givenName(row.family), width: '8rem', phone: 'side' },
    free: {
      head: say('Free'),
      width: '9rem',
      cell: ({ line, stock, minimumPutUps }) => (
        <>
          {stock.freeStrandTenths > 0 ? threadLength(stock.freeStrandTenths, line.strands, unit) : say('none')}
          {stock.isSomeHeld && say(' + some')}
          {stock.freePutUps > 0 && <span className={s.under}>{counted(stock.freePutUps, line.putUpWord)}</span>}
          {stock.states.includes('low') && (
            <span className={`${s.under} ${s.do}`}>{sayParts('low, keep {minimumPutUps}', { minimumPutUps })}</span>
          )}
        </>
      ),
      isNumeric: true,
      phone: 'labelled',
    },
    owned: {
      head: say('Owned'),
      width: '9rem',
      cell: (row) => (
        <>
          {row.stock.ownedStrandTenths > 0 ? length(row, row.stock.ownedStrandTenths) : row.stock.isSomeOwned ? say('some') : ''}
          {row.stock.wholePutUps > 0 && <span className={s.under}>{counted(row.stock.wholePutUps, row.line.putUpWord)}</span>}
        </>
      ),
      isNumeric: true,
      phone: 'hide',
    },
    out: {
      head: say('Out'),
      width: '7rem',
      cell: (row) => length(row, row.stock.outStrandTenths),
      isNumeric: true,
      phone: 'hide',
    },
    promised: {
      head: say('Promised'),
      width: '8rem',
      cell: (row) => length(row, row.stock.promisedStrandTenths),
      isNumeric: true,
      phone: 'hide',
    },
    minimum: {
      head: say('Least to keep'),
      width: '6rem',
      isNumeric: true,
      phone: 'hide',
      cell: ({ minimumPutUps }) => minimumPutUps ?? '',
    },
    designs: {
      head: say('Designs using it'),
      width: '6rem',
      isNumeric: true,
      phone: 'hide',
      cell: ({ designCount }) => designCount || '',
    },
    place: {
      head: say('Place'),
      cell: (row) => <PlaceCell homes={row.homes} away={row.away} />,
      isAtEnd: true,
      width: '9rem',
      phone: 'side',
    },
  }
  const ticks = tickColumn<ThreadListRow>(list, ({ id }) => id, threadTitle)
  const some = shown.filter((key) => key !== 'family' || !isByColour)
  return [ticks, ...some.map((key) => ({ ...columns[key], key }))]
}

export const threadHref = ({ id }: Pick<ThreadListRow, 'id'>): string => `/threads/${id}`
