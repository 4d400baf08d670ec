import { z } from 'zod'
import { idText, versionText } from '#forms/fields'
import { say } from '#language/say'
import { type Choices, mayTakeBoth, mergedFields, takes } from '#lib/chart/doubles-merged'
import { toldApartNouns } from '#lib/db/merging/tell-apart'

export const mergeChartsSchema = z.object({
  keptId: idText,
  goneId: idText,
  keptVersion: versionText,
  goneVersion: versionText,
})

/** The choices of a form, one field each: `take title` is kept, other or both. */
export function choicesOf(values: Record<string, string>): Choices {
  const choices: Choices = {}
  for (const field of mergedFields) {
    const take = takes.find((one) => one === values[`take ${field}`])
    if (take !== undefined && (take !== 'both' || mayTakeBoth(field))) choices[field] = take
  }
  return choices
}

/** The designs of the chart given up whose facts stand: fields `facts <id>` that say so. */
export const factsOf = (values: Record<string, string>): string[] =>
  Object.entries(values).flatMap(([name, value]) => (name.startsWith('facts ') && value === 'other' ? [name.slice(6)] : []))

export const mergeNamedSchema = z
  .object({
    noun: z.enum(['designer', 'thread', 'line', 'maker']),
    firstId: idText,
    secondId: idText,
    keptId: z
      .string({ error: () => say('Choose the one that is kept.') })
      .min(1, { error: () => say('Choose the one that is kept.') })
      .max(64),
  })
  .refine(({ firstId, secondId, keptId }) => keptId === firstId || keptId === secondId, {
    path: ['keptId'],
    error: () => say('Choose the one that is kept.'),
  })

export const tellApartSchema = z.object({ noun: z.enum(toldApartNouns), firstId: idText, secondId: idText })
export const lookAgainSchema = z.object({ firstId: idText, secondId: idText })
export const undoMergingSchema = z.object({ mergingId: idText })
