import { sayings } from '#language/say'
import type { ColumnsKnown } from '#lib/listing/columns'

const every = ['hoop', 'what', 'done', 'log', 'due', 'planned', 'whom', 'stars', 'started', 'owner', 'bag'] as const
export type ProjectColumnKey = (typeof every)[number]

export const projectColumnsKnown: ColumnsKnown<ProjectColumnKey> = {
  every,
  usual: ['hoop', 'what', 'done', 'log', 'due', 'bag'],
  fixed: 'what',
}

/** As they are called where one chooses among them. */
export const projectColumnWords: Record<ProjectColumnKey, string> = sayings({
  hoop: 'State',
  what: 'What',
  done: 'Done',
  log: 'Log: one press for today',
  due: 'Due',
  planned: 'Day it is to be begun',
  whom: 'For whom',
  stars: 'How much it is wished for',
  started: 'Begun on',
  owner: 'Owner',
  bag: 'Bag',
})
