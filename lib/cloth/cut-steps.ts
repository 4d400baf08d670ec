import { type CutBox, type CutLayout, type CutNode, nodesOf } from './cut-plan'

/** Where the shears go, from the piece's lower left corner, y up the warp. */
export type CutLine = { x1Um: number; y1Um: number; x2Um: number; y2Um: number }

type Size = { widthUm: number; heightUm: number }

/** What becomes of a part. Copies and offcut numbers are those of every equal part the step makes. */
export type PartFate =
  | { kind: 'wanted'; wishId: string; isTurned: boolean; copies: number[] }
  | { kind: 'offcut'; numbers: number[] }
  | { kind: 'waste' }
  | { kind: 'cut'; atStep: number }

/** Equal parts that lie side by side, `count` of them in each part on the table. */
export type CutPart = Size & { count: number; fate: PartFate }

/**
 * What lies on the table: the whole piece; what an earlier step left, beyond its last cut; or strips that step cut off. Strips count
 * from the foot or the left, `ofStrips` of them in all.
 */
export type CutTable = Size & {
  /** So many equal parts, from every part that was on the table before, are each cut alike. */
  count: number
  from:
    | { kind: 'whole' }
    | { kind: 'rest'; step: number }
    | { kind: 'strips'; step: number; first: number; last: number; ofStrips: number }
}

/** One step: one straight cut, or several at equal distances, through all that lies on the table. */
export type CutStep = {
  number: number
  /** `across` from side to side, `up` from foot to head. */
  way: 'across' | 'up'
  table: CutTable
  /** How far each cut is from the foot of what lies on the table, or from its left. */
  atUm: number[]
  lines: CutLine[]
  /** What comes off, from the foot or the left. When the last cut leaves an equal strip, that is among them, and nothing is the rest. */
  off: CutPart[]
  rest: CutPart | null
}

/** The offcuts of a piece in the order they are numbered from 1: the lower before the upper, the left before the right. */
export function listOffcuts(layout: CutLayout): (CutBox & { number: number })[] {
  return [...nodesOf(layout.root)]
    .filter(({ kind }) => kind === 'offcut')
    .map(({ xUm, yUm, widthUm, heightUm }, at) => ({ number: at + 1, xUm, yUm, widthUm, heightUm }))
}

/** What is cut from a piece, equal ones together, in the order they lie. */
export function listWantedParts(layout: CutLayout): (Size & { wishId: string; isTurned: boolean; count: number })[] {
  const parts = new Map<string, Size & { wishId: string; isTurned: boolean; count: number }>()
  for (const node of nodesOf(layout.root)) {
    if (node.kind !== 'wanted') continue
    const { wishId, isTurned, widthUm, heightUm } = node
    const key = JSON.stringify([wishId, isTurned, widthUm, heightUm])
    const part = parts.get(key) ?? { wishId, isTurned, widthUm, heightUm, count: 0 }
    part.count++
    parts.set(key, part)
  }
  return [...parts.values()]
}

/** A letter for each wish a plan cuts, in the order they lie: A to Z, then AA. */
export function cutLetters(layouts: readonly CutLayout[]): ReadonlyMap<string, string> {
  const letters = new Map<string, string>()
  for (const { root } of layouts)
    for (const node of nodesOf(root))
      if (node.kind === 'wanted' && !letters.has(node.wishId)) letters.set(node.wishId, letterAt(letters.size))
  return letters
}

function letterAt(index: number): string {
  const letter = String.fromCharCode(65 + (index % 26))
  return index < 26 ? letter : letterAt(Math.floor(index / 26) - 1) + letter
}

/**
 * The cuts of a piece in the order one makes them. Cuts that run the same way through the same part come one after another from its foot
 * or left, equal strips in one step; then each strip in turn is cut the other way, strips that are cut alike together.
 *
 * ```
 *   ┌───────────┐   1  across the whole at 12: the lower part
 *   │ offcut    │   2  across the rest at 8: a strip; the rest is an offcut
 *   ├─────┬───┬─┤2  3  the lower part, up at 11: wanted; what is left, up at 6: wanted, waste
 *   ├─────┴┬──┼─┤1  …
 *   └──────┴──┴─┘
 * ```
 */
export function cutSteps(layout: CutLayout): CutStep[] {
  const offcutNumbers = new Map<CutNode, number>()
  for (const node of nodesOf(layout.root)) if (node.kind === 'offcut') offcutNumbers.set(node, offcutNumbers.size + 1)
  const steps: CutStep[] = []

  /** Cut equal parts alike. @returns the number of the first step, or 0 when they are not cut. */
  function cutAlike(alike: readonly CutNode[], from: CutTable['from']): number {
    const [one] = alike as [CutNode]
    if (one.kind !== 'cut') return 0
    const { way } = one
    const first = steps.length + 1
    // Strip by strip, each with its equals in the other parts.
    const each = alike.map((node) => listStrips(node, way))
    const strips = (each[0] as CutNode[]).map((_, at) => each.map((list) => list[at] as CutNode))
    const size = (at: number) => extent((strips[at] as CutNode[])[0] as CutNode, way)
    const waiting: { part: CutPart; nodes: CutNode[]; from: CutTable['from'] }[] = []

    /** Strips side by side, those with one fate in one part; noted to be cut later where they are. */
    function partsOf(firstAt: number, lastAt: number, fromOf: (firstAt: number, lastAt: number) => CutTable['from']): CutPart[] {
      const parts: CutPart[] = []
      for (let at = firstAt; at <= lastAt; ) {
        let next = at + 1
        const shape = shapeOf(strips[at]?.[0] as CutNode)
        while (next <= lastAt && shapeOf(strips[next]?.[0] as CutNode) === shape) next++
        const nodes = strips.slice(at, next).flat()
        const { widthUm, heightUm } = nodes[0] as CutNode
        const part: CutPart = { widthUm, heightUm, count: next - at, fate: fateOf(nodes) }
        parts.push(part)
        if (part.fate.kind === 'cut') waiting.push({ part, nodes, from: fromOf(at, next - 1) })
        at = next
      }
      return parts
    }

    for (let at = 0; at < strips.length - 1; ) {
      const number = steps.length + 1
      let end = at + 1
      while (end < strips.length && size(end) === size(at)) end++
      const isEven = end === strips.length
      const cuts = Math.min(end, strips.length - 1) - at
      const table = alike.map((node, part) => restFrom(node, way, each[part]?.[at] as CutNode))
      const [{ widthUm, heightUm }] = table as [CutBox]
      const start = extentStart(each[0]?.[at] as CutNode, way)
      const ends = Array.from(
        { length: cuts },
        (_, cut) => extentStart(each[0]?.[at + cut] as CutNode, way) + size(at + cut) - start,
      )
      const isRestCutOn = at + cuts < strips.length - 1
      steps.push({
        number,
        way,
        table: { widthUm, heightUm, count: alike.length, from: at === 0 ? from : { kind: 'rest', step: number - 1 } },
        atUm: ends,
        lines: table.flatMap((box) => ends.map((endUm) => lineThrough(box, way, endUm))),
        off: partsOf(at, isEven ? strips.length - 1 : at + cuts - 1, (firstAt, lastAt) => ({
          kind: 'strips',
          step: number,
          first: firstAt - at + 1,
          last: lastAt - at + 1,
          ofStrips: isEven ? cuts + 1 : cuts,
        })),
        rest: null,
      })
      const step = steps.at(-1) as CutStep
      if (isRestCutOn) {
        const box = restFrom(one, way, each[0]?.[at + cuts] as CutNode)
        step.rest = { widthUm: box.widthUm, heightUm: box.heightUm, count: 1, fate: { kind: 'cut', atStep: number + 1 } }
      } else if (!isEven) {
        step.rest = partsOf(at + cuts, at + cuts, () => ({ kind: 'rest', step: number }))[0] as CutPart
      }
      at += cuts
      if (isEven) break
    }
    for (const { part, nodes, from: partFrom } of waiting) part.fate = { kind: 'cut', atStep: cutAlike(nodes, partFrom) }
    return first
  }

  function fateOf(nodes: readonly CutNode[]): PartFate {
    const [one] = nodes as [CutNode]
    switch (one.kind) {
      case 'wanted':
        return {
          kind: 'wanted',
          wishId: one.wishId,
          isTurned: one.isTurned,
          copies: nodes.flatMap((node) => (node.kind === 'wanted' ? [node.copy] : [])).sort(upward),
        }
      case 'offcut':
        return { kind: 'offcut', numbers: nodes.map((node) => offcutNumbers.get(node) as number).sort(upward) }
      case 'waste':
        return { kind: 'waste' }
      case 'cut':
        return { kind: 'cut', atStep: 0 }
    }
  }

  cutAlike([layout.root], { kind: 'whole' })
  return steps
}

const upward = (one: number, other: number) => one - other
const extent = (box: CutBox, way: 'across' | 'up'): number => (way === 'across' ? box.heightUm : box.widthUm)
const extentStart = (box: CutBox, way: 'across' | 'up'): number => (way === 'across' ? box.yUm : box.xUm)

/** The strips that all cuts of one way make of a part, from its foot or left. */
function listStrips(node: CutNode, way: 'across' | 'up'): CutNode[] {
  if (node.kind !== 'cut' || node.way !== way) return [node]
  if (node.second) return [...listStrips(node.first, way), ...listStrips(node.second, way)]
  // Less than the gap is left beyond the cut: a trim, which still has to come off.
  const restUm = extent(node, way) - node.atUm
  const trim: CutNode =
    way === 'across'
      ? { kind: 'waste', xUm: node.xUm, yUm: node.yUm + node.atUm, widthUm: node.widthUm, heightUm: restUm }
      : { kind: 'waste', xUm: node.xUm + node.atUm, yUm: node.yUm, widthUm: restUm, heightUm: node.heightUm }
  return [...listStrips(node.first, way), ...(restUm > 0 ? [trim] : [])]
}

/** What is left of a part from one of its strips on. */
function restFrom(node: CutBox, way: 'across' | 'up', strip: CutBox): CutBox {
  const goneUm = extentStart(strip, way) - extentStart(node, way)
  const { xUm, yUm, widthUm, heightUm } = node
  return way === 'across'
    ? { xUm, yUm: yUm + goneUm, widthUm, heightUm: heightUm - goneUm }
    : { xUm: xUm + goneUm, yUm, widthUm: widthUm - goneUm, heightUm }
}

function lineThrough(box: CutBox, way: 'across' | 'up', atUm: number): CutLine {
  const { xUm, yUm, widthUm, heightUm } = box
  return way === 'across'
    ? { x1Um: xUm, y1Um: yUm + atUm, x2Um: xUm + widthUm, y2Um: yUm + atUm }
    : { x1Um: xUm + atUm, y1Um: yUm, x2Um: xUm + atUm, y2Um: yUm + heightUm }
}

/** Equal for parts that are the same but for where they lie and which copies they are. */
function shapeOf(node: CutNode): string {
  const size = `${node.widthUm} ${node.heightUm}`
  switch (node.kind) {
    case 'wanted':
      return JSON.stringify([size, node.wishId, node.isTurned])
    case 'cut':
      return JSON.stringify([size, node.way, node.atUm, shapeOf(node.first), node.second && shapeOf(node.second)])
    default:
      return `${size} ${node.kind}`
  }
}
