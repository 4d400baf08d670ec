import 'server-only'
import type { ChartKind, CoverKind, Design } from '#lib/chart/design'
import { stitchSize } from '#lib/chart/design-size'
import type { ThreadList } from '#lib/chart/thread-list'
import type { Weave } from '#lib/cloth/cloth-piece'
import { needOfList } from '#lib/coverage/need'
import type { ListNeeds } from '#lib/coverage/need-columns'
import type { Settings } from '#lib/settings/settings'
import { allowanceChoiceOf, allowanceOf } from '#lib/thread/allowance'
import { type StitchTally, stitches } from '#lib/thread/stitches'
import type { ThreadLine } from '#lib/thread/thread'
import { among, isTrue, number, numberOrNull, text, textOrNull } from '../cells'
import { each, type ReadRows } from '../read-snapshot'

/** A design with what its chart says of it. */
export type DesignFacts = {
  design: Design
  chartTitle: string
  kind: ChartKind
  ownerId: string
  copies: number
  partsNeeded: number
  partsHeld: number
  homePlaceId: string | null
  currentPlaceId: string | null
  boughtOn: string | null
  designerIds: string[]
  themeIds: string[]
}

/** Designs of charts that are not gone; `designIds` null reads all. */
export async function readDesigns(rows: ReadRows, designIds: readonly string[] | null): Promise<Map<string, DesignFacts>> {
  const designs = new Map<string, DesignFacts>()
  const scope = among('d."id"', designIds)
  const sql = `SELECT d."id", d."chartId", d."title", d."widthStitches", d."heightStitches", d."measuredWidthUm", d."measuredHeightUm",
      d."advisedThreads", d."advisedPerUm", d."advisedOver", d."advisedWeave", d."insistsOnWeave", d."advisedCloth", d."coverKind",
      c."title", c."kind", c."ownerId", c."copies", c."partsNeeded", c."partsHeld", c."homePlaceId", c."currentPlaceId", c."boughtOn",
      d."allowanceProfile", d."allowanceHundredths"
    FROM "Design" d JOIN "Chart" c ON c."id" = d."chartId" WHERE c."goneAt" IS NULL${scope.sql}`
  const byChart = new Map<string, DesignFacts[]>()
  for await (const row of each(rows, sql, scope.values)) {
    const facts: DesignFacts = {
      design: {
        id: text(row[0]),
        chartId: text(row[1]),
        title: text(row[2]),
        size:
          row[3] !== null
            ? { kind: 'stitches', width: number(row[3]), height: number(row[4]) }
            : row[5] !== null
              ? { kind: 'measured', widthUm: number(row[5]), heightUm: number(row[6]) }
              : { kind: 'unknown' },
        advised:
          row[7] === null
            ? null
            : {
                count: { threads: number(row[7]), perUm: number(row[8]) },
                over: number(row[9]) as 1 | 2,
                weave: textOrNull(row[10]) as Weave | null,
                insists: isTrue(row[11]),
                name: textOrNull(row[12]),
              },
        coverKind: textOrNull(row[13]) as CoverKind | null,
        allowance: allowanceChoiceOf(textOrNull(row[23]), numberOrNull(row[24])),
      },
      chartTitle: text(row[14]),
      kind: text(row[15]) as ChartKind,
      ownerId: text(row[16]),
      copies: number(row[17]),
      partsNeeded: number(row[18]),
      partsHeld: number(row[19]),
      homePlaceId: textOrNull(row[20]),
      currentPlaceId: textOrNull(row[21]),
      boughtOn: textOrNull(row[22]),
      designerIds: [],
      themeIds: [],
    }
    designs.set(facts.design.id, facts)
    byChart.set(facts.design.chartId, [...(byChart.get(facts.design.chartId) ?? []), facts])
  }
  const chartScope = among('"chartId"', designIds && [...byChart.keys()])
  const designerSql = `SELECT "chartId", "designerId" FROM "ChartDesigner" WHERE 1 = 1${chartScope.sql} ORDER BY "chartId", "position"`
  for await (const [chartId, designerId] of each(rows, designerSql, chartScope.values)) {
    for (const facts of byChart.get(text(chartId)) ?? []) facts.designerIds.push(text(designerId))
  }
  const themeScope = among('"designId"', designIds)
  const themeSql = `SELECT "designId", "themeId" FROM "DesignTheme" WHERE 1 = 1${themeScope.sql} ORDER BY "designId", "themeId"`
  for await (const [designId, themeId] of each(rows, themeSql, themeScope.values)) {
    designs.get(text(designId))?.themeIds.push(text(themeId))
  }
  return designs
}

/**
 * What each thread list of these designs needs, at the chart's own advice, one list after another.
 *
 * @param designIds  null reads the lists of all.
 */
export async function* readNeeds(
  rows: ReadRows,
  designIds: readonly string[] | null,
  context: {
    designs: ReadonlyMap<string, DesignFacts>
    lines: ReadonlyMap<string, ThreadLine>
    lineOfThread: ReadonlyMap<string, string>
    settings: Settings
  },
): AsyncGenerator<ListNeeds, void, void> {
  const linesByThread = {
    get: (threadId: string) => context.lines.get(context.lineOfThread.get(threadId) ?? ''),
  } as ReadonlyMap<string, ThreadLine>
  const scope = among('l."designId"', designIds)
  const sql = `SELECT l."id", l."designId", l."isIncomplete", k."id", k."hasTally", ${stitches.map((stitch) => `k."${stitch}"`).join(', ')},
      t."threadId", t."strands", t."statedHundredths", t."statedPutUpTenths"
    FROM "ThreadList" l
    LEFT JOIN "KeyLine" k ON k."threadListId" = l."id"
    LEFT JOIN "KeyLineThread" t ON t."keyLineId" = k."id"
    WHERE 1 = 1${scope.sql}
    ORDER BY l."id", k."position", t."position"`
  let list: ThreadList | undefined
  const needsOf = (ended: ThreadList | undefined): ListNeeds | null => {
    const facts = ended && context.designs.get(ended.designId)
    if (!facts) return null
    const needs = needOfList({
      list: ended,
      lines: linesByThread,
      advised: facts.design.advised,
      size: stitchSize(facts.design),
      coverKind: facts.design.coverKind,
      settings: { allowance: allowanceOf(facts.design, context.settings) },
    })
    return { listId: ended.id, designId: facts.design.id, isIncomplete: ended.isIncomplete, needs }
  }
  const tallyFrom = 5
  const threadFrom = tallyFrom + stitches.length
  for await (const row of each(rows, sql, scope.values)) {
    if (list?.id !== row[0]) {
      const ended = needsOf(list)
      if (ended) yield ended
      list = { id: text(row[0]), designId: text(row[1]), name: '', isIncomplete: isTrue(row[2]), keyLines: [] }
    }
    if (!list || row[3] === null) continue
    let keyLine = list.keyLines.at(-1)
    if (keyLine?.id !== row[3]) {
      const tally: StitchTally | null = isTrue(row[4]) ? {} : null
      if (tally) {
        stitches.forEach((stitch, at) => {
          tally[stitch] = number(row[tallyFrom + at])
        })
      }
      keyLine = { id: text(row[3]), symbol: null, threads: [], tally }
      list.keyLines.push(keyLine)
    }
    if (!keyLine || row[threadFrom] === null) continue
    const hundredths = row[threadFrom + 2]
    keyLine.threads.push({
      threadId: text(row[threadFrom]),
      strands: number(row[threadFrom + 1]),
      stated:
        hundredths === null || hundredths === undefined
          ? null
          : { hundredths: number(hundredths), putUpTenths: numberOrNull(row[threadFrom + 3]) },
    })
  }
  const last = needsOf(list)
  if (last) yield last
}
