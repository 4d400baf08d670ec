import { z } from 'zod'
import { idText } from '#forms/fields'
import { say, sayings } from '#language/say'
import type { ChartBulkChange } from '#lib/chart/plan-chart-bulk'
import type { Answers } from '#lib/db/answers/answers'
import { themeAxes } from '#lib/db/chart/ensure-themes'
import { chartEndings } from '#lib/db/chart/remove-chart'
import type { Owner } from '#lib/db/owner/owners'
import { findPlaceByLabel } from '#lib/db/place/queries'
import { mostStars } from '#lib/planning/together/wish-value'

const chartWhats = ['home', 'add-theme', 'take-theme', 'stars', 'owner', 'gone'] as const

const text = z.string().trim().max(200).catch('')

/** What is to be changed, as it stands in the address of the preview. */
const askedSchema = z.object({
  chosen: z.string().max(64).catch(''),
  what: z.enum(chartWhats).or(z.literal('')).catch(''),
  home: text,
  axis: z.enum(themeAxes).catch('season'),
  theme: text,
  take: text,
  stars: z.enum(['0', '1', '2', '3', '4', '5']).catch('0'),
  to: text,
  ending: z.enum(chartEndings).catch('passed on'),
})
export type ChartBulkAsked = z.infer<typeof askedSchema>

export type Query = Record<string, string | string[] | undefined>

export const readAsked = (query: Query): ChartBulkAsked => askedSchema.parse(query)

export const axisWords: Record<(typeof themeAxes)[number], string> = sayings({
  season: 'Season or occasion',
  subject: 'Subject',
  form: 'Form',
})

export const endingWords: Record<(typeof chartEndings)[number], string> = sayings({
  'passed on': 'sold or given away',
  lost: 'lost',
  slip: 'entered by mistake',
})

/** The change that was asked for, with the words it is kept under; or a sentence saying what is wrong with it. */
export async function readChange(
  asked: ChartBulkAsked,
  owners: readonly Owner[],
  { world }: Answers,
): Promise<{ change: ChartBulkChange; what: string } | { wrong: string }> {
  switch (asked.what) {
    case '':
      return { wrong: say('Say what is to be changed.') }
    case 'home': {
      if (asked.home === '') return { wrong: say('Say where they are to live, by the label of the place.') }
      const place = await findPlaceByLabel(asked.home)
      if (!place)
        return {
          wrong: say('No place is labelled {home}. Choose one of the list, or add it under Places first.', { home: asked.home }),
        }
      return { change: { kind: 'home', toPlaceId: place.id }, what: say('New home {place}', { place: place.label }) }
    }
    case 'add-theme':
      if (asked.theme === '') return { wrong: say('Say which theme they are to have.') }
      return {
        change: { kind: 'add-theme', axis: asked.axis, name: asked.theme },
        what: say('Theme {theme} added', { theme: asked.theme }),
      }
    case 'take-theme': {
      const theme = world.themes.get(asked.take)
      if (!theme) return { wrong: say('Choose the theme that is to be taken off.') }
      return { change: { kind: 'take-theme', themeId: asked.take }, what: say('Theme {theme} taken off', { theme: theme.name }) }
    }
    case 'stars': {
      const stars = Math.min(mostStars, Number(asked.stars))
      const what = stars === 0 ? say('No stars') : say('{stars, plural, one {# star} other {# stars}}', { stars })
      return { change: { kind: 'stars', stars: stars === 0 ? null : stars }, what }
    }
    case 'owner': {
      const owner = owners.find(({ id }) => id === asked.to)
      if (!owner) return { wrong: say('Choose the new owner.') }
      return { change: { kind: 'owner', toOwnerId: owner.id }, what: say('Passed to {owner}', { owner: owner.name }) }
    }
    case 'gone':
      return {
        change: { kind: 'gone', ending: asked.ending },
        what: say('No longer held: {ending}', { ending: endingWords[asked.ending] }),
      }
  }
}

export const applySchema = z.object({
  /** The query string of the preview. */
  search: z.string().max(4_000),
  fingerprint: z.string().min(1).max(100),
  who: z.string().trim().max(200).default(''),
})

export const undoSchema = z.object({ bulkEditId: idText })
