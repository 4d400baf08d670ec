import type { KitsCloth } from '#lib/db/planning/kits-cloth'
import type { LengthUnit } from '#lib/quantity/cloth-length'
import { pieceDescription } from '#words/cloth'
import { kitsClothWords } from '#words/yardage'

/** Cloth for a class as the API gives it; null where nothing can be reckoned. */
export function describeKitsCloth(cloth: KitsCloth, unit: LengthUnit) {
  if (cloth.kind !== 'cloth') return null
  const { plan, cloths, bought } = cloth
  return {
    ...{ wanted: plan.wanted, onHand: plan.onHand, toBuy: plan.toBuy, from: plan.from, isProved: plan.isProved },
    otherCloths: plan.otherCloths.map(({ cloth: key, gives }) => {
      const piece = cloths.get(key)
      return { gives, like: piece ? pieceDescription(piece) : '' }
    }),
    bought: bought && {
      cutWidthUm: bought.cut.widthUm,
      cutHeightUm: bought.cut.heightUm,
      toBuyUm: bought.yardage.best?.toBuyUm ?? null,
      gives: bought.yardage.best?.gives ?? 0,
    },
    text: kitsClothWords(cloth, unit).join(' '),
  }
}
