import 'server-only'
import type { CutLayout, CutPlan } from '#lib/cloth/cut-plan'
import { grouped } from '#lib/grouped'
import type { ChoiceWorld } from '#lib/planning/together/choice-world'
import { type CutLimit, cutUnits, isBeyond, type ShareRow, shareRows } from '#lib/planning/together/cloth-limits'
import { compareExact } from '#lib/stock/batch'
import { cutUntil } from './try-cuts'

/** How many of some cuts come out of one piece, and which; settled when proved, or when all do. */
export type Trial = { layout: CutLayout | null; cut: ReadonlySet<string>; most: number; isSettled: boolean }

/** The longest one piece's set is tried for before it is given up as neither proved nor refuted. */
const patienceMs = 4_000
/** Minimal sets are looked for in sets of so many; each takes as many trials. */
const mostToShrink = 10

const keyOf = (pieceId: string, unitIds: readonly string[]): string => [pieceId, ...unitIds].join('\n')

/** What is found out about which sets of cuts come out of which piece. Each set is tried once. */
export class CutTrials {
  readonly #world: ChoiceWorld
  readonly #signal: AbortSignal | undefined
  /** By cut. */
  readonly #ways: ReadonlyMap<string, ChoiceWorld['designs'][number]['ways']>
  readonly #shares: ReadonlyMap<string, ShareRow[]>
  readonly #trials = new Map<string, Trial>()
  /** By piece and by what is cut from it. */
  readonly #layouts = new Map<string, CutLayout>()

  constructor(world: ChoiceWorld, signal: AbortSignal | undefined) {
    this.#world = world
    this.#signal = signal
    this.#ways = new Map(cutUnits(world).map(({ id, ways }) => [id, ways]))
    this.#shares = grouped(shareRows(world), ({ pieceId }) => pieceId)
  }

  /**
   * Make as many of some cuts as can be of one piece.
   *
   * @param until  by the clock of `performance.now()`
   */
  async of(pieceId: string, unitIds: readonly string[], until: number): Promise<Trial> {
    const ids = [...unitIds].sort(compareExact)
    const key = keyOf(pieceId, ids)
    const known = this.#trials.get(key)
    if (known) return known
    const piece = this.#world.pieces?.find(({ id }) => id === pieceId)
    if (!piece) throw new RangeError(`CutTrials: no piece ${pieceId}`)
    const wishes = ids.map((id) => ({ id, copies: 1, value: 1, ways: this.#ways.get(id) ?? {} }))
    const plan = await cutUntil(
      { pieces: [piece], wishes, objective: 'most value', gapUm: this.#world.gapUm, leastOffcutUm: 0, seed: 1 },
      { until: Math.min(until, performance.now() + patienceMs), signal: this.#signal },
    )
    const trial = trialOf(plan, ids)
    if (trial.isSettled) this.#trials.set(key, trial)
    if (trial.layout) this.#layouts.set(keyOf(pieceId, [...trial.cut]), trial.layout)
    return trial
  }

  /** Whether all of them are found to come out of the piece; what their areas already forbid is not tried. */
  async canCut(pieceId: string, unitIds: readonly string[], until: number): Promise<boolean> {
    if (unitIds.some((id) => (this.#ways.get(id)?.[pieceId] ?? []).length === 0)) return false
    if (isBeyond(this.#shares.get(pieceId) ?? [], unitIds)) return false
    return (await this.of(pieceId, unitIds, until)).cut.size === unitIds.length
  }

  /** The fewest of them that still exclude one another: each is left out in turn, and stays out where the rest exclude one another too. */
  async shrink(limit: CutLimit, until: number): Promise<CutLimit> {
    if (limit.unitIds.length > mostToShrink) return limit
    let { unitIds, most } = limit
    for (const id of limit.unitIds) {
      const fewer = unitIds.filter((one) => one !== id)
      if (fewer.length < 2 || performance.now() >= until) break
      const trial = await this.of(limit.pieceId, fewer, until)
      if (!trial.isSettled || trial.cut.size === fewer.length) continue
      unitIds = fewer
      most = trial.most
    }
    return { pieceId: limit.pieceId, unitIds, most }
  }

  /** How cuts lie that were found to come out of a piece. @throws {RangeError} if they never were */
  layoutOf(pieceId: string, unitIds: readonly string[]): CutLayout {
    const layout = this.#layouts.get(keyOf(pieceId, [...unitIds].sort(compareExact)))
    if (!layout) throw new RangeError(`CutTrials: piece ${pieceId} was never laid out so`)
    return layout
  }
}

function trialOf(plan: CutPlan | null, ids: readonly string[]): Trial {
  if (plan === null) return { layout: null, cut: new Set(), most: ids.length - 1, isSettled: false }
  const leftOut = new Set(plan.leftOut.map(({ wishId }) => wishId))
  const cut = new Set(ids.filter((id) => !leftOut.has(id)))
  const isSettled = cut.size === ids.length || (plan.isProved && plan.value === plan.valueBound)
  return { layout: plan.layouts[0] ?? null, cut, most: Math.min(plan.valueBound, ids.length - 1), isSettled }
}
