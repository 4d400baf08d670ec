/** The inks of the house: what is drawn in them is told apart by shape too. */
export type Ink = 'ink' | 'ink-2' | 'edge' | 'hair' | 'madder' | 'paper'

export type Stroke = { ink: Ink; width: number /** Drawn and left out in turn. */; dashes?: readonly [number, number] }

export type Box = { x: number; y: number; width: number; height: number }

/**
 * What is drawn, from the upper left corner, x to the right, y down, in whatever unit the paper is measured in: millimetres for a
 * printed page, pixels for a screen. Later marks lie over earlier ones.
 */
export type Mark =
  | ({ kind: 'box'; stroke?: Stroke; fill?: Ink } & Box)
  | { kind: 'line'; x1: number; y1: number; x2: number; y2: number; stroke: Stroke }
  /** Several lines in one ink, as a hatching or the ticks of a ruler. */
  | { kind: 'lines'; lines: readonly (readonly [x1: number, y1: number, x2: number, y2: number])[]; stroke: Stroke }
  | { kind: 'ring'; x: number; y: number; radius: number; stroke: Stroke; fill?: Ink }
  /** `y` is the line the letters stand on. `isStanding` words run from foot to head, turned about the same point. */
  | ({ kind: 'words'; x: number; y: number; isStanding?: boolean; anchor?: 'start' | 'middle' | 'end'; ink?: Ink } & Lettering)
  /** The dark squares of a code, all of one size, from their own upper left corner: flat runs of x, y, width and height, in squares. */
  | { kind: 'squares'; x: number; y: number; sideMm: number; runs: readonly number[] }
  /** A picture as large as its box allows, upper left; `name` is one of those handed to who draws it. */
  | ({ kind: 'picture'; name: string } & Box)
  /** Marks of which only what lies inside the box is seen. */
  | { kind: 'window'; box: Box; marks: readonly Mark[] }

/** Words in one size and weight. */
export type Lettering = { text: string; size: number; isBold?: boolean }

/** How long words come out, in the unit of their size. */
export type Measure = (lettering: Lettering) => number

/** A page of paper in millimetres, and all that is on it. */
export type PrintedPage = { widthMm: number; heightMm: number; marks: readonly Mark[] }

/** The same marks, so far to the right and so far down. */
export function shift(mark: Mark, right: number, down: number): Mark {
  switch (mark.kind) {
    case 'line':
      return { ...mark, x1: mark.x1 + right, y1: mark.y1 + down, x2: mark.x2 + right, y2: mark.y2 + down }
    case 'lines':
      return { ...mark, lines: mark.lines.map(([x1, y1, x2, y2]) => [x1 + right, y1 + down, x2 + right, y2 + down] as const) }
    case 'window':
      return {
        ...mark,
        box: { ...mark.box, x: mark.box.x + right, y: mark.box.y + down },
        marks: mark.marks.map((one) => shift(one, right, down)),
      }
    default:
      return { ...mark, x: mark.x + right, y: mark.y + down }
  }
}
