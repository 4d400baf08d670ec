import { z } from 'zod'
import { idText } from '#forms/fields'
import { say } from '#language/say'
import { colourFamilies, familyNamed } from '#lib/colour/family'
import type { Owner } from '#lib/db/owner/owners'
import { findPlaceByLabel } from '#lib/db/place/queries'
import { parseWholeNumber } from '#lib/quantity/number'
import type { BulkChange } from '#lib/stock/plan-bulk-edit'
import { givenName } from '#words/given'

const whats = ['home', 'owner', 'lot', 'minimum', 'family', 'leaving'] as const

/** Larger figures are slips of the finger. */
const mostPutUps = 100_000

const text = z.string().trim().max(200).catch('')
const many = z.preprocess(
  (value) => (typeof value === 'string' ? [value] : value),
  z.array(z.string().max(64)).max(500).catch([]),
)

/** What is to be changed, as it stands in the address of the preview. */
const choicesSchema = z.object({
  /** What was chosen of the list itself, in place of `scope` and `t`: lib/db/listing/keep-chosen.ts. */
  chosen: z.string().max(64).catch(''),
  scope: z.enum(['found', 'ticked']).catch('ticked'),
  t: many,
  what: z.enum(whats).or(z.literal('')).catch(''),
  putUps: text,
  family: text,
  leaving: z.enum(['yes', 'no']).catch('yes'),
  home: text,
  to: text,
  lot: text,
})

export type BulkChoices = z.infer<typeof choicesSchema>

export type Query = Record<string, string | string[] | undefined>

/** `newFamily` in the address, for `family` is a choice that narrows the list. */
export const readBulkChoices = (query: Query): BulkChoices => choicesSchema.parse({ ...query, family: query.newFamily })

/** A query string as a page gets it. */
export function queryOf(search: string): Query {
  const query: Query = {}
  for (const [name, value] of new URLSearchParams(search)) {
    const before = query[name]
    query[name] = before === undefined ? value : [before, value].flat()
  }
  return query
}

/** The same as a query string again. */
export function searchOf(query: Query): string {
  const search = new URLSearchParams()
  for (const [name, value] of Object.entries(query)) for (const one of [value ?? []].flat()) search.append(name, one)
  return search.toString()
}

/** The change that was asked for, with the words it is kept under; or a sentence saying what is wrong with it. */
export async function readChange(
  choices: BulkChoices,
  owners: readonly Owner[],
): Promise<{ change: BulkChange; what: string } | { wrong: string }> {
  switch (choices.what) {
    case '':
      return { wrong: say('Say what is to be changed.') }
    case 'minimum': {
      const putUps = choices.putUps === '' ? null : parseWholeNumber(choices.putUps)
      if (putUps === null && choices.putUps !== '')
        return { wrong: say('The number to keep is a whole number, such as 2; or left empty for none.') }
      if (putUps !== null && putUps > mostPutUps)
        return { wrong: say('More than {mostPutUps, number} cannot be kept.', { mostPutUps }) }
      return {
        change: { kind: 'minimum', putUps },
        what: putUps === null ? say('No least number to keep') : say('Keep at least {putUps}', { putUps }),
      }
    }
    case 'family': {
      if (choices.family === '') return { change: { kind: 'family', family: null }, what: say('Filed by its colour') }
      const family = familyNamed(choices.family)
      if (family === null)
        return { wrong: say('The families are {colourFamilies}.', { colourFamilies: colourFamilies.map(givenName).join(', ') }) }
      return { change: { kind: 'family', family }, what: say('Filed under {family}', { family: givenName(family) }) }
    }
    case 'leaving': {
      const isLeaving = choices.leaving === 'yes'
      return {
        change: { kind: 'leaving', isLeaving },
        what: isLeaving ? say('Marked as no longer made') : say('Marked as still made'),
      }
    }
    case 'home': {
      if (choices.home === '') return { wrong: say('Say where it is to live, by the label of the place.') }
      const place = await findPlaceByLabel(choices.home)
      if (!place)
        return {
          wrong: say('No place is labelled {home}. Choose one of the list, or add it under Places first.', {
            home: choices.home,
          }),
        }
      return { change: { kind: 'home', toPlaceId: place.id }, what: say('New home {place}', { place: place.label }) }
    }
    case 'owner': {
      const owner = owners.find(({ id }) => id === choices.to)
      if (!owner) return { wrong: say('Choose the new owner.') }
      return { change: { kind: 'owner', toOwnerId: owner.id }, what: say('Passed to {owner}', { owner: owner.name }) }
    }
    case 'lot': {
      if (choices.lot === '') return { wrong: say('Give the lot as it stands on the band.') }
      return { change: { kind: 'lot', lot: choices.lot }, what: say('Lot {lot}', { lot: choices.lot }) }
    }
  }
}

export const applySchema = z.object({
  /** The query string of the preview. */
  search: z.string().max(60_000),
  fingerprint: z.string().min(1).max(100),
  who: z.string().trim().max(200).default(''),
})

export const undoSchema = z.object({ bulkEditId: idText })
