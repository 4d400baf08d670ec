import 'server-only'
import { getAnswers } from '../answers/get-answers'
import { newId } from '../new-id'
import { type Choice, type ChoiceProgress, chooseDesigns } from './choose-designs'
import { explainChoice, type LeftOut } from './explain-choice'
import { type ChoiceAsked, type ChoiceQuestion, readChoice } from './read-choice'

/** A choice with all that is said of it. */
export type ChoiceAnswer = { asked: ChoiceAsked; question: ChoiceQuestion; choice: Choice; leftOut: LeftOut[] }

export type ChoiceJob =
  | { state: 'running'; asked: ChoiceAsked; progress: ChoiceProgress; timeLimitSeconds: number; designs: number; pieces: number }
  | { state: 'done'; answer: ChoiceAnswer }
  | { state: 'failed'; asked: ChoiceAsked; errorId: string }

/** What saying why the others are left out may take. */
const explainingMs = 2_000

/** Choose, and say why the others are left out. */
export async function answerChoice(
  asked: ChoiceAsked,
  options: {
    timeLimitSeconds: number
    signal?: AbortSignal
    report?: (progress: ChoiceProgress, question: ChoiceQuestion) => void
  },
): Promise<ChoiceAnswer> {
  const question = await readChoice(await getAnswers(), asked)
  const { timeLimitSeconds, signal, report } = options
  const { choice, trials } = await chooseDesigns(question.world, {
    timeLimitSeconds,
    ...(signal && { signal }),
    report: (progress) => report?.(progress, question),
  })
  // Stopped, the search of cuts is over too: no more is tried.
  const timeLimitMs = signal?.aborted ? 0 : explainingMs
  return { asked, question, choice, leftOut: await explainChoice(question.world, choice.placed, trials, { timeLimitMs }) }
}

type Kept = { job: ChoiceJob; stop: AbortController }

// Actions and routes are bundled apart; what runs is known to all of them.
const shared = globalThis as unknown as { larderChoices?: Map<string, Kept> }
shared.larderChoices ??= new Map()
const jobs = shared.larderChoices
/** Finished ones beyond this many are forgotten, the oldest first. */
const jobsKept = 30

/** Begin to choose in the background; ask `findChoiceJob` how it goes. */
export function startChoice(asked: ChoiceAsked, timeLimitSeconds: number): { jobId: string } {
  const jobId = newId()
  const stop = new AbortController()
  const progress: ChoiceProgress = { step: 'bounding', rounds: 0, value: 0, bound: 0 }
  const kept: Kept = { job: { state: 'running', asked, progress, timeLimitSeconds, designs: 0, pieces: 0 }, stop }
  jobs.set(jobId, kept)
  for (const [id, { job }] of jobs) {
    if (jobs.size <= jobsKept) break
    if (job.state !== 'running') jobs.delete(id)
  }
  answerChoice(asked, {
    timeLimitSeconds,
    signal: stop.signal,
    report: (now, { world }) => {
      const [designs, pieces] = [world.designs.length, world.pieces.length]
      kept.job = { state: 'running', asked, progress: now, timeLimitSeconds, designs, pieces }
    },
  }).then(
    (answer) => {
      kept.job = { state: 'done', answer }
    },
    (error) => {
      const errorId = newId()
      console.error(`choosing failed (${errorId})`, error)
      kept.job = { state: 'failed', asked, errorId }
    },
  )
  return { jobId }
}

/** @returns null for one nobody knows, such as one from before the server was started */
export const findChoiceJob = (jobId: string): ChoiceJob | null => jobs.get(jobId)?.job ?? null

/** End a search at once; the best found so far becomes its answer. */
export const stopChoice = (jobId: string): void => jobs.get(jobId)?.stop.abort()
