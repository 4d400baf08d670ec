import 'server-only'
import type { CutLayout, CutNode } from '#lib/cloth/cut-plan'
import { type Bought, boughtFor, type ChoiceWorld, type Placed, spentOn, threadsLeft } from '#lib/planning/together/choice-world'
import { type CutLimit, spreadLimit, unitOf, unitsOn } from '#lib/planning/together/cloth-limits'
import { type ChoiceModel, modelChoice } from '#lib/planning/together/model-choice'
import { runChoiceSearch } from '#lib/solver/run-choice-search'
import { type MilpAnswer, type MilpNews, solveMilp } from '#lib/solver/solve-milp'
import { compareExact } from '#lib/stock/batch'
import { CutTrials } from './cut-trials'
import { improveChoice } from './improve-choice'

export type ChoiceProgress = {
  step: 'pins' | 'bounding' | 'choosing' | 'cutting' | 'buying' | 'ladder'
  /** Choices the model made so far. */
  rounds: number
  value: number
  /** No choice is worth more. */
  bound: number
}

/** How a piece is cut for the designs chosen for it: one name for each copy. */
export type PieceCut = { pieceId: string; designIds: string[]; layout: CutLayout }

export type Choice = {
  placed: Placed[]
  /** None with cloth aside. */
  cuts: PieceCut[]
  value: number
  bound: number
  /** Proved that no other choice is worth more. */
  isProved: boolean
  /** `doubt`: of some piece's set it could neither be shown how it is cut nor that it cannot be. */
  endedBy: 'proof' | 'time' | 'stop' | 'doubt'
  rounds: number
  bought: Bought[]
  /** Of what may be bought: put-ups or money. */
  spent: number
}

type Options = {
  timeLimitSeconds: number
  /** Ends the search; the best choice so far is the answer. */
  signal?: AbortSignal
  report?: (progress: ChoiceProgress) => void
  /** A choice to begin from, which the answer is then at least worth. */
  start?: readonly Placed[]
}

/** What small steps may take after each round, and the solver for one model at first. */
const improvingMs = 1_500
const firstPatienceSeconds = 2
/** The solver's: its best is a whole number but for so much. */
const tolerance = 1e-5
/** Values and costs are whole: what is nearer than that is equal. */
const wholeGap = 0.999
/** By hand alone, so that the solver has something to begin from: more for more designs; of a short time no more than such a part. */
const headStart = { msADesign: 3, ms: 350, part: 0.1 }
/** What buying less for the same worth may take: of the whole time, and at least. */
const buyingLess = { part: 0.25, leastSeconds: 0.5 }

/**
 * Choose the designs worth most that can be stitched from the thread free and what may be bought, cut from these pieces or with cloth
 * aside.
 *
 * With cloth aside it is one model. It is chosen by hand meanwhile (`searchChoice`), in a thread of its own: what that finds at first is
 * where the solver begins, and in the end the better of the two is the answer, so it is never worth less than the greedy choice.
 *
 * With cloth a model chooses with all that is linear (`modelChoice`); then each piece's set is laid out with cuts from edge to edge. Where
 * a set cannot be cut, what was learnt (so many of these at most) becomes a row, and the model is solved again: each time its best is a
 * bound, and each time what did come out of the cloth, bettered by small steps, is a choice. When a choice is worth what the bound says,
 * or every set of a best choice can be cut, it is proved the best.
 *
 * In the end the same worth is looked for with less bought. On the way the other requests get their turn: the solver and the search have
 * threads of their own, and cuts are searched for in slices.
 */
export async function chooseDesigns(world: ChoiceWorld, options: Options): Promise<{ choice: Choice; trials: CutTrials }> {
  return new ChoiceSearch(world, options).run()
}

/** What it takes to end: threads that stop, answers that are read. It is part of the limit, so that nobody waits longer than was said. */
const endingMs = 200

class ChoiceSearch {
  readonly #world: ChoiceWorld
  readonly #began = performance.now()
  readonly #until: number
  readonly #signal: AbortSignal | undefined
  readonly #report: (progress: ChoiceProgress) => void
  readonly #values: ReadonlyMap<string, number>
  readonly #pinned: readonly string[]
  readonly #trials: CutTrials
  readonly #start: readonly Placed[]
  #limits: CutLimit[] = []
  #placed: Placed[] = []
  #value = 0
  #bound: number
  /** A set was forbidden that could neither be cut nor be proved impossible: from then on the model's best is no bound. */
  #isDoubtful = false
  #rounds = 0

  constructor(world: ChoiceWorld, { timeLimitSeconds, signal, report, start }: Options) {
    this.#world = world
    this.#until = this.#began + Math.max(timeLimitSeconds * 500, timeLimitSeconds * 1_000 - endingMs)
    this.#signal = signal
    this.#report = report ?? (() => {})
    this.#values = new Map(world.designs.map(({ id, value }) => [id, value]))
    this.#pinned = world.designs.filter(({ pin }) => pin === 'in').map(({ id }) => id)
    this.#trials = new CutTrials(world, signal)
    this.#bound = world.designs.reduce((sum, { value, pin }) => sum + (pin === 'out' ? 0 : value), 0)
    this.#start = start ?? []
    if (world.pieces === null) this.#keep(this.#start)
  }

  async run(): Promise<{ choice: Choice; trials: CutTrials }> {
    let endedBy: Choice['endedBy']
    try {
      endedBy = this.#world.pieces === null ? await this.#searchThread() : await this.#searchCloth()
      if (this.#value >= this.#bound) endedBy = 'proof'
      await this.#buyLess(endedBy === 'proof')
    } catch (error) {
      if (!this.#signal?.aborted) throw error
      endedBy = this.#value >= this.#bound ? 'proof' : 'stop'
    }
    const cuts = this.#pieceIds(this.#placed)
      .map((pieceId): PieceCut => {
        const unitIds = unitsOn(this.#placed, pieceId).sort(compareExact)
        const designIds = unitIds.map((id) => unitOf(id).designId)
        const { root } = this.#trials.layoutOf(pieceId, unitIds)
        return { pieceId, designIds, layout: { pieceId, root: named(root) } }
      })
      .sort((a, b) => compareExact(a.pieceId, b.pieceId))
    const bought = boughtFor(this.#world, threadsLeft(this.#world, this.#placed))
    const choice: Choice = {
      ...{ placed: this.#placed, cuts, value: this.#value, bound: this.#bound },
      ...{ isProved: endedBy === 'proof', endedBy, rounds: this.#rounds },
      ...{ bought, spent: spentOn(this.#world, bought) },
    }
    return { choice, trials: this.#trials }
  }

  get #secondsLeft(): number {
    return (this.#until - performance.now()) / 1_000
  }

  #tell(step: ChoiceProgress['step']): void {
    this.#report({ step, rounds: this.#rounds, value: this.#value, bound: this.#bound })
  }

  #pieceIds(placed: readonly Placed[]): string[] {
    return [...new Set(placed.flatMap(({ pieceIds }) => pieceIds))]
  }

  /** Cloth aside: the search by hand and the solver side by side, until either shows that nothing is worth more. */
  async #searchThread(): Promise<Choice['endedBy']> {
    const model = modelChoice(this.#world, [])
    if (model === null) {
      this.#bound = 0
      return 'proof'
    }
    this.#tell('bounding')
    const stop = new AbortController()
    const abort = () => stop.abort(this.#signal?.reason)
    if (this.#signal?.aborted) abort()
    this.#signal?.addEventListener('abort', abort)
    const proved = () => {
      if (this.#value >= this.#bound) stop.abort(new Error('proved'))
    }
    const limitMs = Math.max(0, this.#until - performance.now())
    const overdue = setTimeout(() => stop.abort(new Error('out of time')), limitMs)
    let greedy = () => {}
    const hasGreedy = new Promise<void>((resolve) => {
      greedy = resolve
    })
    const searching = runChoiceSearch(this.#world, {
      timeLimitMs: limitMs,
      signal: stop.signal,
      start: this.#placed,
      onBetter: ({ placed }) => {
        this.#keep(placed)
        this.#tell('choosing')
        greedy()
        proved()
      },
    })
    try {
      const head = Math.min(headStart.msADesign * this.#world.designs.length, headStart.ms, headStart.part * limitMs)
      // A broken worker is told of at once, not after its head start.
      await Promise.race([searching, hasGreedy.then(() => new Promise((resolve) => setTimeout(resolve, head)))])
      const answer = stop.signal.aborted ? null : await this.#solveBeside(model, stop.signal, proved)
      if (answer !== null && 'columns' in answer) {
        this.#rounds++
        this.#keep(model.read(answer.columns))
        if (answer.bound !== null) this.#lower(answer.bound)
        if (answer.status === 'optimal') this.#bound = this.#value
      }
      if (answer?.status === 'infeasible') this.#bound = this.#value
      if (this.#value >= this.#bound) stop.abort(new Error('proved'))
      await searching
    } finally {
      clearTimeout(overdue)
      this.#signal?.removeEventListener('abort', abort)
      stop.abort()
    }
    this.#signal?.throwIfAborted()
    return this.#value >= this.#bound ? 'proof' : 'time'
  }

  /** @returns null when it was ended before its time */
  async #solveBeside(model: ChoiceModel, signal: AbortSignal, proved: () => void): Promise<MilpAnswer | null> {
    try {
      return await solveMilp(model.lpText, {
        ...{ timeLimitSeconds: Math.max(0.05, this.#secondsLeft), signal, absoluteGap: wholeGap },
        ...(this.#placed.length > 0 && { start: model.startFrom(this.#placed) }),
        onNews: (news: MilpNews) => {
          if (news.kind === 'bound') this.#lower(news.bound)
          else this.#keep(model.read(news.columns))
          this.#tell('choosing')
          proved()
        },
      })
    } catch (error) {
      if (signal.aborted) return null
      throw error
    }
  }

  async #searchCloth(): Promise<Choice['endedBy']> {
    const first = modelChoice(this.#world, [])
    if (first === null) {
      this.#bound = 0
      return 'proof'
    }
    this.#tell('bounding')
    const relaxed = await this.#solve(first.relaxedText, this.#secondsLeft)
    if (relaxed?.status === 'optimal') this.#lower(relaxed.objective)
    const begun = await this.#cutOf(this.#start)
    this.#keep(begun)
    await this.#improve(begun)
    let patience = firstPatienceSeconds
    while (this.#value < this.#bound) {
      this.#tell('choosing')
      const model = modelChoice(this.#world, this.#limits)
      const left = this.#secondsLeft
      if (model === null || left <= 0) return 'time'
      const answer = await this.#solve(model.lpText, Math.min(left, patience), model)
      if (answer?.status === 'infeasible') return this.#isDoubtful ? 'doubt' : this.#proveNone()
      if (answer === null || !('columns' in answer)) {
        if (answer?.status === 'out-of-time' && answer.bound !== null) this.#lower(answer.bound)
        if (patience >= left) return 'time'
        patience *= 4
        continue
      }
      this.#rounds++
      if (answer.bound !== null) this.#lower(answer.bound)
      if (answer.status !== 'optimal') patience *= 2
      this.#tell('cutting')
      const isCut = await this.#learn(model.read(answer.columns))
      // Nothing new was learnt: the same model again would say the same.
      if (isCut && answer.status === 'optimal') return this.#isDoubtful ? 'doubt' : 'proof'
    }
    return 'proof'
  }

  #proveNone(): 'proof' {
    this.#bound = this.#value
    return 'proof'
  }

  async #solve(text: string, seconds: number, model?: ChoiceModel): Promise<MilpAnswer | null> {
    if (seconds <= 0) return null
    return solveMilp(text, {
      ...{ timeLimitSeconds: seconds, ...(this.#signal && { signal: this.#signal }) },
      ...(model && { absoluteGap: wholeGap }),
      ...(model && this.#placed.length > 0 && { start: model.startFrom(this.#placed) }),
    })
  }

  /** Values are whole, so a bound can be rounded down; with a set forbidden in doubt, the model's best bounds nothing any more. */
  #lower(objective: number): void {
    if (!this.#isDoubtful) this.#bound = Math.min(this.#bound, Math.max(this.#value, Math.floor(objective + tolerance)))
  }

  /** Try the sets of a choice; keep what can be cut of it, bettered. @returns whether all of it can */
  async #learn(placed: readonly Placed[]): Promise<boolean> {
    const uncut = new Set<string>()
    for (const pieceId of this.#pieceIds(placed)) {
      const unitIds = unitsOn(placed, pieceId)
      const trial = await this.#trials.of(pieceId, unitIds, this.#until)
      if (trial.cut.size === unitIds.length) continue
      for (const id of unitIds) if (!trial.cut.has(id)) uncut.add(unitOf(id).designId)
      const limit = { pieceId, unitIds, most: trial.most }
      if (trial.isSettled) this.#limits.push(...spreadLimit(this.#world, await this.#trials.shrink(limit, this.#until)))
      else {
        this.#isDoubtful = true
        this.#limits.push(limit)
      }
    }
    const cut = await this.#cutOf(placed.filter(({ designId }) => !uncut.has(designId)))
    this.#keep(cut)
    if (uncut.size > 0 && this.#value < this.#bound) await this.#improve(cut)
    return uncut.size === 0
  }

  /** Of some designs those whose pieces are found to be cut so; one that is not takes all on its piece with it. */
  async #cutOf(placed: readonly Placed[]): Promise<Placed[]> {
    let own = [...placed]
    for (const pieceId of this.#pieceIds(placed)) {
      const unitIds = unitsOn(own, pieceId)
      if (unitIds.length === 0 || (await this.#trials.canCut(pieceId, unitIds, this.#until))) continue
      own = own.filter(({ pieceIds }) => !pieceIds.includes(pieceId))
    }
    // Who went may have been on a piece that was looked at before.
    return own.length === placed.length ? own : this.#cutOf(own)
  }

  async #improve(placed: readonly Placed[]): Promise<void> {
    // Something is worth having even when the time is up.
    const until = Math.max(Math.min(this.#until, performance.now() + improvingMs), performance.now() + improvingMs / 5)
    this.#keep(await improveChoice(this.#world, placed, this.#trials, until))
  }

  /** The same worth with less bought: from the same designs, and where that is proved the most, from any others too. */
  async #buyLess(isProved: boolean): Promise<void> {
    const world = this.#world
    const spentNow = () => spentOn(world, boughtFor(world, threadsLeft(world, this.#placed)))
    if (world.buying.kind === 'nothing' || spentNow() === 0) return
    this.#tell('buying')
    const chosen = new Map(this.#placed.map((one) => [one.designId, one]))
    const same: ChoiceWorld = {
      ...{ ...world, pieces: null },
      designs: world.designs.filter(({ id }) => chosen.has(id)).map((design) => ({ ...design, pin: 'in' })),
    }
    const total = (this.#until - this.#began) / 1_000
    const seconds = Math.max(buyingLess.leastSeconds, Math.min(this.#secondsLeft, buyingLess.part * total))
    const isAny = world.pieces === null && isProved && this.#secondsLeft > 0
    const model = modelChoice(isAny ? world : same, [], { kind: 'least-bought', leastValue: this.#value })
    if (!model) return
    const start = model.startFrom(this.#placed.map((one) => ({ ...one, ...(world.pieces !== null && { pieceIds: [] }) })))
    const answer = await solveMilp(model.lpText, {
      ...{ timeLimitSeconds: seconds, absoluteGap: wholeGap, start },
      ...(this.#signal && { signal: this.#signal }),
    })
    if (!('columns' in answer)) return
    const found = model.read(answer.columns).map((one) => ({ ...one, pieceIds: chosen.get(one.designId)?.pieceIds ?? [] }))
    const value = found.reduce((sum, { designId }) => sum + (this.#values.get(designId) ?? 0), 0)
    if (value < this.#value || spentOn(world, boughtFor(world, threadsLeft(world, found))) >= spentNow()) return
    this.#value = value
    this.#placed = found
  }

  #keep(placed: readonly Placed[]): void {
    const value = placed.reduce((sum, { designId }) => sum + (this.#values.get(designId) ?? 0), 0)
    if (value <= this.#value || !this.#pinned.every((id) => placed.some(({ designId }) => designId === id))) return
    threadsLeft(this.#world, placed)
    this.#value = value
    this.#placed = [...placed]
  }
}

/** A layout whose wishes are designs again, and not cuts. */
function named(node: CutNode): CutNode {
  if (node.kind === 'cut') return { ...node, first: named(node.first), second: node.second && named(node.second) }
  if (node.kind !== 'wanted') return node
  const { designId, copy } = unitOf(node.wishId)
  return { ...node, wishId: designId, copy }
}
