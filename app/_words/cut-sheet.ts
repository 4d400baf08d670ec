import { formatClothLength, formatClothSize } from '#language/lengths'
import { say } from '#language/say'
import type { CutLayout } from '#lib/cloth/cut-plan'
import { cutSteps, listOffcuts, listWantedParts } from '#lib/cloth/cut-steps'
import { type Block, blank } from '#lib/printing/blocks'
import type { CutSheet, CutSheetPiece } from '#lib/printing/cut-sheet'
import type { LengthUnit } from '#lib/quantity/cloth-length'
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
        say(
          'Drawn 1 : {scale}{scale, plural, one {, in actual size} other {, 1 mm here is # mm of cloth}}. Red dashes are cuts, numbered in their order; hatched is waste.',
          { scale },
        ),
      trueLength: [say('Check: this bar is 100 mm.'), say('Print at 100 %, not “fit to page”.')],
      pageOf: (page, pages) => say('page {page} of {pages}', { page, pages }),
      tile: (tile, tiles) => say('Sheet {tile} of {tiles}', { tile, tiles }),
      joins: {
        right: (tile) => say('sheet {tile} begins at the dashes', { tile }),
        below: (tile) => say('sheet {tile} begins at the dashes', { tile }),
      },
      patternSteps: (sheets, overlapMm) => [
        say(
          'The pattern is {sheets, plural, one {# sheet} other {# sheets}} in actual size. Measure the bar below with a ruler before anything is cut: if it is not 100 mm, print again at 100 %.',
          { sheets },
        ),
        ...(sheets > 1
          ? [
              say(
                'Cut each sheet along its frame at the left and at the top, and lay it over its neighbour up to the dashes: {overlapMm} mm, cross on cross. Then stick them together.',
                { overlapMm },
              ),
            ]
          : []),
        say(
          'Lay the pattern on the cloth with its head up and the warp running up and down. The red dashes are the cuts, in the order of their numbers.',
        ),
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
    say('{width} along the weft, {height} along the warp', {
      width: formatClothLength(root.widthUm, one),
      height: formatClothLength(root.heightUm, one),
    })
  return {
    layout,
    steps,
    title: [
      piece?.title ?? '',
      plan.layouts.length > 1 ? say('piece {at} of {layouts}', { at: at + 1, layouts: plan.layouts.length }) : '',
    ]
      .filter(Boolean)
      .join(' · '),
    subtitle: say('{length} ({root}){isSquaredCase, select, yes {, not squared yet} other {}}', {
      length: length(unit),
      root: formatClothSize(root, other),
      isSquaredCase: piece?.isSquared === false,
    }),
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
    { kind: 'heading', text: say('Parts') },
    {
      kind: 'table',
      columns: [
        { head: '', share: 7 },
        { head: say('For'), share: 46 },
        { head: say('How many'), share: 14, isRight: true },
        { head: say('Size, {unit}', { unit }), share: 24, isRight: true },
        { head: say('Size, {other}', { other }), share: 26, isRight: true },
        { head: '', share: 12 },
      ],
      rows: parts.map((part) => [
        names.letterOf(part.wishId),
        partTitle(part, names, unit) || say('a plain size'),
        String(part.count),
        formatClothSize(part, unit),
        formatClothSize(part, other),
        part.isTurned ? say('turned') : '',
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
    { kind: 'heading', text: say('Cutting steps') },
    ...paragraphs([
      ...(isFirst ? [say('Shears. {shearsCaution}', { shearsCaution: shearsCaution() })] : []),
      ...beforeCutting({ isSquared, size: layout.root, gapUm: plan.gapUm, unit, both: true }),
    ]),
    ...stepWords(steps, { ...names, unit, both: true }).map(
      ({ number, act, results }): Block => ({ kind: 'step', number: String(number), text: act, notes: results }),
    ),
    ...paragraphs([
      ...(steps.length === 0 ? [say('Nothing has to be cut off: the piece is the size.')] : []),
      ...afterCutting(layout),
    ]),
  ]
}

function offcutBlocks(layout: CutLayout, unit: LengthUnit): Block[] {
  const other = otherLengthUnit(unit)
  const offcuts = listOffcuts(layout)
  if (offcuts.length === 0) return []
  return [
    { kind: 'heading', text: offcuts.length === 1 ? say('Offcut to label') : say('Offcuts to label') },
    {
      kind: 'table',
      columns: [
        { head: '', share: 14 },
        { head: say('Planned, {unit}', { unit }), share: 24 },
        { head: say('Planned, {other}', { other }), share: 26 },
        { head: say('As measured'), share: 30 },
        { head: say('Label'), share: 26 },
      ],
      rows: offcuts.map((offcut) => [
        say('Offcut {number}', { number: offcut.number }),
        formatClothSize(offcut, unit),
        formatClothSize(offcut, other),
        blank,
        blank,
      ]),
    },
  ]
}
