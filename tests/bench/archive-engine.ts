import { CoverageEngine } from '#lib/coverage/engine'
import type { NeedIndex } from '#lib/coverage/need-index'
import type { ArchiveWorld } from './archive-world'

/** The archive's answers from these owners' stock, by an index made of its lists. */
export const engineOf = (world: ArchiveWorld, index: NeedIndex, owners: readonly string[]): CoverageEngine =>
  new CoverageEngine({
    index,
    threads: world.threads.map(({ threadId, line: { lotsMatter, putUpStrandTenths } }) => ({
      ...{ threadId, lotsMatter, putUpStrandTenths, standInThreadIds: [] },
    })),
    stock: world.threads.map(({ threadId }) => world.stockOf(threadId, owners)),
  })
