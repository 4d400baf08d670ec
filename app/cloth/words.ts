import { plainFigure } from '#language/figures'
import { formatClothSize } from '#language/lengths'
import { say, sayings } from '#language/say'
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

export const weaveWords: Record<Weave, string> = sayings({ single: 'Evenweave and linen', block: 'Block cloth' })

/** What a group of the list is headed: Evenweave and linen, 28 count. */
export const kindTitle = ({ weave, ends, picks }: Pick<ClothPiece, 'weave' | 'ends' | 'picks'>): string =>
  say('{weave}, {nominalCountLabel} count', { weave: weaveWords[weave], nominalCountLabel: nominalCountLabel(ends, picks) })

const figure = (value: number): string => plainFigure(Number(value.toFixed(1)))

/** Both counts both ways: 34 ends and 31 picks to the inch (133.9 and 122 to 10 cm). */
export function describeCounts(ends: Count, picks: Count): string {
  const inTenCm = (count: Count) => figure((count.threads * 100_000) / count.perUm)
  if (isSquareCount(ends, picks))
    return say('{figure} to the inch both ways ({inTenCm} to 10 cm)', { figure: figure(perInch(ends)), inTenCm: inTenCm(ends) })
  return say('{figure} ends and {figure2} picks to the inch ({inTenCm} and {inTenCm2} to 10 cm)', {
    figure: figure(perInch(ends)),
    figure2: figure(perInch(picks)),
    inTenCm: inTenCm(ends),
    inTenCm2: inTenCm(picks),
  })
}

/** How much a stitch is longer one way than the other; empty when the cloth is square. */
export function describeSquareness(ends: Count, picks: Count): string {
  if (isSquareCount(ends, picks)) return say('Square: a design keeps its size when the piece is turned.')
  const [across, up] = [perInch(ends), perInch(picks)]
  const percent = figure((Math.max(across, up) / Math.min(across, up) - 1) * 100)
  return say(
    'Not square: stitches come out {percent} % {acrossCase, select, yes {taller than wide} other {wider than tall}}, and a design changes its size when the piece is turned.',
    { percent, acrossCase: across > up },
  )
}

export const certaintyWords: Record<Certainty, string> = sayings({
  measured: 'as measured',
  label: 'by its label',
  guess: 'by guess',
  estimated: 'estimated',
  assumed: 'assumed',
})

/** How the size is known, and whether it can be trusted as it stands. */
export const describeSizeCertainty = (piece: Pick<ClothPiece, 'sizeCertainty' | 'isSquared'>): string =>
  say('{certainty}, {isSquared, select, yes {squared} other {not squared yet}}', {
    certainty: certaintyWords[piece.sizeCertainty],
    isSquared: piece.isSquared,
  })

export const endingWords: Record<ClothEnding, string> = sayings({
  used: 'It is used up',
  'passed on': 'It was sold or given away',
  lost: 'It is lost',
  slip: 'It was written down by mistake',
})

export function describeClothRefusal(refusal: ClothRefusal, unit: LengthUnit): string {
  switch (refusal.kind) {
    case 'nothing-cut':
      return say('The piece would be as it was, with no offcut: nothing was cut.')
    case 'more-than-it-was':
      return say(
        'The parts together are more cloth than the piece was. Look at the sizes again; if the piece is really larger, measure it first.',
      )
    case 'part-too-large': {
      const part = refusal.part === 0 ? say('What is left of the piece') : say('Offcut {part}', { part: refusal.part })
      return say(
        '{part}, {refusal}, does not come out of the piece either way round. If the piece is really larger, measure it first.',
        { part, refusal: formatClothSize(refusal, unit) },
      )
    }
    case 'label-taken':
      return say('There is a piece labelled {label} already. Give this one another label, or none.', { label: refusal.label })
    case 'no-such-owner':
      return say('That owner is not there any more. Choose another.')
    case 'reserved':
      return say('It is kept for {titles}. Give that project another piece first, or cut it for that project.', {
        titles: listed(refusal.titles),
      })
    case 'planned':
      return say('It is to be cut for {title}. Carry that plan of cuts out or give it up first.', { title: refusal.title })
    case 'kept-by-record':
      return keptByRecordWords(refusal.label)
    case 'already-there':
      return say('It lies there already.')
    case 'already-theirs':
      return say('It is theirs already.')
    case 'no-home':
      return say('It has no place of its own yet. Say where it lives first.')
    case 'worked-up':
      return say(
        'It was cut up or used for a project, so it cannot come back whole. Write down what is left of it as a new piece.',
      )
    case 'changed-meanwhile':
      return say('Somebody changed or moved this piece meanwhile. Look at it again, then make your change.')
  }
}

const wayWords = sayings({ ends: 'across', picks: 'up' })

/** Why readings along a ruler make no count. */
export function describeRulerRefusal(refusal: RulerRefusal): string {
  switch (refusal.kind) {
    case 'no-reading':
      return say('There is no reading {way} yet. Count each way at least once.', { way: wayWords[refusal.way] })
    case 'no-count':
      return say('{figure} to the inch {way} is no count of cloth. Look at the figures and at the length again.', {
        figure: figure(refusal.perInch),
        way: wayWords[refusal.way],
      })
  }
}

/** A line of a piece's history. */
export function describeMovement(movement: ClothMovement): string {
  const where = movement.to ? say(' to {label}', { label: movement.to.label }) : ''
  const from = movement.from ? say(' from {label}', { label: movement.from.label }) : ''
  switch (movement.kind) {
    case 'receive':
      return say('came in{where}', { where })
    case 'move':
    case 'take':
      return say('moved{from}{where}', { from, where })
    case 'return':
      return say('put back{from}{where}', { from, where })
    case 'cut':
      return movement.wholeDelta > 0
        ? say('cut off a larger piece{where}', { where })
        : movement.wholeDelta < 0
          ? say('cut up, none left')
          : say('cut smaller')
    case 'correct':
      return movement.wholeDelta < 0 ? say('struck off') : correctedWords(movement.reason)
    case 'use':
      return say('used up')
    case 'transfer':
      return movement.toOwnerName ? say('passed to {toOwnerName}', { toOwnerName: movement.toOwnerName }) : say('passed on')
    case 'undo':
      return movement.wholeDelta > 0 ? say('put back on the list{where}', { where }) : say('taken back')
    default:
      return movement.kind
  }
}

/** A correction is told by what its reason begins with; the rest were of size or count, written on the card or measured. */
function correctedWords(reason: string | null): string {
  if (reason?.startsWith('washed ')) return say('washed')
  if (reason?.startsWith('counted ')) return say('counted')
  if (reason?.startsWith('tried wet on white ')) return say('tried for bleeding')
  return say('measured')
}
