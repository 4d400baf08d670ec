import type { Weave } from '../cloth/cloth-piece'
import type { Count } from '../quantity/count'
import type { AllowanceChoice } from '../thread/allowance'

/** The cloth a chart advises. */
export type AdvisedCloth = {
  count: Count
  over: 1 | 2
  weave: Weave | null
  /** The design may not be worked on another weave. */
  insists: boolean
  name: string | null
}

/** A design's size as it is known. `measured` is inches or centimetres given at the advised count: the stitches are estimated from it. */
export type DesignSize =
  | { kind: 'stitches'; width: number; height: number }
  | { kind: 'measured'; widthUm: number; heightUm: number }
  | { kind: 'unknown' }

/** How much of the outline is stitched; used when a key has no amounts. */
export const coverKinds = ['band sampler', 'motif sampler', 'picture', 'full'] as const
export type CoverKind = (typeof coverKinds)[number]

export const chartKinds = ['leaflet', 'booklet', 'card', 'issue', 'kit', 'file'] as const
export type ChartKind = (typeof chartKinds)[number]

/** Everything coverage and cloth need to know of a design. */
export type Design = {
  id: string
  chartId: string
  title: string
  size: DesignSize
  advised: AdvisedCloth | null
  coverKind: CoverKind | null
  /** How much is allowed for slack, starts and ends; null follows the settings. */
  allowance: AllowanceChoice | null
}
