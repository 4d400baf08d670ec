import { familyOf } from '#lib/colour/family'
import type { Lab } from '#lib/colour/lab'
import { isSquareCount } from '#lib/quantity/count'
import type { ClothPiece } from './cloth-piece'

/** How a test wet on white came out. */
export const bleedTests = ['passed', 'bled'] as const
export type BleedTest = (typeof bleedTests)[number]

/**
 * Cloth and thread darker than this are dark, where dye may be loose. Chosen: of the 267 names of the ISCC–NBS system, 45 of the 52
 * that say dark or black lie below it, and none of the 80 that say light, pale, brilliant or white.
 */
export const darkBelowL = 42

/** Why dye may run: hand-dyed, red, or dark. The first that holds is told. */
export const bleedReasons = ['hand-dyed', 'red', 'dark'] as const
export type BleedReason = (typeof bleedReasons)[number]

export const isDark = ({ L }: Lab): boolean => L < darkBelowL

function bleedReason(isHandDyed: boolean, lab: Lab | null): BleedReason | null {
  if (isHandDyed) return 'hand-dyed'
  if (lab === null) return null
  if (familyOf(lab) === 'red') return 'red'
  return isDark(lab) ? 'dark' : null
}

/** Why a piece's dye may run; null where nothing says so. Undyed cloth has none. */
export const clothBleedReason = ({ dyeing, lab }: Pick<ClothPiece, 'dyeing' | 'lab'>): BleedReason | null =>
  dyeing === 'plain' ? null : bleedReason(dyeing === 'hand-dyed', lab)

/** What would have to be asked before a piece may be turned: its count is not square, or hand-dye may run one way. */
export const turningQuestion = ({
  dyeing,
  ends,
  picks,
}: Pick<ClothPiece, 'dyeing' | 'ends' | 'picks'>): 'count' | 'dye' | null =>
  isSquareCount(ends, picks) ? (dyeing === 'hand-dyed' ? 'dye' : null) : 'count'

export type CareNote =
  | { kind: 'do-not-wash' }
  /** Its threads were counted before it was washed; the count rises as cloth shrinks. */
  | { kind: 'count-again' }
  /** Nobody tested it, and its dye may run. */
  | { kind: 'test-first'; because: BleedReason }
  | { kind: 'bled' }
  /** `because` is why it was worth testing, null where nothing but care said so. A pass is no guarantee. */
  | { kind: 'passed'; because: BleedReason | null }
  /** It may be turned as it stands, and there is a reason to look first. */
  | { kind: 'look-before-turning'; why: 'count' | 'dye' }

export type CareFacts = Pick<ClothPiece, 'dyeing' | 'lab' | 'washState' | 'isCountStale' | 'isTurnable' | 'ends' | 'picks'> & {
  bleedTest: BleedTest | null
}

/** What to mind with a piece, each once, the gravest first. A piece that is never washed is not tested either. */
export function careOf(piece: CareFacts): CareNote[] {
  const notes: CareNote[] = []
  const because = clothBleedReason(piece)
  if (piece.washState === 'never') notes.push({ kind: 'do-not-wash' })
  if (piece.bleedTest === 'bled') notes.push({ kind: 'bled' })
  else if (piece.bleedTest === 'passed') notes.push({ kind: 'passed', because })
  else if (because !== null && piece.washState !== 'never') notes.push({ kind: 'test-first', because })
  if (piece.isCountStale) notes.push({ kind: 'count-again' })
  const why = piece.isTurnable ? turningQuestion(piece) : null
  if (why !== null) notes.push({ kind: 'look-before-turning', why })
  return notes
}

/** A thread of a design's key. `isHandDyed`: hand-dyed or overdyed. */
export type BleedThread = { id: string; lab: Lab | null; isHandDyed: boolean }

export type BleedRisk = {
  /** Why the cloth's own dye may run into light threads; null when it need not be feared, or passed its test. */
  cloth: BleedReason | 'bled' | null
  /** Threads whose dye would show on this cloth, in the order given. */
  threads: { id: string; because: BleedReason }[]
}

/**
 * Which dyes of a design may run, on a cloth: its own, and those of hand-dyed, red and dark threads on cloth that is not dark itself.
 * Cloth of no recorded colour is taken for light, as most is. On cloth never to be washed nothing runs by washing: no risk is told.
 */
export function bleedRisk({
  cloth,
  threads,
}: {
  cloth: Pick<ClothPiece, 'dyeing' | 'lab' | 'washState'> & { bleedTest: BleedTest | null }
  threads: readonly BleedThread[]
}): BleedRisk {
  if (cloth.washState === 'never') return { cloth: null, threads: [] }
  const own = cloth.bleedTest === 'bled' ? 'bled' : cloth.bleedTest === 'passed' ? null : clothBleedReason(cloth)
  if (cloth.lab !== null && isDark(cloth.lab)) return { cloth: own, threads: [] }
  return {
    cloth: own,
    threads: threads.flatMap(({ id, lab, isHandDyed }) => {
      const because = bleedReason(isHandDyed, lab)
      return because === null ? [] : [{ id, because }]
    }),
  }
}
