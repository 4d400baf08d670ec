import type { Run } from '#lib/listing/runs'
import type { Group } from '#ui/ledger'

/** The part of each run of a whole list that stands on one page of it. @param from  the place of the page's first row in the list */
export function groupsOf<Row>(rows: readonly Row[], runs: readonly Run[], from: number): Group<Row>[] {
  return runs
    .map(({ id, title, note, first }, at) => {
      const end = runs[at + 1]?.first ?? Number.POSITIVE_INFINITY
      return { key: `${first}`, id, title, note, rows: rows.slice(Math.max(0, first - from), Math.max(0, end - from)) }
    })
    .filter((group) => group.rows.length > 0)
}
