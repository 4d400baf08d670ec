import { setImmediate } from 'node:timers/promises'
import { endpoint, serve } from '#api/serve'
import { calculateYardage } from '#api/yardage'
import { mostFrom } from '#lib/cloth/most-from'
import { searchSetYardage } from '#lib/cloth/set-yardage'
import { planYardage, type StripPlan } from '#lib/cloth/yardage'
import { boltLengthBothWays } from '#words/yardage'

const describeStrips = (plan: StripPlan | null) =>
  plan && {
    strips: plan.strips.map(({ way, across, rows }) => ({ isTurned: way.isTurned, across, rows })),
    ...{ lengthUm: plan.lengthUm, toBuyUm: plan.toBuyUm, gives: plan.gives },
  }

const calculate = serve(calculateYardage, async ({ body }) => {
  const { bolt, gapUm } = body
  const wishes = body.items.map(({ id, widthUm, heightUm, copies, mayTurn }) => ({
    ...{ id, copies },
    ways: [
      { widthUm, heightUm, isTurned: false },
      ...(mayTurn && widthUm !== heightUm ? [{ widthUm: heightUm, heightUm: widthUm, isTurned: true }] : []),
    ],
  }))
  const [first] = wishes
  if (!first) throw new RangeError('calculateYardage: no items')
  const fromPieces = body.pieces.map((piece) => {
    const ways = piece.isTurnable ? first.ways : first.ways.filter(({ isTurned }) => !isTurned)
    const { copies, isProved } = mostFrom(piece, ways, { gapUm })
    return { id: piece.id, gives: copies, isProved }
  })
  const said = (toBuyUm: number | null) =>
    toBuyUm === null ? 'The bolt is not wide enough.' : `Buy ${boltLengthBothWays(toBuyUm, 'in')}.`
  const usableWidthUm = bolt.widthUm - 2 * bolt.selvedgeUm
  if (wishes.length === 1) {
    const { best, upright, turned, mixed, isProved } = planYardage({ copies: first.copies, ways: first.ways, bolt, gapUm })
    const toBuyUm = best?.toBuyUm ?? null
    return {
      ...{ usableWidthUm, toBuyUm, text: said(toBuyUm), gives: best?.gives ?? null, isProved, fromPieces },
      boxes: (best?.boxes ?? []).map((box) => ({ ...box, id: first.id })),
      ...{ upright: describeStrips(upright), turned: describeStrips(turned), mixed: describeStrips(mixed) },
    }
  }
  const search = searchSetYardage({ wishes, bolt, gapUm })
  let step = search.next()
  while (!step.done) {
    await setImmediate()
    step = search.next()
  }
  const found = step.value
  const toBuyUm = found?.toBuyUm ?? null
  return {
    ...{ usableWidthUm, toBuyUm, text: said(toBuyUm), gives: null, isProved: found?.isProved ?? true, fromPieces },
    boxes: (found?.boxes ?? []).map(({ wishId, ...box }) => ({ ...box, id: wishId })),
    ...{ upright: null, turned: null, mixed: null },
  }
})

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ POST: calculate })
