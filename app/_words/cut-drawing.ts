import { formatClothLength, formatClothSize } from '#language/lengths'
import { say } from '#language/say'
import type { CutLayout } from '#lib/cloth/cut-plan'
import { listOffcuts, listWantedParts } from '#lib/cloth/cut-steps'
import type { CutDrawingWords } from '#lib/printing/cut-drawing'
import type { LengthUnit } from '#lib/quantity/cloth-length'
import { listed } from './amounts'
import { type CutNames, partTitle } from './cut-steps'

export const umPerRulerUnit = { in: 25_400, cm: 10_000 } as const

/** All that stands on the drawing of a piece as it is cut. */
export function cutDrawingWords({ root }: CutLayout, names: CutNames, unit: LengthUnit): CutDrawingWords {
  const length = (um: number) => formatClothLength(um, unit)
  return {
    letterOf: names.letterOf,
    nameOf: (part) => partTitle(part, names, unit),
    size: (size) => formatClothSize(size, unit),
    width: say('{length}, weft', { length: length(root.widthUm) }),
    height: say('{length}, warp', { length: length(root.heightUm) }),
    warp: say('warp'),
    unit: { in: say('inches'), cm: say('centimetres') }[unit],
    offcut: (number) => say('offcut {number}', { number }),
    waste: say('waste'),
  }
}

/** The drawing in a sentence, for those who hear it. */
export function cutDrawingSentence(layout: CutLayout, pieceName: string, names: CutNames, unit: LengthUnit): string {
  const parts = listWantedParts(layout).map((part) => {
    const name = [names.letterOf(part.wishId), partTitle(part, names, unit)].filter(Boolean).join(' ')
    return `${part.count > 1 ? `${part.count} × ` : ''}${name}, ${formatClothSize(part, unit)}`
  })
  const offcuts = listOffcuts(layout)
  const left =
    offcuts.length > 0
      ? say('{offcuts, plural, one {# offcut} other {# offcuts}} left: {offcuts2}', {
          offcuts: offcuts.length,
          offcuts2: listed(offcuts.map((one) => formatClothSize(one, unit))),
        })
      : say('no offcut left')
  return say('{pieceName}, {root}, head up: cut into {parts}; {left}.', {
    pieceName,
    root: formatClothSize(layout.root, unit),
    parts: parts.join('; ') || say('nothing that was wanted'),
    left,
  })
}
