import { wrapWords } from './fit-words'
import type { Mark, Measure } from './mark'

const mmPerInch = 25.4

/** How high the bars of `drawTrueLength` are with their words, in millimetres. */
export const trueLengthHeightMm = 17

/**
 * Two bars printed at their own length, 100 mm and 4 in, to hold a ruler against: a printer that fits pages to its paper changes every
 * length on them.
 *
 * @param words    Beside the bars, the first line in bold; broken where the page ends.
 * @param widthMm  All the room there is, bars and words together.
 */
export function drawTrueLength(
  at: { x: number; y: number },
  words: readonly string[],
  widthMm: number,
  measure: Measure,
): Mark[] {
  const { x, y } = at
  const barsMm = 4 * mmPerInch + 10
  const lines = words.flatMap((text, line) => {
    const style = { size: 2.8, isBold: line === 0 }
    return wrapWords(text, widthMm - barsMm, style, measure, 2).map((one) => ({ ...style, text: one }))
  })
  return [
    ...bar({ x, y: y + 1 }, { lengthMm: 100, tickMm: 5, figureMm: 10 }, (figure) =>
      figure === 10 ? '100 mm' : String(figure * 10),
    ),
    ...bar({ x, y: y + 9 }, { lengthMm: 4 * mmPerInch, tickMm: mmPerInch / 4, figureMm: mmPerInch }, (figure) =>
      figure === 4 ? '4 in' : String(figure),
    ),
    ...lines.map((line, row): Mark => ({ kind: 'words', x: x + barsMm, y: y + 3.4 + row * 3.9, ...line })),
  ]
}

/** A rule with ticks below it, and figures at some of them. */
function bar(
  { x, y }: { x: number; y: number },
  { lengthMm, tickMm, figureMm }: { lengthMm: number; tickMm: number; figureMm: number },
  figureText: (figure: number) => string,
): Mark[] {
  const ticks = Math.round(lengthMm / tickMm)
  const each = Math.round(figureMm / tickMm)
  const numbered = Array.from({ length: ticks / each + 1 }, (_, figure) => figure)
  return [
    {
      kind: 'lines',
      stroke: { ink: 'ink', width: 0.25 },
      lines: [
        [x, y, x + lengthMm, y],
        ...Array.from({ length: ticks + 1 }, (_, tick): [number, number, number, number] => {
          const tickX = x + tick * tickMm
          return [tickX, y, tickX, y + (tick % each === 0 ? 2.2 : 1.2)]
        }),
      ],
    },
    ...numbered.map(
      (figure): Mark => ({
        kind: 'words',
        x: x + figure * figureMm,
        y: y + 4.7,
        text: figureText(figure),
        size: 2.4,
        anchor: figure === 0 ? 'start' : 'middle',
        ink: 'ink-2',
      }),
    ),
  ]
}
