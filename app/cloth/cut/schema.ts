import { z } from 'zod'
import { idText, optionalText, versionText } from '#forms/fields'
import { formatClothSize } from '#language/lengths'
import { say } from '#language/say'
import { type CutYield, listYield } from '#lib/cloth/confirm-cut'
import type { CutLayout } from '#lib/cloth/cut-plan'
import { type LengthUnit, parseClothSize } from '#lib/quantity/cloth-length'

export const jobSchema = z.object({ jobId: idText })

const titleText = z
  .string()
  .trim()
  .min(1, { error: () => say('Give it a name: what it is cut for.') })
  .max(120, { error: () => say('Keep it to 120 characters.') })
export const keepSchema = jobSchema.extend({ title: titleText })

export const planSchema = z.object({ planId: idText, version: versionText })

/** The fields of a part, by the place of its piece in the plan and its key. */
export const partFields = (piece: number, { key }: Pick<CutYield, 'key'>) => ({
  kept: `kept-${piece}-${key}`,
  size: `size-${piece}-${key}`,
  label: `label-${piece}-${key}`,
  place: `place-${piece}-${key}`,
})
export const wasCutField = (piece: number) => `cut-${piece}`

/**
 * What is said to have been cut. A size that was left as it was shown keeps the exact figures behind it; a part that is not ticked is
 * waste, a piece that is not ticked was not cut.
 */
export const carryOutSchema = (layouts: readonly CutLayout[], unit: LengthUnit) =>
  z
    .object({ planId: idText, version: versionText, note: optionalText(300) })
    .catchall(z.string().max(500))
    .transform(({ planId, version, note, ...rest }, context) => {
      const fields: Record<string, string | undefined> = rest
      const pieces = layouts.flatMap((layout, at) => {
        if (fields[wasCutField(at)] === undefined) return []
        const parts = listYield(layout).flatMap((part) => {
          const names = partFields(at, part)
          if (fields[names.kept] === undefined) return []
          const text = (fields[names.size] ?? '').trim()
          const size = text === formatClothSize(part, unit) ? part : parseClothSize(text, unit)
          const [label, placeLabel] = [names.label, names.place].map((name) => optionalText(60).safeParse(fields[name] ?? ''))
          if (!size)
            context.addIssue({
              code: 'custom',
              path: [names.size],
              message: say('Give both sides as measured, weft first: {part}.', { part: formatClothSize(part, unit) }),
            })
          if (!label?.success)
            context.addIssue({ code: 'custom', path: [names.label], message: say('Keep it to 60 characters.') })
          if (!placeLabel?.success)
            context.addIssue({ code: 'custom', path: [names.place], message: say('Keep it to 60 characters.') })
          if (!size || !label?.success || !placeLabel?.success) return []
          const { widthUm, heightUm } = size
          return [{ key: part.key, widthUm, heightUm, label: label.data, placeLabel: placeLabel.data }]
        })
        return [{ pieceId: layout.pieceId, parts }]
      })
      return context.issues.length > 0 ? z.NEVER : { planId, version, note, pieces }
    })
