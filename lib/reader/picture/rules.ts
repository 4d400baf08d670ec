import type { PageBox } from '#lib/chart/page-text/page-text'
import type { Grey } from './grey'

export type Rules = { vertical: PageBox[]; horizontal: PageBox[] }

/** A line is darker than what is on both its sides by so much: in a shadow and on a tint too. */
const leastContrast = 18
/** Beyond the ends of what was found, a line goes on where it is darker than its sides by this. */
const leastContrastOn = 10

/**
 * Take the straight lines of a table off a picture that is level, in place, and say where they were. A line is darker than both its sides over
 * a run longer than any stroke of a letter, and thin; where a letter crosses it, the letter stays. What a line stood on, white or a tint, is
 * put in its place.
 *
 * @param letterPx  How high capitals are.
 */
export function takeRules(grey: Grey, letterPx: number): Rules {
  return { horizontal: takeAlong(grey, letterPx, true), vertical: takeAlong(grey, letterPx, false) }
}

type Run = { line: number; from: number; to: number }
type Rule = { from: number; to: number; last: number; runs: Run[] }

function takeAlong(grey: Grey, letterPx: number, isAcross: boolean): PageBox[] {
  const { width, height, data } = grey
  const [length, breadth] = isAcross ? [width, height] : [height, width]
  const [alongStep, acrossStep] = isAcross ? [1, width] : [width, 1]
  const leastRun = Math.max(40, letterPx * (isAcross ? 4 : 2.6))
  const mostThick = Math.max(4, Math.round(letterPx * 0.3))
  /** A faint line breaks off for a pixel or two. */
  const mostGap = Math.max(2, Math.round(letterPx / 8))
  const shadeAt = (line: number, at: number): number =>
    line < 0 || line >= breadth ? 255 : (data[line * acrossStep + at * alongStep] as number)
  const found: Run[] = []
  for (let line = 0; line < breadth; line++) {
    let from = -1
    let last = -1
    for (let at = 0; at <= length; at++) {
      const shade = at < length ? shadeAt(line, at) + leastContrast : 0
      if (at < length && shadeAt(line - mostThick, at) > shade && shadeAt(line + mostThick, at) > shade) {
        if (from < 0) from = at
        last = at
      } else if (from >= 0 && (at === length || at - last > mostGap)) {
        if (last - from >= leastRun) found.push({ line, from, to: last + 1 })
        from = -1
      }
    }
  }
  return mergedRules(found, letterPx).map((rule) => {
    const path = pathOf(rule)
    // Its edges, paler than itself, are taken with it.
    const half = Math.min(mostThick, Math.ceil(path.thick / 2) + 1)
    const clearAt = (at: number, centre: number, contrast: number): boolean => {
      const [above, below] = [shadeAt(centre - half - 1, at), shadeAt(centre + half + 1, at)]
      let darkest = 255
      for (let line = centre - half; line <= centre + half; line++) darkest = Math.min(darkest, shadeAt(line, at))
      const ground = Math.max(above, below)
      // Ink on both sides: a letter stands across it.
      if (Math.min(above, below) < ground - 60 && Math.min(above, below) <= darkest + 40) return ground > darkest + contrast
      if (ground <= darkest + contrast) return false
      for (let line = Math.max(0, centre - half); line <= Math.min(breadth - 1, centre + half); line++)
        data[line * acrossStep + at * alongStep] = ground
      return true
    }
    for (let at = rule.from; at < rule.to; at++) clearAt(at, Math.round(path.centreAt(at)), 0)
    let [from, to] = [rule.from, rule.to]
    for (let misses = 0; from > 0 && misses <= mostGap; from--)
      misses = clearAt(from - 1, Math.round(path.centreAt(from - 1)), leastContrastOn) ? 0 : misses + 1
    for (let misses = 0; to < length && misses <= mostGap; to++)
      misses = clearAt(to, Math.round(path.centreAt(to)), leastContrastOn) ? 0 : misses + 1
    const lines = rule.runs.map(({ line }) => line)
    const [first, end] = [Math.min(...lines), Math.max(...lines) + 1]
    return isAcross
      ? { left: rule.from, right: rule.to, top: first, bottom: end }
      : { left: first, right: end, top: rule.from, bottom: rule.to }
  })
}

/** Runs on neighbouring lines, and runs that go on from one another, as one rule. */
function mergedRules(runs: readonly Run[], letterPx: number): Rule[] {
  const rules: Rule[] = []
  for (const run of runs) {
    const { line, from, to } = run
    const rule = rules.findLast((other) => line - other.last <= 3 && from <= other.to + letterPx && to >= other.from - letterPx)
    if (rule) {
      rule.from = Math.min(rule.from, from)
      rule.to = Math.max(rule.to, to)
      rule.last = Math.max(rule.last, line)
      rule.runs.push(run)
    } else rules.push({ from, to, last: line, runs: [run] })
  }
  return rules
}

/** Where the middle of a rule runs, between and beyond what was found of it too, and how thick it is. */
function pathOf({ from, to, runs }: Rule): { centreAt: (at: number) => number; thick: number } {
  const sums = new Float64Array(to - from)
  const counts = new Uint16Array(to - from)
  for (const run of runs) {
    for (let at = run.from; at < run.to; at++) {
      sums[at - from] = (sums[at - from] as number) + run.line
      counts[at - from] = (counts[at - from] as number) + 1
    }
  }
  const known: number[] = []
  for (const [at, count] of counts.entries()) if (count > 0) known.push(at)
  const thick = [...counts].filter((count) => count > 0).sort((a, b) => a - b)[known.length >> 1] as number
  const centres = new Float64Array(to - from)
  let next = 0
  for (const at of centres.keys()) {
    while (next < known.length - 1 && (known[next] as number) < at) next++
    const [after, before] = [known[next] as number, known[Math.max(0, next - 1)] as number]
    const [end, start] = [
      (sums[after] as number) / (counts[after] as number),
      (sums[before] as number) / (counts[before] as number),
    ]
    const share = after === before ? 1 : Math.min(1, Math.max(0, (at - before) / (after - before)))
    centres[at] = start + (end - start) * share
  }
  const slope = centres.length > 1 ? ((centres.at(-1) as number) - (centres[0] as number)) / (centres.length - 1) : 0
  return {
    thick,
    centreAt: (at) =>
      at < from
        ? (centres[0] as number) + slope * (at - from)
        : at >= to
          ? (centres.at(-1) as number) + slope * (at - to + 1)
          : (centres[at - from] as number),
  }
}
