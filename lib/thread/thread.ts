import type { ColourFamily } from '#lib/colour/family'
import type { Lab, LabCertainty } from '#lib/colour/lab'
import type { Working } from './stitches'

export const dyeings = ['solid', 'variegated', 'overdyed'] as const
/** How the colour was put on: one colour; one colour shading; irregular colour over another (hand-dyed). */
export type Dyeing = (typeof dyeings)[number]

/** What a maker's line of thread is like; every thread of the line shares it. */
export type ThreadLine = {
  id: string
  makerId: string
  makerName: string
  name: string
  fibre: string | null
  /** Strands one can part it into; 1 when undividable. */
  strands: number
  /** Length of one put-up of strand, in tenths of a millimetre: put-up length × strands (8 m of six = 480,000). */
  putUpStrandTenths: number
  /** What the put-up is called: skein, hank, spool, card. */
  putUpWord: string
  dyeing: Dyeing
  /** Whether all of one colour in a design must come from one dye lot. */
  lotsMatter: boolean
  working: Working
}

/** A thread is maker + line + code; the code is exact text (`0017` is not `17`). */
export type Thread = {
  id: string
  lineId: string
  code: string
  name: string | null
  lab: Lab | null
  /** Null without a colour, or where nobody said. */
  labCertainty: LabCertainty | null
  /** The family a person filed it under; null where its colour's own is right: see `filedFamily`. */
  family: ColourFamily | null
  /** No longer made, or soon not to be. */
  isLeaving: boolean
}
