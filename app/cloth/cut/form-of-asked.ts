import { formatClothLength } from '#language/lengths'
import { say } from '#language/say'
import type { AskedCut, AskedWish } from '#lib/coverage/asked-cut'
import { type LengthUnit, parseClothLength } from '#lib/quantity/cloth-length'
import type { CutForm, Row } from './choices'

/** A length that reads back as itself: in the person's unit where that is exact, else in millimetres. */
function lengthText(um: number, unit: LengthUnit): string {
  const text = formatClothLength(um, unit)
  return parseClothLength(text, unit) === um ? text : say('{um} mm', { um: um / 1_000 })
}

const noOwnWords = { finishing: '', margin: '', over: '', cloth: '' } as const

function rowOf(wish: AskedWish, at: number, unit: LengthUnit): Row {
  const common = { at, copies: String(wish.copies), priority: wish.priority, worth: String(wish.worth) }
  if (wish.kind === 'size') {
    const size = `${lengthText(wish.widthUm, unit)} x ${lengthText(wish.heightUm, unit)}`
    return { ...common, ...noOwnWords, for: { kind: 'size' }, size, mayTurn: wish.mayTurn }
  }
  const { leftUm, rightUm, topUm, bottomUm } = wish.margins
  const sides = [leftUm, rightUm, topUm, bottomUm]
  const margin = sides.every((side) => side === leftUm) ? [leftUm] : sides
  return {
    ...common,
    for: wish.projectId === null ? { kind: 'design', id: wish.designId } : { kind: 'project', id: wish.projectId },
    ...{ size: '', mayTurn: true, finishing: '', margin: margin.map((side) => lengthText(side, unit)).join('; ') },
    ...{ over: wish.over === null ? '' : (String(wish.over) as '1' | '2'), cloth: wish.cloth },
  }
}

/** The form that asks for a plan's cuts once more, from those of its pieces that are still there. */
export function formOfAsked(asked: AskedCut, pieceIds: readonly string[], unit: LengthUnit): CutForm {
  return {
    rows: asked.wishes.map((wish, index) => rowOf(wish, index + 1, unit)),
    pieceIds: pieceIds.length > 0 ? [...pieceIds] : null,
    objective: asked.objective,
    gap: lengthText(asked.gapUm, unit),
    least: lengthText(asked.leastOffcutUm, unit),
    seed: String(asked.seed),
    ...{ seconds: 20, q: '', sizeNotRead: '', wasTried: false, wasBusy: false },
  }
}
