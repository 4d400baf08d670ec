import { numberText } from '#language/figures'
import { say } from '#language/say'
import type { RotationRule } from '#lib/planning/pace/rotation'
import { counted } from '#words/amounts'

const measure = (amount: number, by: RotationRule['by']): string => {
  const figure = Number(amount.toFixed(1))
  if (by === 'hours') return `${numberText(figure)} h`
  return counted(figure, by === 'stitches' ? 'stitch' : 'day')
}

/** "4 of 10 days", "9.5 of 10 h". */
export const turnWords = ({ done, of }: { done: number; of: number }, by: RotationRule['by']): string =>
  say('{done, number} of {measure}', { done: Number(done.toFixed(1)), measure: measure(of, by) })

/** The rule as a sentence. */
export function ruleWords(rule: RotationRule): string {
  if (rule.by === 'weekday') return say('Each project has its days of the week.')
  const worked = rule.by === 'days' ? say(' on which it was stitched') : ''
  return say('It is another’s turn after {measure}{worked}.', { measure: measure(rule[rule.by], rule.by), worked })
}
