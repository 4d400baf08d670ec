// The small build: this is read in the browser too.
import * as z from 'zod/mini'

/** A thread that is not on record, as the form is told of it and tells it back. */
export type NewThreadShown = { key: string; words: string }

const shownSchema = z.array(z.object({ key: z.string(), words: z.string() }))
const keysSchema = z.array(z.string())

const parsed = (text: string | undefined): unknown => {
  try {
    return JSON.parse(text ?? '')
  } catch {
    return null
  }
}

export const newThreadsText = (threads: readonly NewThreadShown[]): string => JSON.stringify(threads)
export const newThreadsShown = (text: string | undefined): NewThreadShown[] => shownSchema.safeParse(parsed(text)).data ?? []

/** The keys of the threads that were ticked as meant. */
export const meantText = (threads: readonly NewThreadShown[]): string => JSON.stringify(threads.map(({ key }) => key))
export const meantThreads = (text: string | undefined): Set<string> => new Set(keysSchema.safeParse(parsed(text)).data ?? [])
