import { say, sayings } from '#language/say'
import type { ReadFacts } from '#lib/chart/key-text/reading'
import { type FieldStanding, needsLook, standingOf } from '#lib/chart/reading-fields'
import type { LengthUnit } from '#lib/quantity/cloth-length'
import { parseCount } from '#lib/quantity/count'
import { countWords } from '#words/cloth-count'
import { designSizeText, parseDesignSize } from '../../../_charts/design-text'
import type { SentCorrection } from '../../../_reading/correction-schema'
import type { Typed } from './corrections'

/** What is asked of a design, each from one or more facts of the text. */
export const factFields = ['title', 'designer', 'size', 'count', 'over', 'weave', 'cloth'] as const
export type FactField = (typeof factFields)[number]

export const factLabels: Record<FactField, string> = sayings({
  title: 'Title',
  designer: 'Designer',
  size: 'Size',
  count: 'Count',
  over: 'Over',
  weave: 'Weave',
  cloth: 'Cloth it names',
})

export const factsOf: Record<FactField, readonly (keyof ReadFacts)[]> = {
  title: ['title'],
  designer: ['designer'],
  size: ['widthStitches', 'heightStitches', 'measuredWidthUm', 'measuredHeightUm'],
  count: ['count'],
  over: ['over'],
  weave: ['weave'],
  cloth: ['cloth'],
}

/** The worst of the facts it is made of. */
export function factStanding(facts: ReadFacts, field: FactField): FieldStanding {
  const standings = factsOf[field].map((name) => standingOf(facts[name])).filter((standing) => standing !== 'empty')
  return standings.find(needsLook) ?? standings[0] ?? 'empty'
}

/** A fact as its field shows it. */
export function factText(facts: ReadFacts, field: FactField, unit: LengthUnit): string {
  switch (field) {
    case 'title':
    case 'designer':
    case 'cloth':
      return facts[field]?.value ?? ''
    case 'size':
      return sizeText(facts, unit)
    case 'count':
      return facts.count ? countWords(facts.count.value, facts.count.value) : ''
    case 'over':
      return facts.over ? String(facts.over.value) : ''
    case 'weave':
      return facts.weave?.value ?? ''
  }
}

function sizeText({ widthStitches, heightStitches, measuredWidthUm, measuredHeightUm }: ReadFacts, unit: LengthUnit): string {
  if (widthStitches && heightStitches) return `${widthStitches.value} × ${heightStitches.value}`
  if (measuredWidthUm && measuredHeightUm)
    return designSizeText({ kind: 'measured', widthUm: measuredWidthUm.value, heightUm: measuredHeightUm.value }, unit)
  const only = widthStitches ?? heightStitches
  return only ? `${widthStitches?.value ?? '?'} × ${heightStitches?.value ?? '?'}` : ''
}

type FactEdit = Extract<SentCorrection, { kind: 'fact' }>['edit']

/** A fact as typed, or chosen. */
export function typedFact(design: number, field: FactField, text: string): Typed {
  const trimmed = text.trim()
  const written = (...edits: FactEdit[]): Typed => ({
    ok: true,
    corrections: edits.map((edit) => ({ kind: 'fact', design, edit })),
  })
  switch (field) {
    case 'title':
    case 'designer':
    case 'cloth':
      if (trimmed.length > 200) return { ok: false, message: say('Keep it to 200 characters.') }
      return written({ fact: field, value: trimmed || null })
    case 'over':
      return written({ fact: 'over', value: trimmed === '1' ? 1 : trimmed === '2' ? 2 : null })
    case 'weave':
      return written({ fact: 'weave', value: trimmed === 'block' || trimmed === 'single' ? trimmed : null })
    case 'count': {
      if (trimmed === '') return written({ fact: 'count', value: null })
      const read = parseCount(trimmed)
      if (!read) return { ok: false, message: say('Give the count as 28, 14, or 110/10cm.') }
      const over = read.over === null ? [] : [{ fact: 'over', value: read.over } as const]
      return written({ fact: 'count', value: { threads: read.ends.threads, perUm: read.ends.perUm } }, ...over)
    }
    case 'size': {
      const size = parseDesignSize(trimmed)
      if (!size)
        return {
          ok: false,
          message: say('Give both sides, width first: 140 x 98 in stitches, or with its unit as ruled, 8 x 6 in or 20 x 15 cm.'),
        }
      const stitches = size.kind === 'stitches' ? size : null
      const ruled = size.kind === 'measured' ? size : null
      return written(
        { fact: 'widthStitches', value: stitches?.width ?? null },
        { fact: 'heightStitches', value: stitches?.height ?? null },
        { fact: 'measuredWidthUm', value: ruled?.widthUm ?? null },
        { fact: 'measuredHeightUm', value: ruled?.heightUm ?? null },
      )
    }
  }
}
