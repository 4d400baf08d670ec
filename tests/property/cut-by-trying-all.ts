import { type CutObjective, type CutRequest, measureOf } from '#lib/cloth/cut-plan'

type Found = { value: number; objective: number }

/**
 * The best there is, by trying every cut at every whole micrometre, of every piece, down to nothing. Nothing is shared with the solver:
 * the gap is taken out of the cloth at each cut.
 *
 * @returns the most value, and with it the least waste or cuts, or the largest offcuts
 */
export function bestByTryingAll(request: CutRequest): Found {
  const { pieces, wishes, objective, gapUm, leastOffcutUm } = request
  const all = wishes.map(({ copies }) => copies)
  const sign = objective === 'largest offcut' || objective === 'most value' ? 1 : -1
  let together = new Map<string, number>([[all.map(() => 0).join(), 0]])
  for (const piece of pieces) {
    const onPiece = outcomesOf(request, piece)
    const after = new Map<string, number>()
    for (const [counts, objectiveSoFar] of together)
      for (const [more, objectiveHere] of onPiece) {
        const sum = counts.split(',').map((many, index) => Number(many) + Number(more.split(',')[index]))
        if (sum.some((many, index) => many > (all[index] as number))) continue
        const key = sum.join()
        const total = objectiveSoFar + objectiveHere
        if (!after.has(key) || sign * total > sign * (after.get(key) as number)) after.set(key, total)
      }
    together = after
  }
  let best: Found | null = null
  for (const [key, total] of together) {
    const value = key.split(',').reduce((sum, many, index) => sum + Number(many) * (wishes[index]?.value ?? 0), 0)
    if (!best || value > best.value || (value === best.value && sign * total > sign * best.objective))
      best = { value, objective: total }
  }
  return best as Found

  /** For every set that can be cut from the piece, the best of the objective. */
  function outcomesOf({ wishes: wanted }: CutRequest, piece: CutRequest['pieces'][number]): Map<string, number> {
    const none = wanted.map(() => 0).join()
    const known = new Map<string, Map<string, number>>()
    const area = (width: number, height: number) => width * height
    const isKept = (width: number, height: number) => width >= leastOffcutUm && height >= leastOffcutUm
    const leftover = (width: number, height: number): number => {
      if (objective === 'fewest cuts') return 0
      if (objective === 'least waste') return isKept(width, height) ? 0 : area(width, height)
      return isKept(width, height) ? area(width, height) : 0
    }
    const better = (outcomes: Map<string, number>, key: string, objectiveHere: number) => {
      const before = outcomes.get(key)
      if (before === undefined || sign * objectiveHere > sign * before) outcomes.set(key, objectiveHere)
    }
    const cut = (width: number, height: number): Map<string, number> => {
      if (width <= 0 || height <= 0) return new Map([[none, 0]])
      const id = `${width} ${height}`
      const remembered = known.get(id)
      if (remembered) return remembered
      const outcomes = new Map([[none, leftover(width, height)]])
      wanted.forEach(({ ways }, index) => {
        for (const way of ways[piece.id] ?? [])
          if (way.widthUm === width && way.heightUm === height)
            better(outcomes, wanted.map((_, other) => (other === index ? 1 : 0)).join(), 0)
      })
      const halves = (a: Map<string, number>, b: Map<string, number>) => {
        for (const [one, objectiveOne] of a)
          for (const [other, objectiveOther] of b) {
            const sum = one.split(',').map((many, index) => Number(many) + Number(other.split(',')[index]))
            if (sum.some((many, index) => many > (all[index] as number))) continue
            const key = sum.join()
            if (key === none) continue
            const objectiveHere =
              objective === 'fewest cuts'
                ? 1 + objectiveOne + objectiveOther
                : objective === 'least waste'
                  ? objectiveOne + objectiveOther
                  : Math.max(objectiveOne, objectiveOther)
            better(outcomes, key, objectiveHere)
          }
      }
      for (let at = 1; at < width; at++) halves(cut(at, height), cut(width - at - gapUm, height))
      for (let at = 1; at < height; at++) halves(cut(width, at), cut(width, height - at - gapUm))
      known.set(id, outcomes)
      return outcomes
    }
    // A piece that is not cut is no waste.
    const outcomes = new Map(cut(piece.widthUm, piece.heightUm))
    if (objective === 'least waste') outcomes.set(none, 0)
    return outcomes
  }
}

/** What a plan has reached, as `bestByTryingAll` tells it. */
export const reached = (plan: Parameters<typeof measureOf>[0], objective: CutObjective): Found => ({
  value: plan.value,
  objective: objective === 'most value' ? plan.largestOffcutsUm2 : measureOf(plan, objective),
})
