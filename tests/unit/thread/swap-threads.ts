import type { Lab } from '#lib/colour/lab'
import type { SwapLine, SwapThread } from '#lib/thread/substitution'

export const cotton: SwapLine = {
  fibre: 'cotton',
  strands: 6,
  putUpStrandTenths: 480_000,
  dyeing: 'solid',
  lotsMatter: false,
}

export const lab = (L: number, a: number, b: number): Lab => ({ L, a, b })

export const aThread = (threadId: string, colour: Lab | null, line: Partial<SwapLine> = {}): SwapThread => ({
  threadId,
  lab: colour,
  line: { ...cotton, ...line },
})
