import { say } from '#language/say'
import type { Run } from '#lib/listing/runs'
import { Ledger } from '#ui/ledger'
import { groupsOf } from '../_listing/groups-of'
import { type ChartColumnsAsked, chartColumns, chartHref } from './chart-columns'
import type { ChartRow } from './chart-rows'

export const chartsCaption = () => say('Designs with their cover, size, cloth and place')

type ChartsTableProps = {
  columns: ChartColumnsAsked
  rows: readonly ChartRow[]
  /** Headings of the whole list. */
  runs: readonly Run[]
  /** The place of the first row in the whole list. */
  from: number
}

/** One page of the designs found, each with its answer. */
export function ChartsTable({ columns, rows, runs, from }: ChartsTableProps) {
  return (
    <Ledger
      caption={chartsCaption()}
      {...(runs.length > 0 ? { groups: groupsOf(rows, runs, from) } : { rows })}
      rowKey={({ id }) => id}
      rowHref={chartHref}
      columns={chartColumns(columns)}
      even="high"
    />
  )
}
