import type { PageBox } from '#lib/chart/page-text/page-text'
import type { Grey } from './grey'

export type Rules = { vertical: PageBox[]; horizontal: PageBox[] }

/**
 * Take the straight lines of a table off a picture that is level, in place, and say where they were. A line is dark over a run longer than
 * any stroke of a letter, and thin; where a letter crosses it, the letter stays.
 *
 * @param letterPx  How high capitals are.
 */
export function takeRules(grey: Grey, letterPx: number, shade: number): Rules {
  return {
    horizontal: takeAlong(grey, letterPx, shade, true),
    vertical: takeAlong(grey, letterPx, shade, false),
  }
}

function takeAlong(grey: Grey, letterPx: number, shade: number, isAcross: boolean): PageBox[] {
  const { width, height, data } = grey
  const [length, breadth] = isAcross ? [width, height] : [height, width]
  const [alongStep, acrossStep] = isAcross ? [1, width] : [width, 1]
  const leastRun = Math.max(40, letterPx * (isAcross ? 4 : 2.6))
  const mostThick = Math.max(4, letterPx * 0.3)
  /** A faint line breaks off for a pixel or two. */
  const mostGap = Math.max(2, Math.round(letterPx / 8))
  const isDark = (line: number, at: number) =>
    line >= 0 && line < breadth && (data[line * acrossStep + at * alongStep] as number) < shade
  const found: { line: number; from: number; to: number }[] = []
  for (let line = 0; line < breadth; line++) {
    let from = -1
    let last = -1
    for (let at = 0; at <= length; at++) {
      if (at < length && isDark(line, at)) {
        if (from < 0) from = at
        last = at
      } else if (from >= 0 && (at === length || at - last > mostGap)) {
        if (last - from >= leastRun) found.push({ line, from, to: last + 1 })
        from = -1
      }
    }
  }
  const gone: number[] = []
  const thin: typeof found = []
  for (const run of found) {
    let thinAt = 0
    const here: number[] = []
    for (let at = run.from; at < run.to; at++) {
      let up = 0
      while (up <= mostThick && isDark(run.line - up - 1, at)) up++
      let down = 0
      while (down <= mostThick && isDark(run.line + down + 1, at)) down++
      if (up + down + 1 > mostThick) continue
      thinAt++
      for (let line = run.line - up - 1; line <= run.line + down + 1; line++) {
        if (line >= 0 && line < breadth) here.push(line * acrossStep + at * alongStep)
      }
    }
    // A filled block is dark over long runs too, but not thin.
    if (thinAt < (run.to - run.from) * 0.6) continue
    thin.push(run)
    for (const at of here) gone.push(at)
  }
  for (const at of gone) data[at] = 255
  return mergedRules(thin, letterPx).map(({ from, to, first, last }) =>
    isAcross ? { left: from, right: to, top: first, bottom: last + 1 } : { left: first, right: last + 1, top: from, bottom: to },
  )
}

/** Runs on neighbouring lines, and runs that go on from one another, as one rule. */
function mergedRules(runs: readonly { line: number; from: number; to: number }[], letterPx: number) {
  const rules: { from: number; to: number; first: number; last: number }[] = []
  for (const { line, from, to } of runs) {
    const rule = rules.findLast((other) => line - other.last <= 3 && from <= other.to + letterPx && to >= other.from - letterPx)
    if (rule) {
      rule.from = Math.min(rule.from, from)
      rule.to = Math.max(rule.to, to)
      rule.last = Math.max(rule.last, line)
    } else rules.push({ from, to, first: line, last: line })
  }
  return rules
}
