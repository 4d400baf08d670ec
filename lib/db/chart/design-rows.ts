import 'server-only'
import type { AdvisedCloth, CoverKind, Design, DesignSize } from '#lib/chart/design'
import type { ThreadList } from '#lib/chart/thread-list'
import type { Weave } from '#lib/cloth/cloth-piece'
import { allowanceChoiceOf } from '#lib/thread/allowance'
import { type StitchTally, stitches } from '#lib/thread/stitches'
import type { Prisma } from '../generated/sqlite/client'

export const designColumns = {
  id: true,
  chartId: true,
  title: true,
  widthStitches: true,
  heightStitches: true,
  measuredWidthUm: true,
  measuredHeightUm: true,
  advisedThreads: true,
  advisedPerUm: true,
  advisedOver: true,
  advisedWeave: true,
  insistsOnWeave: true,
  advisedCloth: true,
  coverKind: true,
  allowanceProfile: true,
  allowanceHundredths: true,
} as const satisfies Prisma.DesignSelect

type DesignRow = Prisma.DesignGetPayload<{ select: typeof designColumns }>

export const toDesign = (row: DesignRow): Design => ({
  id: row.id,
  chartId: row.chartId,
  title: row.title,
  size: sizeOf(row),
  advised: advisedOf(row),
  coverKind: row.coverKind as CoverKind | null,
  allowance: allowanceChoiceOf(row.allowanceProfile, row.allowanceHundredths),
})

function sizeOf({ widthStitches, heightStitches, measuredWidthUm, measuredHeightUm }: DesignRow): DesignSize {
  if (widthStitches !== null && heightStitches !== null) {
    return { kind: 'stitches', width: widthStitches, height: heightStitches }
  }
  if (measuredWidthUm !== null && measuredHeightUm !== null) {
    return { kind: 'measured', widthUm: measuredWidthUm, heightUm: measuredHeightUm }
  }
  return { kind: 'unknown' }
}

function advisedOf(row: DesignRow): AdvisedCloth | null {
  if (row.advisedThreads === null || row.advisedPerUm === null || row.advisedOver === null) return null
  return {
    count: { threads: row.advisedThreads, perUm: row.advisedPerUm },
    over: row.advisedOver as 1 | 2,
    weave: row.advisedWeave as Weave | null,
    insists: row.insistsOnWeave,
    name: row.advisedCloth,
  }
}

const tallyColumns = Object.fromEntries(stitches.map((stitch) => [stitch, true])) as Record<(typeof stitches)[number], true>

export const listColumns = {
  id: true,
  designId: true,
  name: true,
  isIncomplete: true,
  version: true,
  keyLines: {
    orderBy: { position: 'asc' },
    select: {
      id: true,
      symbol: true,
      hasTally: true,
      ...tallyColumns,
      // Put in order below: an ordered relation is asked for with every key line's id, and SQLite takes no more than 999 of them.
      threads: {
        select: { position: true, threadId: true, strands: true, statedHundredths: true, statedPutUpTenths: true },
      },
    },
  },
} as const satisfies Prisma.ThreadListSelect

export function toThreadList(row: Prisma.ThreadListGetPayload<{ select: typeof listColumns }>): ThreadList & { version: number } {
  return {
    id: row.id,
    designId: row.designId,
    name: row.name,
    isIncomplete: row.isIncomplete,
    version: row.version,
    keyLines: row.keyLines.map((line) => ({
      id: line.id,
      symbol: line.symbol,
      tally: line.hasTally ? (Object.fromEntries(stitches.map((stitch) => [stitch, line[stitch]])) as StitchTally) : null,
      threads: line.threads
        .toSorted((a, b) => a.position - b.position)
        .map(({ threadId, strands, statedHundredths, statedPutUpTenths }) => ({
          threadId,
          strands,
          stated: statedHundredths === null ? null : { hundredths: statedHundredths, putUpTenths: statedPutUpTenths },
        })),
    })),
  }
}
