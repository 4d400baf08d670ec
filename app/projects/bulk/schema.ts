import { z } from 'zod'
import { idText } from '#forms/fields'
import { formatDate } from '#language/day'
import { say } from '#language/say'
import { mostStars } from '#lib/planning/together/wish-value'
import type { ProjectBulkChange } from '#lib/project/plan-project-bulk'
import { isDay } from '#lib/quantity/day'
import { counted } from '#words/amounts'

const text = z.string().trim().max(200).catch('')

/** What is to be changed, as it stands in the address of the preview. */
const askedSchema = z.object({
  chosen: z.string().max(64).catch(''),
  what: z.enum(['due', 'planned', 'for-whom', 'stars']).or(z.literal('')).catch(''),
  due: text,
  planned: text,
  whom: text,
  stars: z.enum(['0', '1', '2', '3', '4', '5']).catch('0'),
})
export type ProjectBulkAsked = z.infer<typeof askedSchema>

export type Query = Record<string, string | string[] | undefined>

export const readAsked = (query: Query): ProjectBulkAsked => askedSchema.parse(query)

/** The change that was asked for, with the words it is kept under; or a sentence saying what is wrong with it. */
export function readChange(asked: ProjectBulkAsked): { change: ProjectBulkChange; what: string } | { wrong: string } {
  const noDay = { wrong: say('Give a day as 2026-12-01, or leave it blank.') }
  switch (asked.what) {
    case '':
      return { wrong: say('Say what is to be changed.') }
    case 'due': {
      const dueOn = asked.due || null
      if (dueOn !== null && !isDay(dueOn)) return noDay
      const what = dueOn === null ? say('Due on no day') : say('Due {day}', { day: formatDate(dueOn) })
      return { change: { kind: 'due', dueOn }, what }
    }
    case 'planned': {
      const plannedOn = asked.planned || null
      if (plannedOn !== null && !isDay(plannedOn)) return noDay
      const what = plannedOn === null ? say('Planned for no day') : say('To be begun {day}', { day: formatDate(plannedOn) })
      return { change: { kind: 'planned', plannedOn }, what }
    }
    case 'for-whom': {
      const forWhom = asked.whom || null
      return {
        change: { kind: 'for-whom', forWhom },
        what: forWhom === null ? say('For nobody in particular') : say('For {forWhom}', { forWhom }),
      }
    }
    case 'stars': {
      const stars = Math.min(mostStars, Number(asked.stars))
      return {
        change: { kind: 'stars', stars: stars === 0 ? null : stars },
        what: stars === 0 ? say('No stars') : counted(stars, 'star'),
      }
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
