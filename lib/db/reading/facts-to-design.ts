import type { DesignSize } from '#lib/chart/design'
import type { ReadFacts } from '#lib/chart/key-text/reading'
import type { Weave } from '#lib/cloth/cloth-piece'
import { weaveOfCount } from '#lib/importing/check-cloth'
import type { Count } from '#lib/quantity/count'

/** What a text says of a design, as a design is written. Null where it says nothing, or only half of it. */
export type FactsOfDesign = {
  title: string | null
  designer: string | null
  size: DesignSize
  advised: { count: Count; over: 1 | 2 } | null
  weave: Weave | null
  clothName: string | null
}

const mostTitle = 200
const mostCloth = 120

/**
 * Stitches before a ruled size, for they are exact. A count of which nobody says how many threads a stitch goes over is taken over two where
 * it is single threads, else over one (common practice, no published source).
 */
export function factsToDesign(facts: ReadFacts): FactsOfDesign {
  const { title, designer, widthStitches, heightStitches, measuredWidthUm, measuredHeightUm, count, over, weave, cloth } = facts
  const size: DesignSize =
    widthStitches && heightStitches
      ? { kind: 'stitches', width: widthStitches.value, height: heightStitches.value }
      : measuredWidthUm && measuredHeightUm
        ? { kind: 'measured', widthUm: measuredWidthUm.value, heightUm: measuredHeightUm.value }
        : { kind: 'unknown' }
  return {
    title: title?.value.slice(0, mostTitle) ?? null,
    designer: designer?.value ?? null,
    size,
    advised: count && { count: count.value, over: over?.value ?? usualOver(weave?.value ?? null, count.value) },
    weave: weave?.value ?? null,
    clothName: cloth?.value.slice(0, mostCloth) ?? null,
  }
}

const usualOver = (weave: Weave | null, count: Count): 1 | 2 => ((weave ?? weaveOfCount(count)) === 'block' ? 1 : 2)
