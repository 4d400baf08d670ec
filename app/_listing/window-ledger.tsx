'use client'

import { defaultRangeExtractor, type Range, useWindowVirtualizer, type Virtualizer } from '@tanstack/react-virtual'
import { usePathname, useSearchParams } from 'next/navigation'
import { type KeyboardEvent, memo, useCallback, useEffect, useLayoutEffect, useMemo, useRef, useState } from 'react'
import { say } from '#language/say'
import { type Run, RunLines } from '#lib/listing/runs'
import { isChosen, withChosen } from '#lib/listing/selection'
import { type Column, LedgerGroupHead, LedgerHead, LedgerRow, type LineDrawn, ledgerLook, lineMarks } from '#ui/ledger'
import { Link } from '#ui/link'
import { keepWhere, type WhereLeft, whereLeft } from './came-back'
import { choose, useChosen } from './choosing'
import { TickContext } from './row-tick'
import { useRows } from './use-rows'
import s from './window-ledger.module.css'

/** Rem, as app/_ui/ledger.module.css has them: the least a line is high, and what one is taken to be that was never drawn. */
const rowRem = { low: 3.25, high: 5 } as const
const headRem = 3.5
/** Rows drawn beyond what is seen, so that a turn of the wheel finds them there. */
const overscan = 16

export type WindowListProps = {
  /** Answers the rows: app/_listing/rows-answer.ts. */
  rowsAddress: string
  revision: number
  /** The row that stands first where the list is opened at one of its pages. */
  startAt: number
  /** Under which what is chosen of it is kept. */
  list: string
  onReady: () => void
}

type WindowLedgerProps<Row> = WindowListProps & {
  caption: string
  columns: readonly Column<Row>[]
  rowId: (row: Row) => string
  rowHref: (row: Row) => string
  even: 'low' | 'high'
  isTight?: boolean
}

type Lines = Virtualizer<Window, HTMLTableRowElement>

/** To a fraction of a pixel: heights rounded one by one come to pixels that are missed over a hundred rows. */
const measureLine = (line: HTMLTableRowElement): number => line.getBoundingClientRect().height

/** Where the page stands; null where it is not scrolled. The line that is half gone may turn out higher than it is taken to be, the next begins below it. */
function whereIn(lines: Lines): WhereLeft | null {
  const offset = Math.round(lines.scrollOffset ?? 0)
  const gone = offset > 0 ? lines.getVirtualItemForOffset(offset) : undefined
  const line = gone && gone.start < offset ? (lines.measurementsCache[gone.index + 1] ?? gone) : gone
  return line ? { line: line.index, belowPx: line.start - offset } : null
}

const remPx = (): number => Number.parseFloat(getComputedStyle(document.documentElement).fontSize) || 16

/** All of a long list as one table, of which only the rows about the screen are in the page. */
export function WindowLedger<Row>(props: WindowLedgerProps<Row>) {
  const { caption, columns, rowId, rowHref, even, isTight, rowsAddress, revision, startAt, list, onReady } = props
  const rows = useRows<Row>(rowsAddress, revision, startAt)
  const isThere = rows.list !== null
  useEffect(() => {
    if (isThere) onReady()
  }, [isThere, onReady])
  if (!rows.list) return null
  return (
    <Drawn
      {...{ caption, columns, rowId, rowHref, even, isTight, list, startAt, rows }}
      total={rows.list.total}
      runs={rows.list.runs}
    />
  )
}

type DrawnProps<Row> = Pick<
  WindowLedgerProps<Row>,
  'caption' | 'columns' | 'rowId' | 'rowHref' | 'even' | 'isTight' | 'list' | 'startAt'
> & {
  rows: ReturnType<typeof useRows<Row>>
  total: number
  runs: ConstructorParameters<typeof RunLines>[0]
}

function Drawn<Row>({ caption, columns, rowId, rowHref, even, isTight, list, startAt, rows, total, runs }: DrawnProps<Row>) {
  const address = `${usePathname()}?${useSearchParams()}`
  const lines = useMemo(() => new RunLines(runs, total), [runs, total])
  const body = useRef<HTMLTableElement>(null)
  const focused = useRef<number | null>(null)
  const toFocus = useRef<number | null>(null)
  const anchor = useRef<number | null>(null)
  const [px, setPx] = useState(remPx)
  const [margin, setMargin] = useState(0)
  const [widthPx, setWidthPx] = useState(0)
  const [isCut, setIsCut] = useState(false)
  // Read before anything is kept of this visit.
  const [left] = useState(() => whereLeft(address))
  const isPlaced = useRef(false)
  const rowPx = rowRem[even] * px
  const headPx = headRem * px

  // Where the rows begin on the page: what stands above them may grow or fold.
  useLayoutEffect(() => {
    const table = body.current
    if (!table) return
    const measure = () => {
      setPx(remPx())
      const head = table.tHead?.getBoundingClientRect().height ?? 0
      const { top, width } = table.getBoundingClientRect()
      setMargin(Math.round(top + window.scrollY + head))
      setWidthPx(width)
    }
    measure()
    const watch = new ResizeObserver(measure)
    watch.observe(document.body)
    return () => watch.disconnect()
  }, [])

  const virtual = useWindowVirtualizer<HTMLTableRowElement>({
    count: lines.count,
    estimateSize: useCallback((line: number) => (lines.at(line).kind === 'head' ? headPx : rowPx), [lines, headPx, rowPx]),
    measureElement: measureLine,
    overscan,
    scrollMargin: margin,
    // Clear of the heads, which stay at the top, and of the bar that says what is chosen.
    scrollPaddingStart: headPx,
    scrollPaddingEnd: headPx * 2,
    useFlushSync: false,
    // The row that has the focus stays in the page, or the focus would be lost with it.
    rangeExtractor: useCallback((range: Range) => {
      const drawn = defaultRangeExtractor(range)
      const line = focused.current
      if (line !== null && line < range.count && !drawn.includes(line)) drawn.push(line)
      return drawn.sort((a, b) => a - b)
    }, []),
    onChange: (instance, isScrolling) => {
      if (!isScrolling && isPlaced.current) keepWhere(address, whereIn(instance))
    },
  })
  const standAt = useCallback(
    ({ line, belowPx }: WhereLeft) => {
      // Reckons where every line begins.
      virtual.getTotalSize()
      const { start } = virtual.measurementsCache[Math.min(line, lines.count - 1)] ?? { start: margin }
      window.scrollTo({ top: start - belowPx, behavior: 'instant' })
    },
    [virtual, lines, margin],
  )

  // Other widths make other heights: none that was measured holds any more, and the line at the top stays there all the same.
  // biome-ignore lint/correctness/useExhaustiveDependencies: measured anew when what heights follow from changes, and only then
  useLayoutEffect(() => {
    const where = isPlaced.current ? whereIn(virtual) : null
    virtual.measure()
    for (const line of virtual.elementsCache.values()) virtual.measureElement(line as HTMLTableRowElement)
    if (where) standAt(where)
  }, [rowPx, headPx, widthPx, columns])

  // Back at where it was left; or at the page it was opened at.
  useLayoutEffect(() => {
    if (isPlaced.current || margin === 0 || lines.count === 0) return
    isPlaced.current = true
    if (left !== null) standAt(left)
    else if (startAt > 0) virtual.scrollToIndex(lines.lineOf(startAt), { align: 'start' })
  }, [left, margin, startAt, lines, virtual, standAt])

  const items = virtual.getVirtualItems()
  const rowOf = (line: number | undefined) => {
    if (line === undefined || lines.count === 0) return null
    const at = lines.at(line)
    return at.kind === 'row' ? at.row : at.run.first
  }
  const { startIndex, endIndex } = virtual.range ?? { startIndex: 0, endIndex: 0 }
  const firstWanted = rowOf(Math.max(0, Math.min(startIndex - overscan, lines.count - 1)))
  const lastWanted = rowOf(Math.min(lines.count - 1, endIndex + overscan))
  const { want } = rows
  // Once more where the collection has changed: the rows seen are then those of before.
  const revision = rows.list?.revision
  // biome-ignore lint/correctness/useExhaustiveDependencies: `revision` says when what was there is no longer
  useEffect(() => {
    if (firstWanted !== null && lastWanted !== null) want(firstWanted, lastWanted)
  }, [firstWanted, lastWanted, want, revision])

  const focusRow = () => {
    const line = toFocus.current
    if (line === null) return
    const row = body.current?.querySelector<HTMLElement>(`tr[aria-rowindex="${line + 2}"] a`)
    if (!row) return
    toFocus.current = null
    row.focus({ preventScroll: true })
  }
  // The keyboard went to a row that has only now been drawn.
  useEffect(focusRow)

  const chosen = useChosen(list)
  const tick = (row: number, isRange: boolean) => {
    const at = rows.rowAt(row)
    if (!at) return
    const id = rowId(at)
    const from = isRange && anchor.current !== null ? anchor.current : row
    const isIn = from !== row || !isChosen(chosen, id)
    anchor.current = row
    const [first, last] = [Math.min(from, row), Math.max(from, row)]
    const ids: string[] = []
    for (let index = first; index <= last; index++) {
      const between = rows.rowAt(index)
      if (between) ids.push(rowId(between))
    }
    choose(list, (selection) => withChosen(selection, ids, isIn))
    // Those in between that were never on the screen are asked for.
    if (ids.length <= last - first)
      rows.idsBetween(first, last).then(
        (all) => choose(list, (selection) => withChosen(selection, all, isIn)),
        () => setIsCut(true),
      )
  }

  const lineOfTarget = (target: EventTarget) => {
    const index = (target as HTMLElement).closest('tr')?.getAttribute('aria-rowindex')
    return index ? Number(index) - 2 : null
  }
  const press = (target: HTMLInputElement, isRange: boolean) => {
    const line = lineOfTarget(target)
    const row = line === null ? null : rowOf(line)
    if (row !== null) tick(row, isRange)
  }
  const goTo = (row: number) => {
    const to = Math.max(0, Math.min(total - 1, row))
    toFocus.current = lines.lineOf(to)
    focused.current = lines.lineOf(to)
    virtual.scrollToIndex(lines.lineOf(to), { align: 'auto' })
    focusRow()
  }
  const onKeyDown = (event: KeyboardEvent) => {
    const line = lineOfTarget(event.target)
    if (line === null || line < 0 || event.ctrlKey || event.metaKey || event.altKey) return
    const at = lines.at(line)
    if (at.kind !== 'row') return
    const page = Math.max(1, Math.floor(window.innerHeight / rowPx) - 2)
    const isOnTick = event.target instanceof HTMLInputElement
    switch (event.key) {
      case 'x':
      case 'X':
        tick(at.row, event.shiftKey)
        break
      case ' ':
        // On a tick the browser presses it; on the row's link it would turn the page.
        if (isOnTick) return
        tick(at.row, event.shiftKey)
        break
      case 'ArrowDown':
        if (event.shiftKey) tick(Math.min(total - 1, at.row + 1), true)
        goTo(at.row + 1)
        break
      case 'ArrowUp':
        if (event.shiftKey) tick(Math.max(0, at.row - 1), true)
        goTo(at.row - 1)
        break
      case 'PageDown':
        goTo(at.row + page)
        break
      case 'PageUp':
        goTo(at.row - page)
        break
      case 'Home':
        goTo(0)
        break
      case 'End':
        goTo(total - 1)
        break
      default:
        return
    }
    event.preventDefault()
  }

  // biome-ignore lint/correctness/useExhaustiveDependencies: a run of another list begins anew
  useEffect(() => {
    anchor.current = null
  }, [list])

  const look = useMemo(() => ({ columns, rowHref }), [columns, rowHref])
  const measure = virtual.measureElement
  let drawnTo = margin
  return (
    <TickContext value={press}>
      <table
        ref={body}
        {...ledgerLook({ columns, isTight, even })}
        aria-rowcount={lines.count + 1}
        onKeyDown={onKeyDown}
        onFocus={(event) => {
          focused.current = lineOfTarget(event.target)
        }}
        onBlur={() => {
          focused.current = null
        }}
      >
        <caption className="vh">{caption}</caption>
        <LedgerHead columns={columns} rowIndex={1} isEven />
        <tbody>
          {items.flatMap(({ index, start, end }) => {
            const before = start - drawnTo
            drawnTo = end
            const line = lines.at(index)
            const row = line.kind === 'row' ? rows.rowAt(line.row) : null
            return [
              before > 0.5 && <Space key={`before ${index}`} height={before} columns={columns.length} />,
              line.kind === 'head' ? (
                <LedgerGroupHead
                  key={index}
                  title={line.run.title}
                  note={<RunNote run={line.run} />}
                  columns={columns.length}
                  line={index}
                  measure={measure}
                />
              ) : row === null ? (
                <tr key={index} {...lineMarks({ line: index, measure })} className={s.waiting} aria-busy="true">
                  <td colSpan={columns.length}>
                    <span />
                  </td>
                </tr>
              ) : (
                <Line key={index} {...{ row, look, measure }} line={index} isChosen={isChosen(chosen, rowId(row))} />
              ),
            ]
          })}
          <Space height={Math.max(0, virtual.getTotalSize() + margin - drawnTo)} columns={columns.length} />
        </tbody>
      </table>
      {(rows.hasFailed || isCut) && (
        <p role="alert" className={s.failed}>
          {isCut
            ? say('Not all of that run could be chosen: the network, or the program, is away.')
            : say('Some rows did not come: the network, or the program, is away. They are asked for again as you scroll.')}
        </p>
      )}
    </TickContext>
  )
}

/** What stands beside a heading, and where it leads. */
const RunNote = ({ run: { note, link } }: { run: Run }) => (
  <>
    {note}
    {link && (
      <>
        {' · '}
        <Link href={link.href}>
          {link.label}
          <span className="vh"> {link.of}</span>
        </Link>
      </>
    )}
  </>
)

const Space = ({ height, columns }: { height: number; columns: number }) =>
  height > 0 && (
    // biome-ignore lint/a11y/noAriaHiddenOnFocusable: nothing in it takes the focus
    <tr aria-hidden="true" className={s.space} style={{ height }}>
      <td colSpan={columns} />
    </tr>
  )

type LineProps<Row> = LineDrawn & {
  row: Row
  look: { columns: readonly Column<Row>[]; rowHref: (row: Row) => string }
  isChosen: boolean
}

/** A row is drawn again only when it, its columns or its tick change: scrolling draws the new ones alone. */
const Line = memo(function Line<Row>({ look, ...line }: LineProps<Row>) {
  return <LedgerRow {...line} table={look} />
}) as <Row>(props: LineProps<Row>) => React.ReactNode
