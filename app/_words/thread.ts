import type { ThreadLine } from '#lib/thread/thread'

/** A line by its full name: "Larkholm stranded". */
export const lineTitle = (line: Pick<ThreadLine, 'makerName' | 'name'>): string =>
  [line.makerName, line.name].filter(Boolean).join(' ')

/** A thread by its full name: "Larkholm stranded 0017 Straw". */
export const threadTitle = (thread: {
  line: Pick<ThreadLine, 'makerName' | 'name'>
  code: string
  name: string | null
}): string => [lineTitle(thread.line), thread.code, thread.name].filter(Boolean).join(' ')

/** A thread as one calls it where its line is plain: "Larkholm 0017 Straw". */
export const threadName = (thread: { makerName: string; code: string; name: string | null }): string =>
  [thread.makerName, thread.code, thread.name].filter(Boolean).join(' ')
