import { plainFigure } from '#language/figures'
import { formatClothLength, formatClothSize } from '#language/lengths'
import { say } from '#language/say'
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
  if (!Number.isInteger(inEighths)) return say('{um} yd', { um: Number((um / (36 * UM_PER_INCH)).toFixed(3)) })
  const whole = Math.floor(inEighths / 8)
  const part = eighths[inEighths % 8] as string
  return say('{whole}{part} yd', { whole: whole > 0 || part === '' ? whole : '', part })
}

/** "0.8 m", to a centimetre. */
export const metres = (um: number): string => `${plainFigure(Number((um / 1_000_000).toFixed(2)))} m`

/** A length as a shop is asked for it: "⅞ yd" or "0.8 m". */
export const boltLength = (um: number, unit: LengthUnit): string => (unit === 'in' ? yards(um) : metres(um))

/** In everything a counter may ask in, the person's own unit first: "31½ in or ⅞ yd; 80.01 cm or 0.8 m". */
export function boltLengthBothWays(um: number, unit: LengthUnit): string {
  const [inches, centimetres] = [
    say('{um} or {yards}', { um: formatClothLength(um, 'in'), yards: yards(um) }),
    say('{um} or {metres}', { um: formatClothLength(um, 'cm'), metres: metres(um) }),
  ]
  return unit === 'in' ? `${inches}; ${centimetres}` : `${centimetres}; ${inches}`
}

export const sizeBothWays = (size: { widthUm: number; heightUm: number }, unit: LengthUnit): string =>
  `${formatClothSize(size, unit)} (${formatClothSize(size, unit === 'in' ? 'cm' : 'in')})`

/** Cloth for a class, a sentence at a time: what to cut, what to buy, and what else is on hand. */
export function kitsClothWords(cloth: KitsCloth, unit: LengthUnit): string[] {
  if (cloth.kind === 'unknown-size') return [say('The size of this design is not known, so its cloth cannot be reckoned.')]
  if (cloth.kind === 'unknown-cloth') return [say('Neither the chart nor the cloth on hand says at what count it is worked.')]
  const { plan, pieces, cloths, bought, hasNominal } = cloth
  const names = plan.from.map(({ pieceId, takes }) => {
    const piece = pieces.get(pieceId)
    return `${plan.from.length > 1 ? say('{takes} from ', { takes }) : ''}${piece ? pieceName(piece) : say('a piece')}`
  })
  const like = plan.cloth === null ? undefined : cloths.get(plan.cloth)
  const description = like ? ` (${pieceDescription(like)})` : ''
  const isAll = plan.onHand === plan.wanted
  const cut =
    plan.onHand === 0
      ? say('No piece on hand gives one.')
      : plan.from.length > 1
        ? say('{isAll} from what is on hand: {names}{description}.', {
            isAll: isAll ? say('All') : counted(plan.onHand, 'kit'),
            names: listed(names),
            description,
          })
        : say('{isAll} from {names}{description}.', {
            isAll: isAll ? say('All') : counted(plan.onHand, 'kit'),
            names: listed(names),
            description,
          })
  const others = plan.otherCloths.map(({ cloth: key, gives }) =>
    say('{gives} from {named}', { gives, named: named(cloths.get(key)) }),
  )
  return [
    cut,
    ...(bought ? [boughtWords(bought, plan.toBuy, plan.onHand > 0, unit)] : []),
    ...(hasNominal ? [say('Some of these pieces are not squared yet: square them first, and count again.')] : []),
    ...(!isAll && others.length > 0
      ? [say('Other cloth on hand that would serve, but looks different: {others}.', { others: listed(others) })]
      : []),
  ]
}

const named = (piece: ClothPiece | undefined): string => (piece ? pieceDescription(piece) : say('another cloth'))

function boughtWords(
  { yardage, cut }: NonNullable<Extract<KitsCloth, { kind: 'cloth' }>['bought']>,
  copies: number,
  isRest: boolean,
  unit: LengthUnit,
): string {
  const forWhom = isRest ? say('For the other {copies, number}', { copies }) : say('For all {copies, number}', { copies })
  if (!yardage.best)
    return say('{forWhom} a bolt is not wide enough: one cut is {cut}.', { forWhom, cut: formatClothSize(cut, unit) })
  const { toBuyUm, gives } = yardage.best
  const over = gives > copies ? say(', which gives {gives, number}', { gives }) : ''
  return say('{forWhom} buy {boltLengthBothWays}, off the bolt{over}.', {
    forWhom,
    boltLengthBothWays: boltLengthBothWays(toBuyUm, unit),
    over,
  })
}
