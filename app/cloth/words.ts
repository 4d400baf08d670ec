import { formatClothSize } from '#language/lengths'
import type { ClothPiece, Weave } from '#lib/cloth/cloth-piece'
import { nominalCountLabel } from '#lib/cloth/match-cloth'
import type { RulerRefusal } from '#lib/cloth/ruler-count'
import type { ClothRefusal } from '#lib/db/cloth/cloth-refusal'
import type { ClothMovement } from '#lib/db/cloth/queries'
import type { ClothEnding } from '#lib/db/cloth/remove-cloth'
import type { Certainty } from '#lib/quantity/certainty'
import type { LengthUnit } from '#lib/quantity/cloth-length'
import { type Count, isSquareCount, perInch } from '#lib/quantity/count'
import { listed } from '#words/amounts'
import { keptByRecordWords } from '#words/kept-by-record'

export const otherUnit = (unit: LengthUnit): LengthUnit => (unit === 'in' ? 'cm' : 'in')

export const weaveWords: Record<Weave, string> = { single: 'Evenweave and linen', block: 'Block cloth' }

/** What a group of the list is headed: Evenweave and linen, 28 count. */
export const kindTitle = ({ weave, ends, picks }: Pick<ClothPiece, 'weave' | 'ends' | 'picks'>): string =>
  `${weaveWords[weave]}, ${nominalCountLabel(ends, picks)} count`

const figure = (value: number): string => String(Number(value.toFixed(1)))

/** Both counts both ways: 34 ends and 31 picks to the inch (133.9 and 122 to 10 cm). */
export function describeCounts(ends: Count, picks: Count): string {
  const inTenCm = (count: Count) => figure((count.threads * 100_000) / count.perUm)
  if (isSquareCount(ends, picks)) return `${figure(perInch(ends))} to the inch both ways (${inTenCm(ends)} to 10 cm)`
  return `${figure(perInch(ends))} ends and ${figure(perInch(picks))} picks to the inch (${inTenCm(ends)} and ${inTenCm(picks)} to 10 cm)`
}

/** How much a stitch is longer one way than the other; empty when the cloth is square. */
export function describeSquareness(ends: Count, picks: Count): string {
  if (isSquareCount(ends, picks)) return 'Square: a design keeps its size when the piece is turned.'
  const [across, up] = [perInch(ends), perInch(picks)]
  const percent = figure((Math.max(across, up) / Math.min(across, up) - 1) * 100)
  return `Not square: stitches come out ${percent} % ${across > up ? 'taller than wide' : 'wider than tall'}, and a design changes its size when the piece is turned.`
}

export const certaintyWords: Record<Certainty, string> = {
  measured: 'as measured',
  label: 'by its label',
  guess: 'by guess',
  estimated: 'estimated',
  assumed: 'assumed',
}

/** How the size is known, and whether it can be trusted as it stands. */
export const describeSizeCertainty = (piece: Pick<ClothPiece, 'sizeCertainty' | 'isSquared'>): string =>
  `${certaintyWords[piece.sizeCertainty]}, ${piece.isSquared ? 'squared' : 'not squared yet'}`

export const endingWords: Record<ClothEnding, string> = {
  used: 'It is used up',
  'passed on': 'It was sold or given away',
  lost: 'It is lost',
  slip: 'It was written down by mistake',
}

export function describeClothRefusal(refusal: ClothRefusal, unit: LengthUnit): string {
  switch (refusal.kind) {
    case 'nothing-cut':
      return 'The piece would be as it was, with no offcut: nothing was cut.'
    case 'more-than-it-was':
      return 'The parts together are more cloth than the piece was. Look at the sizes again; if the piece is really larger, measure it first.'
    case 'part-too-large': {
      const part = refusal.part === 0 ? 'What is left of the piece' : `Offcut ${refusal.part}`
      return `${part}, ${formatClothSize(refusal, unit)}, does not come out of the piece either way round. If the piece is really larger, measure it first.`
    }
    case 'label-taken':
      return `There is a piece labelled ${refusal.label} already. Give this one another label, or none.`
    case 'no-such-owner':
      return 'That owner is not there any more. Choose another.'
    case 'reserved':
      return `It is kept for ${listed(refusal.titles)}. Give that project another piece first, or cut it for that project.`
    case 'planned':
      return `It is to be cut for ${refusal.title}. Carry that plan of cuts out or give it up first.`
    case 'kept-by-record':
      return keptByRecordWords(refusal.label)
    case 'already-there':
      return 'It lies there already.'
    case 'already-theirs':
      return 'It is theirs already.'
    case 'no-home':
      return 'It has no place of its own yet. Say where it lives first.'
    case 'worked-up':
      return 'It was cut up or used for a project, so it cannot come back whole. Write down what is left of it as a new piece.'
    case 'changed-meanwhile':
      return 'Somebody changed or moved this piece meanwhile. Look at it again, then make your change.'
  }
}

const wayWords = { ends: 'across', picks: 'up' } as const

/** Why readings along a ruler make no count. */
export function describeRulerRefusal(refusal: RulerRefusal): string {
  switch (refusal.kind) {
    case 'no-reading':
      return `There is no reading ${wayWords[refusal.way]} yet. Count each way at least once.`
    case 'no-count':
      return `${figure(refusal.perInch)} to the inch ${wayWords[refusal.way]} is no count of cloth. Look at the figures and at the length again.`
  }
}

/** A line of a piece's history. */
export function describeMovement(movement: ClothMovement): string {
  const where = movement.to ? ` to ${movement.to.label}` : ''
  const from = movement.from ? ` from ${movement.from.label}` : ''
  switch (movement.kind) {
    case 'receive':
      return `came in${where}`
    case 'move':
    case 'take':
      return `moved${from}${where}`
    case 'return':
      return `put back${from}${where}`
    case 'cut':
      return movement.wholeDelta > 0
        ? `cut off a larger piece${where}`
        : movement.wholeDelta < 0
          ? 'cut up, none left'
          : 'cut smaller'
    case 'correct':
      return movement.wholeDelta < 0 ? 'struck off' : correctedWords(movement.reason)
    case 'use':
      return 'used up'
    case 'transfer':
      return movement.toOwnerName ? `passed to ${movement.toOwnerName}` : 'passed on'
    case 'undo':
      return movement.wholeDelta > 0 ? `put back on the list${where}` : 'taken back'
    default:
      return movement.kind
  }
}

/** A correction is told by what its reason begins with; the rest were of size or count, written on the card or measured. */
function correctedWords(reason: string | null): string {
  if (reason?.startsWith('washed ')) return 'washed'
  if (reason?.startsWith('counted ')) return 'counted'
  if (reason?.startsWith('tried wet on white ')) return 'tried for bleeding'
  return 'measured'
}
