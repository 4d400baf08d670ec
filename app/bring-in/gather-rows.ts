import type { RowError, RowWarning } from '#lib/importing/row-error'

/** Rows that share one fault, word for word, so that it is said once. */
export type Gathered<Fault> = { fault: Fault; rowNumbers: number[] }

/** In the order of the first row of each. */
export function gatherRows<Fault extends RowError | RowWarning>(faults: readonly Fault[]): Gathered<Fault>[] {
  const gathered = new Map<string, Gathered<Fault>>()
  for (const fault of faults) {
    const { rowNumber, ...said } = fault
    const key = JSON.stringify(said)
    const known = gathered.get(key)
    if (known === undefined) gathered.set(key, { fault, rowNumbers: [rowNumber] })
    else if (!known.rowNumbers.includes(rowNumber)) known.rowNumbers.push(rowNumber)
  }
  return [...gathered.values()]
}
