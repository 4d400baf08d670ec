import 'server-only'
import type { CoverKind, DesignSize } from '#lib/chart/design'
import type { Weave } from '#lib/cloth/cloth-piece'
import type { Count } from '#lib/quantity/count'
import { textKey } from '#lib/quantity/text-key'
import { ok, type Result, refused } from '#lib/result'
import type { AllowanceChoice } from '#lib/thread/allowance'
import { newId } from '../new-id'
import { write } from '../write'
import type { Write } from '../write-gate'
import type { ChartRefusal } from './chart-refusal'
import { ensureThemes, type ThemeNames } from './ensure-themes'

/** What is written of a design, apart from its thread lists. */
export type DesignInput = {
  title: string
  size: DesignSize
  /** The count the chart advises. */
  advised: { count: Count; over: 1 | 2 } | null
  weave: Weave | null
  insistsOnWeave: boolean
  clothName: string | null
  coverKind: CoverKind | null
  /** Null follows the settings. */
  allowance: AllowanceChoice | null
  note: string | null
  themes: ThemeNames
}

type Refusal = Extract<ChartRefusal, { kind: 'no-such-chart' | 'design-taken' }>

/** One more design of a chart, after those it has. */
export function addDesign(input: { chartId: string; design: DesignInput }): Promise<Result<{ id: string }, Refusal>> {
  return write<{ id: string }, Refusal>(async (open) => {
    const { chartId, design } = input
    const chart = await open.tx.chart.findFirst({
      where: { id: chartId, goneAt: null },
      select: { designs: { select: { position: true, titleKey: true } } },
    })
    if (!chart) return refused({ kind: 'no-such-chart' })
    if (chart.designs.some(({ titleKey }) => titleKey === textKey(design.title)))
      return refused({ kind: 'design-taken', title: design.title })
    const id = newId()
    const position = Math.max(-1, ...chart.designs.map((other) => other.position)) + 1
    await writeDesign(open, { id, chartId, position, design })
    open.touch('chart', chartId)
    return ok({ id })
  })
}

export async function writeDesign(
  open: Pick<Write, 'tx' | 'touch'>,
  { id, chartId, position, design }: { id: string; chartId: string; position: number; design: DesignInput },
): Promise<void> {
  await open.tx.design.create({ data: { id, chartId, position, ...designData(design) } })
  await writeThemes(open, id, design.themes)
  open.touch('design', id)
}

/** The design's themes are these and no others. */
export async function writeThemes({ tx }: Pick<Write, 'tx'>, designId: string, names: ThemeNames): Promise<void> {
  const themeIds = await ensureThemes({ tx }, names)
  await tx.designTheme.deleteMany({ where: { designId } })
  await tx.designTheme.createMany({ data: themeIds.map((themeId) => ({ designId, themeId })) })
}

/** The design as columns of its row. */
export function designData(design: DesignInput) {
  const { title, size, advised, weave, insistsOnWeave, clothName, coverKind, allowance, note } = design
  return {
    title,
    titleKey: textKey(title),
    widthStitches: size.kind === 'stitches' ? size.width : null,
    heightStitches: size.kind === 'stitches' ? size.height : null,
    measuredWidthUm: size.kind === 'measured' ? size.widthUm : null,
    measuredHeightUm: size.kind === 'measured' ? size.heightUm : null,
    advisedThreads: advised?.count.threads ?? null,
    advisedPerUm: advised?.count.perUm ?? null,
    advisedOver: advised?.over ?? null,
    advisedWeave: weave,
    insistsOnWeave,
    advisedCloth: clothName,
    coverKind,
    allowanceProfile: allowance?.profile ?? null,
    allowanceHundredths: allowance?.profile === 'own' ? allowance.hundredths : null,
    note,
  }
}
