'use client'

import { say, sayings } from '#language/say'
import { type ColumnRole, columnRoles } from '#lib/chart/key-text/lesson'
import { linesOf } from '#lib/chart/reading-fields'
import { Unfold } from '#ui/unfold'
import type { SourceShown } from '../../../_reading/review-shown'
import { useDesk } from './desk-context'
import s from './review.module.css'

const roleWords: Record<ColumnRole, string> = sayings({
  symbol: 'symbol',
  code: 'code',
  name: 'colour name',
  maker: 'maker',
  'thread line': 'line of the maker',
  strands: 'strands',
  stitches: 'stitches',
  backstitch: 'backstitch',
  'put-ups': 'skeins',
  length: 'length',
  nothing: 'nothing of use',
})

type Table = { fromLine: number; toLine: number; columns: number; samples: string[][] }

const leastRows = 2
const samplesShown = 3

/** The tables of the text, to say what a column holds where it was taken for something else. */
export function ColumnLessons({ source }: { source: SourceShown }) {
  const { shown, correct } = useDesk()
  const inKey = new Set(linesOf(shown.reading).flatMap(({ line }) => line.from))
  const tables = tablesOf(source, inKey)
  if (tables.length === 0) return null
  const taught = (table: Table, column: number): string => {
    const lesson = shown.lessons.findLast(
      (one) => one.kind === 'column' && one.column === column && one.fromLine === table.fromLine && one.toLine === table.toLine,
    )
    return lesson?.kind === 'column' ? lesson.means : ''
  }
  return (
    <div className={s.columns}>
      <Unfold label={say('Was a column taken for something else?')}>
        <p className="quiet">{say('Say what it holds; all its lines are read again, but for what you corrected by hand.')}</p>
        {tables.map((table) => (
          <table key={table.fromLine} className={s.columnTable}>
            <caption className="vh">
              {say('Columns of lines {fromLine} to {toLine} of the text', {
                fromLine: table.fromLine + 1,
                toLine: table.toLine + 1,
              })}
            </caption>
            <thead>
              <tr>
                {Array.from({ length: table.columns }, (_, column) => (
                  // biome-ignore lint/suspicious/noArrayIndexKey: a column is known by its place
                  <th key={column} scope="col">
                    <select
                      className={s.input}
                      aria-label={say('What column {column} holds', { column: column + 1 })}
                      value={taught(table, column)}
                      onChange={({ target }) => {
                        if (target.value === '') return
                        const { fromLine, toLine } = table
                        const means = target.value as ColumnRole
                        void correct([{ kind: 'lesson', lesson: { kind: 'column', fromLine, toLine, column, means } }])
                      }}
                    >
                      <option value="">{say('as it was read')}</option>
                      {columnRoles.map((role) => (
                        <option key={role} value={role}>
                          {roleWords[role]}
                        </option>
                      ))}
                    </select>
                  </th>
                ))}
              </tr>
            </thead>
            <tbody>
              {table.samples.map((cells, row) => (
                // biome-ignore lint/suspicious/noArrayIndexKey: the lines never change
                <tr key={row}>
                  {Array.from({ length: table.columns }, (_, column) => (
                    // biome-ignore lint/suspicious/noArrayIndexKey: a column is known by its place
                    <td key={column}>{cells[column]}</td>
                  ))}
                </tr>
              ))}
            </tbody>
          </table>
        ))}
      </Unfold>
    </div>
  )
}

/** Runs of lines with as many cells, some of them read into the key. */
function tablesOf({ lines }: SourceShown, inKey: ReadonlySet<number>): Table[] {
  const tables: Table[] = []
  let from = 0
  while (from < lines.length) {
    const columns = lines[from]?.cells.length ?? 0
    let to = from
    while (lines[to + 1]?.cells.length === columns) to++
    const inTable = lines.slice(from, to + 1)
    if (columns > 1 && inTable.length >= leastRows && inTable.some((_, at) => inKey.has(from + at))) {
      tables.push({ fromLine: from, toLine: to, columns, samples: inTable.slice(0, samplesShown).map(({ cells }) => cells) })
    }
    from = to + 1
  }
  return tables
}
