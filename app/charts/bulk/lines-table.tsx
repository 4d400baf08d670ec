import type { ReactNode } from 'react'
import { say } from '#language/say'
import type { ChartBulkChange, ChartBulkValue } from '#lib/chart/plan-chart-bulk'
import type { ChartBulkNames } from '#lib/db/chart-bulk/queries'
import { type Column, type Group, Ledger } from '#ui/ledger'
import { Link } from '#ui/link'
import { afterWords, kindWords, valueWords } from './words'

/** One line of a change: what it is of, what was there, and how it came out. */
export type ChartTableLine = {
  id: string
  chartId: string
  designId: string | null
  before: ChartBulkValue
  note: ReactNode
  isChanged: boolean
}

type LinesTableProps = {
  caption: string
  change: ChartBulkChange
  groups: readonly Group<ChartTableLine>[]
  names: ChartBulkNames
}

/** Before and after, chart by chart or design by design. */
export function LinesTable({ caption, change, groups, names }: LinesTableProps) {
  const columns: Column<ChartTableLine>[] = [
    { key: 'chart', head: say('Chart'), cell: (line) => <ChartLineName line={line} names={names} />, phone: 'lead' },
    {
      key: 'before',
      head: say('{kind} before', { kind: kindWords[change.kind] }),
      cell: ({ before }) => valueWords(change.kind, before, names),
      phone: 'labelled',
    },
    {
      key: 'after',
      head: say('After'),
      cell: ({ isChanged }) => (isChanged ? <b>{afterWords(change, names)}</b> : say('the same')),
      phone: 'labelled',
    },
    { key: 'note', head: say('Note'), cell: ({ note }) => note, isAtEnd: true, phone: 'wide' },
  ]
  return <Ledger caption={caption} columns={columns} groups={groups} rowKey={({ id }) => id} isTight />
}

type ChartLineNameProps = { line: { chartId: string; designId: string | null }; names: ChartBulkNames }

export function ChartLineName({ line: { chartId, designId }, names }: ChartLineNameProps) {
  const title = designId === null ? names.charts.get(chartId) : names.designs.get(designId)
  if (title === undefined) return say('a chart that is not there any more')
  return (
    <Link href={designId === null ? `/charts/${chartId}` : `/designs/${designId}`}>
      <span className="title">{title}</span>
    </Link>
  )
}
