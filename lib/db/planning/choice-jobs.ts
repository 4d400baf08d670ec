import 'server-only'
import { ok, type Result } from '#lib/result'
import { Jobs, secondsRun, type TooManyAtOnce } from '#lib/solver/jobs'
import { getAnswers } from '../answers/get-answers'
import { type Choice, type ChoiceProgress, chooseDesigns } from './choose-designs'
import { explainChoice, type LeftOut } from './explain-choice'
import { type ChoiceAsked, type ChoiceQuestion, readChoice } from './read-choice'

/** A choice with all that is said of it. */
export type ChoiceAnswer = { asked: ChoiceAsked; question: ChoiceQuestion; choice: Choice; leftOut: LeftOut[] }

export type ChoiceJob =
  | { state: 'running'; seconds: number; timeLimitSeconds: number; progress: ChoiceProgress }
  | { state: 'done'; answer: ChoiceAnswer }
  | { state: 'failed'; errorId: string }

/** What saying why the others are left out may take. */
const explainingMs = 2_000

const jobs = new Jobs<{ asked: ChoiceAsked; timeLimitSeconds: number }, ChoiceProgress, ChoiceAnswer>('choice of designs', {
  most: 2,
})

/** Begin to choose in the background, and then to say why the others are left out; `findChoiceJob` says how it goes. */
export function startChoice(asked: ChoiceAsked, timeLimitSeconds: number): Result<{ jobId: string }, TooManyAtOnce> {
  const started = jobs.start({
    about: { asked, timeLimitSeconds },
    first: { step: 'bounding', rounds: 0, value: 0, bound: 0 },
    run: async ({ signal, report }) => {
      const question = await readChoice(await getAnswers(), asked)
      const { choice, trials } = await chooseDesigns(question.world, { timeLimitSeconds, signal, report })
      const leftOut = await explainChoice(question.world, choice.placed, trials, { timeLimitMs: explainingMs, signal })
      return { asked, question, choice, leftOut }
    },
  })
  return started.ok ? ok({ jobId: started.value.id }) : started
}

/** @returns null for one nobody knows, such as one from before the server was started */
export function findChoiceJob(jobId: string): ChoiceJob | null {
  const job = jobs.find(jobId)
  if (job === null) return null
  const { about, state, progress } = job
  switch (state.kind) {
    case 'running':
      return { state: 'running', seconds: Math.round(secondsRun(job)), timeLimitSeconds: about.timeLimitSeconds, progress }
    case 'ended':
      return { state: 'done', answer: state.answer }
    case 'failed':
      return { state: 'failed', errorId: state.errorId }
  }
}

/** The same once it has ended. */
export async function waitForChoice(jobId: string): Promise<ChoiceJob | null> {
  await jobs.ended(jobId)
  return findChoiceJob(jobId)
}

/** End a search at once; the best found so far becomes its answer. */
export const stopChoice = (jobId: string): Promise<void> => jobs.stop(jobId)
