import type { CSSProperties, Key, ReactNode, RefCallback } from 'react'
import s from './ledger.module.css'
import { Link } from './link'
import { UnfoldGroup, UnfoldRow } from './unfold'

/**
 * Where a cell stands once the table is stacked on a phone: `mark` in a narrow column at the left, `lead` first, `side` at the right
 * edge (several stack), `line` on a line of its own, `wide` on one across to the right edge, `labelled` on a line after its head's words,
 * `choose` before all of it, but only while several are being chosen, `hide` nowhere.
 */
export type PhonePlace = 'mark' | 'lead' | 'side' | 'line' | 'wide' | 'labelled' | 'choose' | 'hide'

export type Column<Row> = {
  key: string
  /** Give it words; `headIsHidden` keeps them for those who hear the page. */
  head: ReactNode
  headIsHidden?: boolean
  cell: (row: Row) => ReactNode
  isNumeric?: boolean
  /** Pushed to the right edge, as a place is. */
  isAtEnd?: boolean
  /** CSS width of the column. Where `even` has columns keep their widths, its share of the table beside the others. */
  width?: string
  phone?: PhonePlace
  /** Left off paper. */
  isOffPaper?: boolean
}

/** With an `id`, links lead to it. */
export type Group<Row> = { key: string; id?: string; title?: ReactNode; note?: ReactNode; rows: readonly Row[] }

type LedgerProps<Row> = {
  /** Heard, not seen, unless `captionIsSeen`. */
  caption: ReactNode
  captionIsSeen?: boolean
  columns: readonly Column<Row>[]
  /** Rows in one run, or in groups. */
  rows?: readonly Row[]
  groups?: readonly Group<Row>[]
  rowKey: (row: Row) => Key
  /** Makes the whole row pressable; the link is the content of the `lead` column. */
  rowHref?: (row: Row) => string | undefined
  /** Unfolds under its row when an UnfoldButton in one of its cells is pressed; null for a row that has none. */
  under?: (row: Row) => ReactNode
  /** Under the double rule. */
  foot?: ReactNode
  /** Rows closer together, cells centred. */
  isTight?: boolean
  /**
   * Where there is room for a table its columns keep their widths whatever rows they hold, and its rows one height, so that it can be drawn a
   * window at a time: `low` for rows of two lines, `high` for three. A row that wants more room than that takes it.
   */
  even?: 'low' | 'high'
}

/** Said outright, for `display` takes a table's own roles away where its rows are stacked. */
const as = {
  table: { role: 'table' },
  rowgroup: { role: 'rowgroup' },
  row: { role: 'row' },
  columnheader: { role: 'columnheader' },
  rowheader: { role: 'rowheader' },
  cell: { role: 'cell' },
} as const

/** A ruled table. On a phone its rows become stacked lines, still a table to those who hear it. */
export function Ledger<Row>(props: LedgerProps<Row>) {
  const { caption, captionIsSeen, columns, rows, groups, foot } = props
  const parts: readonly Group<Row>[] = groups ?? [{ key: 'all', rows: rows ?? [] }]
  return (
    <table {...ledgerLook(props)}>
      <caption className={captionIsSeen ? s.caption : 'vh'}>{caption}</caption>
      <LedgerHead columns={columns} isEven={props.even !== undefined} />
      {parts.map((group) => (
        <tbody key={group.key} id={group.id} {...as.rowgroup}>
          {group.title !== undefined && <LedgerGroupHead title={group.title} note={group.note} columns={columns.length} />}
          {group.rows.map((row) => (
            <LedgerRow key={props.rowKey(row)} row={row} table={props} />
          ))}
        </tbody>
      ))}
      {foot && (
        <tfoot {...as.rowgroup}>
          <tr {...as.row}>
            <td {...as.cell} className={s.foot} colSpan={columns.length}>
              {foot}
            </td>
          </tr>
        </tfoot>
      )}
    </table>
  )
}

/** How the table of these columns looks, for the element itself. */
export function ledgerLook<Row>({ columns, isTight, even }: Pick<LedgerProps<Row>, 'columns' | 'isTight' | 'even'>) {
  return {
    ...as.table,
    className: s.ledger,
    'data-mark': columns.some((column) => column.phone === 'mark') || undefined,
    'data-tight': isTight || undefined,
    'data-even': even,
  }
}

/** Rem of a column that asks for no width of its own. */
const usualShareRem = 12
/** About as narrow as a table stands as one. */
const narrowestRem = 56

/**
 * How wide columns stand that keep their widths: those that only hold a mark as wide as they say, the others a share of what is left, so that
 * a narrow table narrows all of them and not only those that asked for nothing.
 */
function sharesOf<Row>(columns: readonly Column<Row>[]): string[] {
  const isMark = ({ phone, width }: Column<Row>) => width !== undefined && (phone === 'choose' || phone === 'mark')
  const remOf = ({ width }: Column<Row>) => (width?.endsWith('rem') ? Number.parseFloat(width) : usualShareRem)
  const sumOf = (some: readonly Column<Row>[]) => some.reduce((sum, column) => sum + remOf(column), 0)
  const left = 100 * (1 - sumOf(columns.filter(isMark)) / narrowestRem)
  const shared = sumOf(columns.filter((column) => !isMark(column)))
  return columns.map((column) =>
    isMark(column) ? `${remOf(column)}rem` : `${((left * remOf(column)) / Math.max(1, shared)).toFixed(2)}%`,
  )
}

type LedgerHeadProps<Row> = { columns: readonly Column<Row>[]; isEven?: boolean; rowIndex?: number }

export function LedgerHead<Row>({ columns, isEven = false, rowIndex }: LedgerHeadProps<Row>) {
  const shares = isEven ? sharesOf(columns) : null
  return (
    <thead {...as.rowgroup}>
      <tr {...as.row} aria-rowindex={rowIndex}>
        {columns.map((column, at) => (
          <th
            key={column.key}
            {...as.columnheader}
            className={s.head}
            scope="col"
            data-numeric={column.isNumeric || undefined}
            data-end={column.isAtEnd || undefined}
            data-off-paper={column.isOffPaper || undefined}
            style={column.width || shares ? ({ '--width': column.width, '--share': shares?.[at] } as CSSProperties) : undefined}
          >
            {column.headIsHidden ? <span className="vh">{column.head}</span> : column.head}
          </th>
        ))}
      </tr>
    </thead>
  )
}

/** Of a table that holds more lines than are drawn: which of them this is, from 0 for the first under the head, and who measures it. */
export type LineDrawn = { line?: number; measure?: RefCallback<HTMLTableRowElement> }

/** For its row. The head is the row with index 1. */
export const lineMarks = ({ line, measure }: LineDrawn) =>
  line === undefined ? {} : { 'data-index': line, 'aria-rowindex': line + 2, ref: measure }

type LedgerGroupHeadProps = LineDrawn & { title: ReactNode; note?: ReactNode; columns: number }

export function LedgerGroupHead({ title, note, columns, ...drawn }: LedgerGroupHeadProps) {
  return (
    <tr {...as.row} className={s.group} {...lineMarks(drawn)}>
      <th {...as.rowheader} className={s.groupHead} scope="rowgroup" colSpan={columns}>
        {title}
        {note && <span>{note}</span>}
      </th>
    </tr>
  )
}

type LedgerRowProps<Row> = LineDrawn & {
  row: Row
  table: Pick<LedgerProps<Row>, 'columns' | 'rowHref' | 'under'>
  isChosen?: boolean
}

export function LedgerRow<Row>({ row, table, isChosen, ...drawn }: LedgerRowProps<Row>) {
  const { columns, rowHref, under } = table
  const href = rowHref?.(row)
  const unfolded = under?.(row)
  const line = (
    <tr
      {...as.row}
      className={s.row}
      data-press={href ? true : undefined}
      data-chosen={isChosen || undefined}
      {...lineMarks(drawn)}
    >
      {columns.map((column) => {
        const phone = column.phone ?? 'line'
        const content = column.cell(row)
        return (
          <td
            key={column.key}
            {...as.cell}
            className={s.cell}
            data-phone={phone}
            data-numeric={column.isNumeric || undefined}
            data-end={column.isAtEnd || undefined}
            data-off-paper={column.isOffPaper || undefined}
          >
            {phone === 'labelled' && <span className={s.label}>{column.head} </span>}
            {phone === 'lead' && href ? (
              <Link href={href} className={s.press}>
                {content}
              </Link>
            ) : (
              content
            )}
          </td>
        )
      })}
    </tr>
  )
  if (!unfolded) return line
  return (
    <UnfoldGroup>
      {line}
      <UnfoldRow columns={columns.length} className={s.under}>
        {unfolded}
      </UnfoldRow>
    </UnfoldGroup>
  )
}
