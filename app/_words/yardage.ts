import { numberText } from '#language/figures'
import { formatClothLength, formatClothSize } from '#language/lengths'
import type { ClothPiece } from '#lib/cloth/cloth-piece'
import type { KitsCloth } from '#lib/db/planning/kits-cloth'
import { type LengthUnit, UM_PER_INCH } from '#lib/quantity/cloth-length'
import { counted, listed } from './amounts'
import { pieceDescription, pieceName } from './cloth'

const eighths = ['', '⅛', '¼', '⅜', '½', '⅝', '¾', '⅞'] as const
const eighthOfYardUm = 4.5 * UM_PER_INCH

/** "⅞ yd", "2¼ yd"; in thousandths where it is no whole number of eighths. */
export function yards(um: number): string {
  const inEighths = um / eighthOfYardUm
  if (!Number.isInteger(inEighths)) return `${Number((um / (36 * UM_PER_INCH)).toFixed(3))} yd`
  const whole = Math.floor(inEighths / 8)
  const part = eighths[inEighths % 8] as string
  return `${whole > 0 || part === '' ? whole : ''}${part} yd`
}

/** "0.8 m", to a centimetre. */
export const metres = (um: number): string => `${Number((um / 1_000_000).toFixed(2))} m`

/** A length as a shop is asked for it: "⅞ yd" or "0.8 m". */
export const boltLength = (um: number, unit: LengthUnit): string => (unit === 'in' ? yards(um) : metres(um))

/** In everything a counter may ask in, the person's own unit first: "31½ in or ⅞ yd; 80.01 cm or 0.8 m". */
export function boltLengthBothWays(um: number, unit: LengthUnit): string {
  const [inches, centimetres] = [
    `${formatClothLength(um, 'in')} or ${yards(um)}`,
    `${formatClothLength(um, 'cm')} or ${metres(um)}`,
  ]
  return unit === 'in' ? `${inches}; ${centimetres}` : `${centimetres}; ${inches}`
}

export const sizeBothWays = (size: { widthUm: number; heightUm: number }, unit: LengthUnit): string =>
  `${formatClothSize(size, unit)} (${formatClothSize(size, unit === 'in' ? 'cm' : 'in')})`

/** Cloth for a class, a sentence at a time: what to cut, what to buy, and what else is on hand. */
export function kitsClothWords(cloth: KitsCloth, unit: LengthUnit): string[] {
  if (cloth.kind === 'unknown-size') return ['The size of this design is not known, so its cloth cannot be reckoned.']
  if (cloth.kind === 'unknown-cloth') return ['Neither the chart nor the cloth on hand says at what count it is worked.']
  const { plan, pieces, cloths, bought, hasNominal } = cloth
  const names = plan.from.map(({ pieceId, takes }) => {
    const piece = pieces.get(pieceId)
    return `${plan.from.length > 1 ? `${takes} from ` : ''}${piece ? pieceName(piece) : 'a piece'}`
  })
  const like = plan.cloth === null ? undefined : cloths.get(plan.cloth)
  const description = like ? ` (${pieceDescription(like)})` : ''
  const isAll = plan.onHand === plan.wanted
  const cut =
    plan.onHand === 0
      ? 'No piece on hand gives one.'
      : plan.from.length > 1
        ? `${isAll ? 'All' : counted(plan.onHand, 'kit')} from what is on hand: ${listed(names)}${description}.`
        : `${isAll ? 'All' : counted(plan.onHand, 'kit')} from ${listed(names)}${description}.`
  const others = plan.otherCloths.map(({ cloth: key, gives }) => `${gives} from ${named(cloths.get(key))}`)
  return [
    cut,
    ...(bought ? [boughtWords(bought, plan.toBuy, plan.onHand > 0, unit)] : []),
    ...(hasNominal ? ['Some of these pieces are not squared yet: square them first, and count again.'] : []),
    ...(!isAll && others.length > 0 ? [`Other cloth on hand that would serve, but looks different: ${listed(others)}.`] : []),
  ]
}

const named = (piece: ClothPiece | undefined): string => (piece ? pieceDescription(piece) : 'another cloth')

function boughtWords(
  { yardage, cut }: NonNullable<Extract<KitsCloth, { kind: 'cloth' }>['bought']>,
  copies: number,
  isRest: boolean,
  unit: LengthUnit,
): string {
  const forWhom = isRest ? `For the other ${numberText(copies)}` : `For all ${numberText(copies)}`
  if (!yardage.best) return `${forWhom} a bolt is not wide enough: one cut is ${formatClothSize(cut, unit)}.`
  const { toBuyUm, gives } = yardage.best
  const over = gives > copies ? `, which gives ${numberText(gives)}` : ''
  return `${forWhom} buy ${boltLengthBothWays(toBuyUm, unit)}, off the bolt${over}.`
}
