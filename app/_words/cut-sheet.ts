import { formatClothLength, formatClothSize } from '#language/lengths'
import type { CutLayout } from '#lib/cloth/cut-plan'
import { cutSteps, listOffcuts, listWantedParts } from '#lib/cloth/cut-steps'
import { type Block, blank } from '#lib/printing/blocks'
import type { CutSheet, CutSheetPiece } from '#lib/printing/cut-sheet'
import type { LengthUnit } from '#lib/quantity/cloth-length'
import { counted } from './amounts'
import { cutDrawingWords, umPerRulerUnit } from './cut-drawing'
import {
  afterCutting,
  beforeCutting,
  type CutNames,
  cutNames,
  otherLengthUnit,
  partTitle,
  shearsCaution,
  stepWords,
} from './cut-steps'

export type PrintedCutPlan = {
  title: string
  layouts: readonly CutLayout[]
  /** What each wish is called; one that is not here is known by its letter. */
  titles: ReadonlyMap<string, string>
  pieces: readonly { id: string; title: string; isSquared: boolean }[]
  gapUm: number
  /** At the foot of every page: whose it is, when it was made. */
  footer: string
}

/** A plan of cuts in words and lists, ready to be laid out on paper. Sizes are in both units, the person's own first. */
export function cutSheet(plan: PrintedCutPlan, unit: LengthUnit): CutSheet {
  const names = cutNames(plan.layouts, plan.titles)
  return {
    title: plan.title,
    footer: [plan.title, plan.footer].filter(Boolean).join(' · '),
    umPerRulerUnit: umPerRulerUnit[unit],
    pieces: plan.layouts.map((layout, at) => sheetPiece(plan, layout, { at, names, unit })),
    words: {
      drawnAt: (scale) =>
        `Drawn 1 : ${scale}${scale === 1 ? ', in actual size' : `, 1 mm here is ${scale} mm of cloth`}. Red dashes are cuts, numbered in their order; hatched is waste.`,
      trueLength: ['Check: this bar is 100 mm.', 'Print at 100 %, not “fit to page”.'],
      pageOf: (page, pages) => `page ${page} of ${pages}`,
      tile: (tile, tiles) => `Sheet ${tile} of ${tiles}`,
      joins: { right: (tile) => `sheet ${tile} begins at the dashes`, below: (tile) => `sheet ${tile} begins at the dashes` },
      patternSteps: (sheets, overlapMm) => [
        `The pattern is ${counted(sheets, 'sheet')} in actual size. Measure the bar below with a ruler before anything is cut: if it is not 100 mm, print again at 100 %.`,
        ...(sheets > 1
          ? [
              `Cut each sheet along its frame at the left and at the top, and lay it over its neighbour up to the dashes: ${overlapMm} mm, cross on cross. Then stick them together.`,
            ]
          : []),
        'Lay the pattern on the cloth with its head up and the warp running up and down. The red dashes are the cuts, in the order of their numbers.',
      ],
    },
  }
}

function sheetPiece(
  plan: PrintedCutPlan,
  layout: CutLayout,
  { at, names, unit }: { at: number; names: CutNames; unit: LengthUnit },
): CutSheetPiece {
  const { root } = layout
  const piece = plan.pieces.find(({ id }) => id === layout.pieceId)
  const steps = cutSteps(layout)
  const other = otherLengthUnit(unit)
  const length = (one: LengthUnit) =>
    `${formatClothLength(root.widthUm, one)} along the weft, ${formatClothLength(root.heightUm, one)} along the warp`
  return {
    layout,
    steps,
    title: [piece?.title ?? '', plan.layouts.length > 1 ? `piece ${at + 1} of ${plan.layouts.length}` : '']
      .filter(Boolean)
      .join(' · '),
    subtitle: `${length(unit)} (${formatClothSize(root, other)})${piece?.isSquared === false ? ', not squared yet' : ''}`,
    drawing: cutDrawingWords(layout, names, unit),
    blocks: [
      ...partsBlocks(layout, names, unit),
      ...stepsBlocks(plan, layout, { isFirst: at === 0, names, unit }),
      ...offcutBlocks(layout, unit),
    ],
  }
}

function partsBlocks(layout: CutLayout, names: CutNames, unit: LengthUnit): Block[] {
  const other = otherLengthUnit(unit)
  const parts = listWantedParts(layout)
  if (parts.length === 0) return []
  return [
    { kind: 'heading', text: 'Parts' },
    {
      kind: 'table',
      columns: [
        { head: '', share: 7 },
        { head: 'For', share: 46 },
        { head: 'How many', share: 14, isRight: true },
        { head: `Size, ${unit}`, share: 24, isRight: true },
        { head: `Size, ${other}`, share: 26, isRight: true },
        { head: '', share: 12 },
      ],
      rows: parts.map((part) => [
        names.letterOf(part.wishId),
        partTitle(part, names, unit) || 'a plain size',
        String(part.count),
        formatClothSize(part, unit),
        formatClothSize(part, other),
        part.isTurned ? 'turned' : '',
      ]),
    },
  ]
}

function stepsBlocks(
  plan: PrintedCutPlan,
  layout: CutLayout,
  { isFirst, names, unit }: { isFirst: boolean; names: CutNames; unit: LengthUnit },
): Block[] {
  const steps = cutSteps(layout)
  const isSquared = plan.pieces.find(({ id }) => id === layout.pieceId)?.isSquared ?? false
  const paragraphs = (texts: readonly string[]) => texts.map((text): Block => ({ kind: 'paragraph', text }))
  return [
    { kind: 'heading', text: 'Cutting steps' },
    ...paragraphs([
      ...(isFirst ? [`Shears. ${shearsCaution}`] : []),
      ...beforeCutting({ isSquared, size: layout.root, gapUm: plan.gapUm, unit, both: true }),
    ]),
    ...stepWords(steps, { ...names, unit, both: true }).map(
      ({ number, act, results }): Block => ({ kind: 'step', number: String(number), text: act, notes: results }),
    ),
    ...paragraphs([
      ...(steps.length === 0 ? ['Nothing has to be cut off: the piece is the size.'] : []),
      ...afterCutting(layout),
    ]),
  ]
}

function offcutBlocks(layout: CutLayout, unit: LengthUnit): Block[] {
  const other = otherLengthUnit(unit)
  const offcuts = listOffcuts(layout)
  if (offcuts.length === 0) return []
  return [
    { kind: 'heading', text: offcuts.length === 1 ? 'Offcut to label' : 'Offcuts to label' },
    {
      kind: 'table',
      columns: [
        { head: '', share: 14 },
        { head: `Planned, ${unit}`, share: 24 },
        { head: `Planned, ${other}`, share: 26 },
        { head: 'As measured', share: 30 },
        { head: 'Label', share: 26 },
      ],
      rows: offcuts.map((offcut) => [
        `Offcut ${offcut.number}`,
        formatClothSize(offcut, unit),
        formatClothSize(offcut, other),
        blank,
        blank,
      ]),
    },
  ]
}
