import 'server-only'
import {
  type Bought,
  type Buying,
  type ChoiceWorld,
  mostBought,
  type Placed,
  withinLimit,
} from '#lib/planning/together/choice-world'
import { limitLadder } from '#lib/planning/together/limit-ladder'
import { type Unlock, unlocksByThread } from '#lib/planning/together/unlocks'
import { ok, type Result } from '#lib/result'
import { getAnswers } from '../../answers/get-answers'
import type { JobControls, TooManyAtOnce } from '../../job/job'
import { Jobs, secondsRun } from '../../job/jobs'
import { type Choice, type ChoiceProgress, chooseDesigns } from './choose-designs'
import { explainChoice, type LeftOut } from './explain-choice'
import { type ChoiceAsked, type ChoiceQuestion, readChoice } from './read-choice'

/** What could be had within one limit. */
export type LadderStep = {
  buying: Buying
  value: number
  bound: number
  isProved: boolean
  designIds: string[]
  bought: Bought[]
}

/** What a search may take, and whether it also looks what other limits to buying bring. */
export type ChoiceRun = { timeLimitSeconds: number; hasLadder: boolean }

/** A choice with all that is said of it. */
export type Chosen = {
  kind: 'chosen'
  asked: ChoiceAsked
  run: ChoiceRun
  question: ChoiceQuestion
  choice: Choice
  leftOut: LeftOut[]
  /** By thread, what buying it alone would unlock. */
  unlocks: Unlock[]
  /** What each limit brings, least first; empty where nobody asked for it. */
  ladder: LadderStep[]
}

/** Designs that must be in and cannot all be. */
export type PinsCannot = {
  kind: 'pins-cannot'
  asked: ChoiceAsked
  run: ChoiceRun
  question: ChoiceQuestion
  /** As many of them as were found to go together. */
  together: Placed[]
  /** The others, and what keeps them out beside those; those that never can be, whatever else is, stand in the question. */
  leftOut: LeftOut[]
  /** Proved; else the time was up before they were found to go together. */
  isProved: boolean
}

export type ChoiceAnswer = Chosen | PinsCannot

export type ChoiceJob =
  | { state: 'running'; asked: ChoiceAsked; seconds: number; timeLimitSeconds: number; progress: ChoiceProgress }
  | { state: 'done'; answer: ChoiceAnswer }
  | { state: 'failed'; errorId: string }

/** What saying why the others are left out may take. */
const explainingMs = 2_000
/** Of the time a person gives: for the pins at first, and for what other limits bring in the end. */
const pinsPart = 0.3
const ladderPart = 0.4

const jobs = new Jobs<{ asked: ChoiceAsked; run: ChoiceRun }, ChoiceProgress, ChoiceAnswer>('choice of designs', {
  most: 2,
  isTakenUpAgain: true,
  first: () => ({ step: 'bounding', rounds: 0, value: 0, bound: 0 }),
  run: ({ asked, run }, controls) => choose(asked, run, controls),
})

/**
 * Begin to choose in the background, and then to say why the others are left out; `findChoiceJob` says how it goes.
 *
 * @param run.hasLadder  Also look what other limits to buying bring, within the same time.
 */
export async function startChoice(asked: ChoiceAsked, run: ChoiceRun): Promise<Result<{ jobId: string }, TooManyAtOnce>> {
  const started = await jobs.start({ asked, run })
  return started.ok ? ok({ jobId: started.value.id }) : started
}

type Controls = JobControls<ChoiceProgress>

async function choose(asked: ChoiceAsked, run: ChoiceRun, controls: Controls): Promise<ChoiceAnswer> {
  const { timeLimitSeconds, hasLadder } = run
  const began = performance.now()
  const question = await readChoice(await getAnswers(), asked)
  const { world, wider } = question
  const pins = await togetherOf(question, timeLimitSeconds * pinsPart, controls)
  if (pins.kind === 'cannot') {
    const { together, leftOut, isProved } = pins
    return { kind: 'pins-cannot', asked, run, question, together, leftOut, isProved }
  }
  const secondsLeft = () => timeLimitSeconds - (performance.now() - began) / 1_000
  const { choice, trials } = await chooseDesigns(world, {
    ...controls,
    timeLimitSeconds: Math.max(0.1, secondsLeft() - (hasLadder ? ladderPart * timeLimitSeconds : 0)),
    start: pins.together,
  })
  const leftOut = await explainChoice(world, choice.placed, trials, { timeLimitMs: explainingMs, signal: controls.signal })
  const ladder = hasLadder ? await climb(wider, asked.buying, choice, secondsLeft, controls) : []
  return { kind: 'chosen', asked, run, question, choice, leftOut, unlocks: unlocksByThread(wider), ladder }
}

type Pins = { kind: 'can'; together: Placed[] } | { kind: 'cannot'; together: Placed[]; leftOut: LeftOut[]; isProved: boolean }

/** Whether all designs that must be in can be: as many of them as go together, each counted alike. */
async function togetherOf({ world, wider }: ChoiceQuestion, timeLimitSeconds: number, controls: Controls): Promise<Pins> {
  const wanted = wider.designs.filter(({ pin }) => pin === 'in')
  if (wanted.length === 0) return { kind: 'can', together: [] }
  const alike: ChoiceWorld = {
    ...world,
    designs: world.designs.filter(({ pin }) => pin === 'in').map((design) => ({ ...design, pin: 'may', value: 1 })),
  }
  const report = (progress: ChoiceProgress) => controls.report({ ...progress, step: 'pins' })
  const { choice, trials } = await chooseDesigns(alike, { ...controls, report, timeLimitSeconds })
  if (choice.value === wanted.length) return { kind: 'can', together: choice.placed }
  const leftOut = await explainChoice(alike, choice.placed, trials, { timeLimitMs: explainingMs, signal: controls.signal })
  return { kind: 'cannot', together: choice.placed, leftOut, isProved: choice.isProved }
}

const sameLimit = (one: Buying, other: Buying): boolean => mostBought(one) === mostBought(other)

/** What other limits bring: each begins from what the one before found, so that more is never worth less. */
async function climb(
  wider: ChoiceWorld,
  asked: Buying,
  choice: Choice,
  secondsLeft: () => number,
  { signal, report }: Controls,
): Promise<LadderStep[]> {
  const limits = limitLadder(asked)
  const steps: LadderStep[] = []
  let start: readonly Placed[] = []
  for (const [at, buying] of limits.entries()) {
    let found = choice
    if (!sameLimit(buying, asked)) {
      const seconds = secondsLeft() / (limits.length - at)
      if (signal.aborted || seconds <= 0.05) continue
      const world = withinLimit(wider, buying)
      if (world.designs.filter(({ pin }) => pin === 'in').length < wider.designs.filter(({ pin }) => pin === 'in').length)
        continue
      const { choice: other } = await chooseDesigns(world, {
        ...{ timeLimitSeconds: seconds, signal, start },
        report: (progress) => report({ ...progress, step: 'ladder' }),
      })
      found = other
    }
    start = found.placed
    const { value, bound, isProved, placed, bought } = found
    steps.push({ buying, value, bound, isProved, designIds: placed.map(({ designId }) => designId), bought })
  }
  return steps
}

/** @returns null for one nobody knows, such as one from before the server was started */
export async function findChoiceJob(jobId: string): Promise<ChoiceJob | null> {
  const job = await jobs.find(jobId)
  if (job === null) return null
  const { state, progress } = job
  const { asked, run } = job.about
  switch (state.kind) {
    case 'running':
      return { state: 'running', asked, timeLimitSeconds: run.timeLimitSeconds, seconds: Math.round(secondsRun(job)), progress }
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
