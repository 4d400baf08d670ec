import 'server-only'
import type { CutLayout } from '#lib/cloth/cut-plan'
import { grouped } from '#lib/grouped'
import { type ChoiceWorld, type Placed, threadsLeft } from '#lib/planning/choice-world'
import { type CutLimit, spreadLimit } from '#lib/planning/cloth-limits'
import { modelChoice } from '#lib/planning/model-choice'
import { solveMilp } from '#lib/solver/solve-milp'
import { compareExact } from '#lib/stock/batch'
import { CutTrials } from './cut-trials'
import { improveChoice } from './improve-choice'

export type ChoiceProgress = {
  step: 'bounding' | 'choosing' | 'cutting'
  /** Choices the model made so far. */
  rounds: number
  value: number
  /** No choice is worth more. */
  bound: number
}

/** How a piece is cut for the designs chosen for it. */
export type PieceCut = { pieceId: string; designIds: string[]; layout: CutLayout }

export type Choice = {
  placed: Placed[]
  cuts: PieceCut[]
  value: number
  bound: number
  /** Proved that no other choice is worth more. */
  isProved: boolean
  /** `doubt`: of some piece's set it could neither be shown how it is cut nor that it cannot be. */
  endedBy: 'proof' | 'time' | 'stop' | 'doubt'
  rounds: number
}

type Options = {
  timeLimitSeconds: number
  /** Ends the search; the best choice so far is the answer. */
  signal?: AbortSignal
  report?: (progress: ChoiceProgress) => void
}

/** What small steps may take after each round, and the solver for one model at first. */
const improvingMs = 1_500
const firstPatienceSeconds = 2
/** The solver's: its best is a whole number but for so much. */
const tolerance = 1e-5

/**
 * Choose the designs worth most that can be stitched from the thread free and cut from these pieces, nothing bought.
 *
 * A model chooses with all that is linear (`modelChoice`); then each piece's set is laid out with cuts from edge to edge. Where a set
 * cannot be cut, what was learnt (so many of these at most) becomes a row, and the model is solved again: each time its best is a
 * bound, and each time what did come out of the cloth, bettered by small steps, is a choice. When a choice is worth what the bound
 * says, or every set of a best choice can be cut, it is proved the best.
 *
 * On the way the other requests get their turn: the solver has a thread of its own, and cuts are searched for in slices.
 */
export async function chooseDesigns(
  world: ChoiceWorld,
  { timeLimitSeconds, signal, report }: Options,
): Promise<{ choice: Choice; trials: CutTrials }> {
  const search = new ChoiceSearch(world, performance.now() + timeLimitSeconds * 1_000, signal, report)
  return search.run()
}

class ChoiceSearch {
  readonly #world: ChoiceWorld
  readonly #until: number
  readonly #signal: AbortSignal | undefined
  readonly #report: (progress: ChoiceProgress) => void
  readonly #values: ReadonlyMap<string, number>
  readonly #trials: CutTrials
  #limits: CutLimit[] = []
  #placed: Placed[] = []
  #value = 0
  #bound: number
  /** A set was forbidden that could neither be cut nor be proved impossible: from then on the model's best is no bound. */
  #isDoubtful = false
  #rounds = 0

  constructor(
    world: ChoiceWorld,
    until: number,
    signal: AbortSignal | undefined,
    report: ((progress: ChoiceProgress) => void) | undefined,
  ) {
    this.#world = world
    this.#until = until
    this.#signal = signal
    this.#report = report ?? (() => {})
    this.#values = new Map(world.designs.map(({ id, value }) => [id, value]))
    this.#trials = new CutTrials(world, signal)
    this.#bound = world.designs.reduce((sum, { value }) => sum + value, 0)
  }

  async run(): Promise<{ choice: Choice; trials: CutTrials }> {
    let endedBy: Choice['endedBy']
    try {
      endedBy = await this.#search()
    } catch (error) {
      if (!this.#signal?.aborted) throw error
      endedBy = 'stop'
    }
    if (this.#value >= this.#bound) endedBy = 'proof'
    const cuts = [...grouped(this.#placed, ({ pieceId }) => pieceId)]
      .map(([pieceId, own]): PieceCut => {
        const designIds = own.map(({ designId }) => designId).sort(compareExact)
        return { pieceId, designIds, layout: this.#trials.layoutOf(pieceId, designIds) }
      })
      .sort((a, b) => compareExact(a.pieceId, b.pieceId))
    const choice: Choice = {
      ...{ placed: this.#placed, cuts, value: this.#value, bound: this.#bound },
      ...{ isProved: endedBy === 'proof', endedBy, rounds: this.#rounds },
    }
    return { choice, trials: this.#trials }
  }

  get #secondsLeft(): number {
    return (this.#until - performance.now()) / 1_000
  }

  #tell(step: ChoiceProgress['step']): void {
    this.#report({ step, rounds: this.#rounds, value: this.#value, bound: this.#bound })
  }

  async #search(): Promise<Choice['endedBy']> {
    const first = modelChoice(this.#world, [])
    if (first === null) {
      this.#bound = 0
      return 'proof'
    }
    this.#tell('bounding')
    const relaxed = await this.#solve(first.relaxedText, this.#secondsLeft)
    if (relaxed?.status === 'optimal') this.#lower(relaxed.objective)
    await this.#improve([])
    let patience = firstPatienceSeconds
    while (this.#value < this.#bound) {
      this.#tell('choosing')
      const model = modelChoice(this.#world, this.#limits)
      const left = this.#secondsLeft
      if (model === null || left <= 0) return 'time'
      const answer = await this.#solve(model.lpText, Math.min(left, patience))
      if (answer === null || !('columns' in answer)) {
        if (patience >= left) return 'time'
        patience *= 4
        continue
      }
      this.#rounds++
      if (answer.status === 'optimal') this.#lower(answer.objective)
      else patience *= 2
      this.#tell('cutting')
      const isCut = await this.#learn(model.read(answer.columns))
      // Nothing new was learnt: the same model again would say the same.
      if (isCut && answer.status === 'optimal') return this.#isDoubtful ? 'doubt' : 'proof'
    }
    return 'proof'
  }

  async #solve(text: string, seconds: number) {
    if (seconds <= 0) return null
    return solveMilp(text, { timeLimitSeconds: seconds, ...(this.#signal && { signal: this.#signal }) })
  }

  /** Values are whole, so a bound can be rounded down; with a set forbidden in doubt, the model's best bounds nothing any more. */
  #lower(objective: number): void {
    if (!this.#isDoubtful) this.#bound = Math.min(this.#bound, Math.floor(objective + tolerance))
  }

  /** Try the sets of a choice; keep what can be cut of it, bettered. @returns whether all of it can */
  async #learn(placed: readonly Placed[]): Promise<boolean> {
    const cut: Placed[] = []
    let isAllCut = true
    for (const [pieceId, own] of grouped(placed, (one) => one.pieceId)) {
      const ids = own.map(({ designId }) => designId)
      const trial = await this.#trials.of(pieceId, ids, this.#until)
      cut.push(...own.filter(({ designId }) => trial.cut.has(designId)))
      if (trial.cut.size === ids.length) continue
      isAllCut = false
      const limit = { pieceId, designIds: ids, most: trial.most }
      if (trial.isSettled) this.#limits.push(...spreadLimit(this.#world, await this.#trials.shrink(limit, this.#until)))
      else {
        this.#isDoubtful = true
        this.#limits.push(limit)
      }
    }
    this.#keep(cut)
    if (!isAllCut && this.#value < this.#bound) await this.#improve(cut)
    return isAllCut
  }

  async #improve(placed: readonly Placed[]): Promise<void> {
    // Something is worth having even when the time is up.
    const until = Math.max(Math.min(this.#until, performance.now() + improvingMs), performance.now() + improvingMs / 5)
    this.#keep(await improveChoice(this.#world, placed, this.#trials, until))
  }

  #keep(placed: readonly Placed[]): void {
    const value = placed.reduce((sum, { designId }) => sum + (this.#values.get(designId) ?? 0), 0)
    if (value <= this.#value) return
    threadsLeft(this.#world, placed)
    this.#value = value
    this.#placed = [...placed]
  }
}
