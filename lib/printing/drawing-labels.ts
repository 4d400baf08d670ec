import { shorten, tidyWords } from './fit-words'
import type { Box, Mark, Measure } from './mark'

/** Sizes of type tried within a part, in ems. */
const sizes = [1, 0.92, 0.83]
const lineHigh = 1.38
/** Smaller type is not read. */
const smallest = 0.6

/**
 * Words in the middle of an area, lying or standing, on paper of their own: the first choice that can be read in there, its first line in
 * bold. Long names are cut short before the next choice is taken, as long as eight characters are left of them.
 *
 * @returns null when not even the last choice fits, nor fills the area by itself.
 */
export function labelArea(
  area: Box,
  choices: readonly (readonly string[])[],
  em: number,
  measure: Measure,
): { box: Box; marks: Mark[] } | null {
  for (const choice of choices)
    for (const isStanding of [false, true])
      for (const ems of sizes) {
        const size = ems * em
        const [wide, high] = isStanding ? [area.height, area.width] : [area.width, area.height]
        const room = wide - em * 0.8
        if (choice.length * lineHigh * size + em * 0.3 > high || room <= 0) continue
        const lines = choice.map((text, at) => shorten(text, room, { size, isBold: at === 0 }, measure))
        if (lines.some((line, at) => line !== tidyWords(choice[at] ?? '') && (ems > 0.83 || at > 0 || line.length < 9))) continue
        return lay(lines, area, { size, isStanding }, em, measure)
      }
  return fillWithWord(area, choices.at(-1) ?? [], em, measure)
}

/** Where no label has room to itself, a single short word as large as the area is high, as long as it can be read. */
function fillWithWord(area: Box, words: readonly string[], em: number, measure: Measure): { box: Box; marks: Mark[] } | null {
  const [text, ...others] = words
  const size = Math.min(area.height, 0.83 * em)
  if (!text || others.length > 0 || size < smallest * em) return null
  const width = measure({ text, size, isBold: true })
  if (width > area.width) return null
  const [x, y] = [area.x + area.width / 2, area.y + area.height / 2]
  const box = { x: x - width / 2, y: y - size / 2, width, height: size }
  return {
    box,
    marks: [
      { kind: 'box', ...box, fill: 'paper' },
      { kind: 'words', x, y: y + 0.36 * size, text, size, isBold: true, anchor: 'middle' },
    ],
  }
}

function lay(
  lines: readonly string[],
  area: Box,
  { size, isStanding }: { size: number; isStanding: boolean },
  em: number,
  measure: Measure,
): { box: Box; marks: Mark[] } {
  const [x, y] = [area.x + area.width / 2, area.y + area.height / 2]
  const long = Math.max(...lines.map((text, at) => measure({ text, size, isBold: at === 0 }))) + 0.6 * em
  const deep = lines.length * lineHigh * size
  const [width, height] = isStanding ? [deep, long] : [long, deep]
  const box = { x: x - width / 2, y: y - height / 2, width, height }
  return {
    box,
    marks: [
      { kind: 'box', ...box, fill: 'paper' },
      ...lines.map((text, at): Mark => {
        // From the middle to where the letters of this line stand.
        const stand = (at - (lines.length - 1) / 2) * lineHigh * size + 0.35 * size
        const ink = at === 0 ? 'ink' : 'ink-2'
        return isStanding
          ? { kind: 'words', x: x + stand, y, text, size, isBold: at === 0, anchor: 'middle', isStanding, ink }
          : { kind: 'words', x, y: y + stand, text, size, isBold: at === 0, anchor: 'middle', ink }
      }),
    ],
  }
}

type NumberedLine = { number: number; x1: number; y1: number; x2: number; y2: number }

/**
 * A ring with its number on every line: outside the piece where the line comes out at the right or the foot, else on the line, where it
 * covers least of words, other rings and other lines.
 */
export function placeRings(lines: readonly NumberedLine[], piece: Box, words: readonly Box[], em: number): Mark[] {
  const radius = 0.75 * em
  const [right, foot] = [piece.x + piece.width, piece.y + piece.height]
  const near = 1e-6 * (piece.width + piece.height)
  const taken: { x: number; y: number }[] = []
  return lines.flatMap((line): Mark[] => {
    const isAcross = Math.abs(line.y1 - line.y2) < near
    const places: { x: number; y: number }[] = []
    if (isAcross && line.x2 > right - near) places.push({ x: right + 1.4 * em, y: line.y1 })
    if (!isAcross && Math.max(line.y1, line.y2) > foot - near) places.push({ x: line.x1, y: foot + 1.4 * em })
    for (const part of [0.5, 0.25, 0.75, 0.12, 0.88, 0.38, 0.62])
      places.push({ x: line.x1 + (line.x2 - line.x1) * part, y: line.y1 + (line.y2 - line.y1) * part })
    const covered = ({ x, y }: { x: number; y: number }) =>
      taken.filter((ring) => Math.hypot(ring.x - x, ring.y - y) < 2.15 * radius).length * 4 +
      words.filter((box) => distanceTo(box, x, y) < radius).length * 3 +
      lines.filter((other) => other !== line && distanceTo(boxAround(other), x, y) < radius).length
    const place = places.reduce((best, one) => (covered(one) < covered(best) ? one : best))
    taken.push(place)
    const isOutside = place.x > right || place.y > foot
    return [
      ...(isOutside
        ? [
            {
              kind: 'line',
              x1: isAcross ? right : place.x,
              y1: isAcross ? place.y : foot,
              x2: isAcross ? place.x - radius : place.x,
              y2: isAcross ? place.y : place.y - radius,
              stroke: { ink: 'madder', width: em / 8 },
            } as const,
          ]
        : []),
      { kind: 'ring', ...place, radius, fill: 'paper', stroke: { ink: 'madder', width: em / 8 } },
      {
        kind: 'words',
        x: place.x,
        y: place.y + 0.3 * em,
        text: String(line.number),
        size: line.number > 9 ? 0.8 * em : 0.9 * em,
        isBold: true,
        anchor: 'middle',
        ink: 'madder',
      },
    ]
  })
}

const boxAround = ({ x1, y1, x2, y2 }: NumberedLine): Box => ({
  x: Math.min(x1, x2),
  y: Math.min(y1, y2),
  width: Math.abs(x2 - x1),
  height: Math.abs(y2 - y1),
})

function distanceTo(box: Box, x: number, y: number): number {
  const dx = Math.max(box.x - x, 0, x - box.x - box.width)
  const dy = Math.max(box.y - y, 0, y - box.y - box.height)
  return Math.hypot(dx, dy)
}
