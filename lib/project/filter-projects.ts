import { addDays } from '#lib/quantity/day'
import { textKey } from '#lib/quantity/text-key'
import type { ProjectStatus } from './life-cycle'

/** `late`: its day is over. `soon`: due within four weeks, today counted. `none`: no day was said. */
export const dueChoices = ['late', 'soon', 'none'] as const
export type DueChoice = (typeof dueChoices)[number]

/** What a list of projects is narrowed to; null and an empty text narrow nothing. */
export type ProjectFilter = {
  status: ProjectStatus | null
  /** Every word occurs in the title, a designer's name, or for whom it is. */
  words: string
  due: DueChoice | null
}

export const narrowsNothing = ({ status, words, due }: ProjectFilter): boolean => status === null && words === '' && due === null

export type FilteredProject = {
  status: ProjectStatus
  title: string
  designers: readonly string[]
  forWhom: string | null
  dueOn: string | null
}

const soonDays = 28

/** Whether a project is among those asked for. @param today  yyyy-mm-dd */
export function passesFilter(project: FilteredProject, filter: ProjectFilter, today: string): boolean {
  if (filter.status !== null && project.status !== filter.status) return false
  if (!isDue(project.dueOn, filter.due, today)) return false
  const words = textKey(filter.words).split(' ').filter(Boolean)
  const text = textKey([project.title, ...project.designers, project.forWhom ?? ''].join(' '))
  return words.every((word) => text.includes(word))
}

function isDue(dueOn: string | null, asked: DueChoice | null, today: string): boolean {
  switch (asked) {
    case null:
      return true
    case 'none':
      return dueOn === null
    case 'late':
      return dueOn !== null && dueOn < today
    case 'soon':
      return dueOn !== null && dueOn >= today && dueOn <= addDays(today, soonDays)
  }
}
