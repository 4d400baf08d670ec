import 'server-only'
import type { Fault } from '#lib/checking/fault'
import type { ReadRows } from '../read-snapshot'
import { isFileFaultThere } from './find-file-faults'
import { findLoanFaults, findLookedForFaults } from './find-loan-faults'
import { findPlaceFaults } from './find-place-faults'
import { findPromiseFaults } from './find-promise-faults'
import { findReferenceFaults } from './find-reference-faults'
import { findStockFaults, findWhereaboutsFaults } from './find-stock-faults'

/** The part of the check that tells a fault of this kind, asked about its thing alone where it can be; null for what no repair is offered of. */
function partFor({ kind, about }: Fault, rows: ReadRows): AsyncGenerator<Fault, void, void> | null {
  switch (kind) {
    case 'stock-differs':
    case 'below-nothing':
    case 'gone-holds':
      return findStockFaults(rows, about.id)
    case 'in-gone-place':
    case 'out-differs':
      return findWhereaboutsFaults(rows, about.id)
    case 'place-in-circle':
    case 'place-in-gone-place':
    case 'place-path-differs':
    case 'bag-gone':
      return findPlaceFaults(rows)
    case 'promise-closed':
    case 'promise-beyond':
      return findPromiseFaults(rows, about.id)
    case 'lent-elsewhere':
    case 'lent-twice':
      return findLoanFaults(rows)
    case 'looked-for-here':
    case 'looked-for-twice':
      return findLookedForFaults(rows)
    case 'occasion-gone':
    case 'label-of-nothing':
    case 'told-apart-gone':
    case 'revision-behind':
      return findReferenceFaults(rows)
    default:
      return null
  }
}

/** Whether a fault is there still, as it was told: `as-told`, `another` where its figures are others now, `gone`. */
export async function findAgain(fault: Fault, rows: ReadRows): Promise<'as-told' | 'another' | 'gone'> {
  const isThere = await isFileFaultThere(fault, rows)
  if (isThere !== null) return isThere ? 'as-told' : 'gone'
  for await (const found of partFor(fault, rows) ?? []) {
    if (found.id !== fault.id) continue
    return factsOf(found) === factsOf(fault) ? 'as-told' : 'another'
  }
  return 'gone'
}

/** What a fault is but for what its thing is called by now. The write that asks has itself raised the revision. */
const factsOf = ({ about: _about, ...facts }: Fault): string =>
  JSON.stringify(facts.kind === 'revision-behind' ? { ...facts, revision: 0 } : facts)
