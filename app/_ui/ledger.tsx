import type { Key, ReactNode } from 'react'
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
  /** CSS width of the column. */
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
   * Every row of one height where there is room for a table, with columns that keep their widths, so that it can be drawn a window at a
   * time: `low` for rows of two lines, `high` for three. What does not fit is cut off there, and whole on a phone and on paper.
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
      <LedgerHead columns={columns} />
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

export function LedgerHead<Row>({ columns, rowIndex }: { columns: readonly Column<Row>[]; rowIndex?: number }) {
  return (
    <thead {...as.rowgroup}>
      <tr {...as.row} aria-rowindex={rowIndex}>
        {columns.map((column) => (
          <th
            key={column.key}
            {...as.columnheader}
            className={s.head}
            scope="col"
            data-numeric={column.isNumeric || undefined}
            data-end={column.isAtEnd || undefined}
            data-off-paper={column.isOffPaper || undefined}
            style={column.width ? { width: column.width } : undefined}
          >
            {column.headIsHidden ? <span className="vh">{column.head}</span> : column.head}
          </th>
        ))}
      </tr>
    </thead>
  )
}

type LedgerGroupHeadProps = { title: ReactNode; note?: ReactNode; columns: number; rowIndex?: number }

export function LedgerGroupHead({ title, note, columns, rowIndex }: LedgerGroupHeadProps) {
  return (
    <tr {...as.row} className={s.group} aria-rowindex={rowIndex}>
      <th {...as.rowheader} className={s.groupHead} scope="rowgroup" colSpan={columns}>
        {title}
        {note && <span>{note}</span>}
      </th>
    </tr>
  )
}

type LedgerRowProps<Row> = {
  row: Row
  table: Pick<LedgerProps<Row>, 'columns' | 'rowHref' | 'under' | 'even'>
  /** Of a table that holds more rows than are drawn, from 1 for its head. */
  rowIndex?: number
  isChosen?: boolean
}

export function LedgerRow<Row>({ row, table, rowIndex, isChosen }: LedgerRowProps<Row>) {
  const { columns, rowHref, under, even } = table
  const href = rowHref?.(row)
  const unfolded = under?.(row)
  const line = (
    <tr
      {...as.row}
      className={s.row}
      data-press={href ? true : undefined}
      aria-rowindex={rowIndex}
      data-chosen={isChosen || undefined}
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
              <Link href={href} className={even ? `${s.press} ${s.clip}` : s.press}>
                {content}
              </Link>
            ) : even && phone !== 'choose' ? (
              <div className={s.clip}>{content}</div>
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
