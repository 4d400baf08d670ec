export type RulerMark = { value: number; isNumbered: boolean }

/** Ticks and figures go by 1, 2 or 5 times a power of ten. */
const steps = [1, 2, 5, 10, 20, 50, 100, 200, 500, 1000]

/**
 * The marks of a ruler `length` whole units long. A ruler too short for a second figure has one at its end.
 *
 * @param perUnit  How long one unit is drawn.
 * @param em       The size of the figures, in the same measure: ticks are at least a third of it apart, figures a little over twice.
 */
export function listRulerMarks(length: number, perUnit: number, em: number): RulerMark[] {
  const tick = steps.find((step) => step * perUnit >= em / 3) ?? 1000
  const numbered = steps.find((step) => step * perUnit >= em * (26 / 12) && step % tick === 0) ?? 1000
  const marks: RulerMark[] = []
  for (let value = 0; value <= length + 1e-9; value += tick) marks.push({ value, isNumbered: value % numbered === 0 })
  const last = marks.at(-1)
  if (last && last.value < numbered) last.isNumbered = true
  return marks
}
