import { roundUpUm } from '#lib/quantity/cloth-length'
import { type CutPlan, type CutWay, nodesOf } from './cut-plan'
import { searchCuts } from './cutting/search-cuts'
import type { LaidBox } from './most-from'
import { type Bolt, planYardage } from './yardage'

/** One of several sizes wanted off one length: how many, and how each may lie. */
export type SetWish = { id: string; copies: number; ways: readonly CutWay[] }

export type SetYardageRequest = { wishes: readonly SetWish[]; bolt: Bolt; gapUm: number }

/** The length that holds all of a set, and where each lies on it. */
export type SetYardage = {
  toBuyUm: number
  boxes: (LaidBox & { wishId: string })[]
  /** Proved that one step less is too short, however it is cut from edge to edge. */
  isProved: boolean
}

/** Plans looked at for one length before the next longer is tried. */
const patience = 120

/**
 * The shortest length off the bolt, in the shop's steps, from which pieces of several sizes can all be cut from edge to edge.
 *
 * From the least length that has the area and the longest piece, step by step, the plan of cuts is searched on a piece as wide as the
 * bolt; the first length that takes all is the answer, proved when of every shorter one it was proved that it does not. Longest of all
 * is the length that takes each size in rows of its own, one after another.
 *
 * Yields every few milliseconds of work. Returns null where some size is wider than the cloth, either way it may lie.
 */
export function* searchSetYardage({ wishes, bolt, gapUm }: SetYardageRequest): Generator<null, SetYardage | null> {
  if (wishes.length === 0) throw new RangeError('searchSetYardage: nothing is wanted')
  const inRows = rowsOfEach(wishes, bolt, gapUm)
  if (inRows === null) return null
  const widthUm = bolt.widthUm - 2 * bolt.selvedgeUm
  const narrow = wishes.map((wish) => ({ ...wish, ways: wish.ways.filter((way) => way.widthUm <= widthUm) }))
  const areaUm2 = narrow.reduce(
    (sum, wish) => sum + wish.copies * least(wish.ways, (way) => (way.widthUm + gapUm) * (way.heightUm + gapUm)),
    0,
  )
  const longestUm = Math.max(...narrow.map(({ ways }) => least(ways, ({ heightUm }) => heightUm)))
  const leastUm = Math.max(areaUm2 / (widthUm + gapUm) - gapUm, longestUm)
  let isProved = true
  for (let toBuyUm = roundUpUm(leastUm + bolt.straighteningUm, bolt.stepUm); toBuyUm < inRows.toBuyUm; toBuyUm += bolt.stepUm) {
    const search = searchCuts({
      pieces: [{ id: 'length', widthUm, heightUm: toBuyUm - bolt.straighteningUm }],
      wishes: narrow.map((wish) => ({ ...wish, value: 1, ways: { length: wish.ways } })),
      ...{ objective: 'most value', gapUm, leastOffcutUm: 0, seed: 1 },
    })
    let plan: CutPlan | null = null
    for (let tried = 0; tried < patience; tried++) {
      const step = search.next()
      plan = step.value
      if (step.done || plan.leftOut.length === 0) break
      yield null
    }
    if (plan && plan.leftOut.length === 0) return { toBuyUm, boxes: boxesOf(plan), isProved }
    if (!plan || plan.valueBound >= narrow.reduce((sum, wish) => sum + wish.copies, 0)) isProved = false
  }
  return { ...inRows, isProved }
}

const least = (ways: readonly CutWay[], of: (way: CutWay) => number): number => Math.min(...ways.map(of))

function boxesOf(plan: CutPlan): SetYardage['boxes'] {
  return plan.layouts.flatMap(({ root }) =>
    [...nodesOf(root)].flatMap((node) => {
      if (node.kind !== 'wanted') return []
      const { wishId, xUm, yUm, widthUm, heightUm, isTurned } = node
      return [{ wishId, xUm, yUm, widthUm, heightUm, isTurned }]
    }),
  )
}

/** Each size in rows of its own, one size above another. */
function rowsOfEach(wishes: readonly SetWish[], bolt: Bolt, gapUm: number): Omit<SetYardage, 'isProved'> | null {
  const boxes: SetYardage['boxes'] = []
  let lengthUm = -gapUm
  for (const { id, copies, ways } of wishes) {
    const { upright, turned, mixed } = planYardage({ copies, ways, bolt, gapUm })
    const [rows] = [upright, turned, mixed].filter((plan) => plan !== null).sort((a, b) => a.lengthUm - b.lengthUm)
    if (!rows) return null
    const footUm = lengthUm + gapUm
    boxes.push(...rows.boxes.map((box) => ({ ...box, yUm: box.yUm + footUm, wishId: id })))
    lengthUm = footUm + rows.lengthUm
  }
  return { toBuyUm: roundUpUm(lengthUm + bolt.straighteningUm, bolt.stepUm), boxes }
}
