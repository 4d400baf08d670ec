import { z } from 'zod'
import { idText, isTicked, optionalText, versionText } from '#forms/fields'
import { type Sentence, sentenceText } from '#forms/sentence'
import { say } from '#language/say'
import { type HousedNoun, housedNouns } from '#lib/db/place/rehouse-things'
import { splitWays } from '#lib/db/place/split-place'
import { type PutUpRoom, putUpKey } from '#lib/place/capacity'
import { givenPlaceKinds } from '#lib/place/place'
import { parseWholeNumber } from '#lib/quantity/number'
import { putUpMeant } from '#words/amounts'

const optionalWhole = (problem: Sentence) =>
  z
    .string()
    .trim()
    .transform((text, context) => {
      if (text === '') return null
      const value = parseWholeNumber(text)
      if (value !== null && value <= 1_000_000) return value
      context.addIssue({ code: 'custom', message: sentenceText(problem) })
      return z.NEVER
    })

const card = {
  label: z
    .string()
    .trim()
    .min(1, { error: () => say('Give the place a label: what is written on it.') })
    .max(60, { error: () => say('Keep the label to 60 characters.') }),
  name: optionalText(120),
  kind: z.enum(givenPlaceKinds, { error: () => say('Choose what sort of place it is.') }),
  capacity: optionalWhole(() => say('How much it holds is a whole number: 40.')),
  walkOrder: optionalWhole(() => say('Its turn in the walk is a whole number: 3.')),
  note: optionalText(1000),
}
/** A place to be inside of; blank is the top. */
const parentText = z
  .string()
  .max(64)
  .transform((id) => (id === '' ? null : id))

/** Kinds of put-up a place's form has room for. */
export const putUpRows = 6

/** How many of each kind of put-up a place takes, from the rows of its form; the fields are `putUp0`, `most0` and so on. */
export const putUpsSchema = z.record(z.string(), z.string()).transform((values, context): PutUpRoom[] => {
  const rows: PutUpRoom[] = []
  const wrong = (field: string, message: string) => context.addIssue({ code: 'custom', message, path: [field] })
  for (let row = 0; row < putUpRows; row++) {
    const putUpWord = putUpMeant((values[`putUp${row}`] ?? '').trim())
    const text = (values[`most${row}`] ?? '').trim()
    if (putUpWord === '' && text === '') continue
    const most = parseWholeNumber(text)
    if (putUpWord === '') wrong(`putUp${row}`, say('Say of what: skein, card, loop.'))
    else if (putUpWord.length > 30) wrong(`putUp${row}`, say('Keep the word to 30 characters.'))
    else if (most === null || most < 1 || most > 1_000_000)
      wrong(`most${row}`, say('How many it takes is a whole number from 1: 6.'))
    else if (rows.some((other) => putUpKey(other.putUpWord) === putUpKey(putUpWord)))
      wrong(`putUp${row}`, say('{putUpWord} is given twice. Give it once.', { putUpWord }))
    else rows.push({ putUpWord, most })
  }
  return rows
})

export const addPlaceSchema = z.object({ ...card, parentId: parentText })
export const editPlaceSchema = z.object({ ...card, id: idText, version: versionText })
export const movePlaceSchema = z.object({ id: idText, version: versionText, toParentId: parentText })
/** Once it is gone, one looks at what it was inside of. */
export const removePlaceSchema = z.object({ id: idText, version: versionText, parentId: parentText })
export const putBackSchema = z.object({ noun: z.enum(['thread', 'cloth', 'chart', 'notion']), id: idText, version: versionText })

export const restorePlaceSchema = z.object({ id: idText, version: versionText })

export const mergePlaceSchema = z.object({
  id: idText,
  version: versionText,
  intoId: z
    .string()
    .max(64)
    .min(1, { error: () => say('Choose the place it goes into.') }),
  addsRoom: isTicked,
})

export const splitPlaceSchema = z.object({
  id: idText,
  version: versionText,
  label: card.label,
  name: card.name,
  kind: card.kind,
  way: z.enum(splitWays, { error: () => say('Say where the new place stands.') }),
})
export const undoPlaceChangeSchema = z.object({ changeId: idText })

const splitMark = /^goes (thread|cloth|chart|notion|place) (\S{1,64})$/

/** The field that says a thing, or a place inside, goes along; its value is the version that was seen. */
export const splitField = (noun: HousedNoun | 'place', id: string): string => `goes ${noun} ${id}`

/** What was ticked to go to the new place. */
export function splitChoice(values: Record<string, string>) {
  const things: { noun: HousedNoun; id: string; version: number }[] = []
  const insideIds: string[] = []
  for (const [name, value] of Object.entries(values)) {
    const [, noun, id] = splitMark.exec(name) ?? []
    if (id === undefined) continue
    const thingNoun = housedNouns.find((known) => known === noun)
    if (thingNoun === undefined) insideIds.push(id)
    else things.push({ noun: thingNoun, id, version: Number(value) })
  }
  return { things, insideIds }
}

export const placePageSchema = z.object({
  page: z.coerce.number().int().min(1).max(10_000).catch(1),
  /** The place that was just removed. */
  removed: idText.optional().catch(undefined),
  /** Which places are fuller than so many per cent is asked for. */
  full: z.coerce.number().int().min(1).max(1000).optional().catch(75),
  /** An old label whose code led here. */
  label: z.string().trim().max(60).optional().catch(undefined),
  /** What lived here before is asked for. */
  before: z
    .string()
    .optional()
    .catch(undefined)
    .transform((asked) => asked !== undefined),
})
