import { formatDate } from '#language/day'
import { say, sayings } from '#language/say'
import type { SaveOccasionRefused } from '#lib/db/planning/days/save-occasion'
import type { OccasionRefused } from '#lib/planning/days/occasion-due'
import { type OccasionRule, parseRule } from '#lib/planning/days/occasion-rule'
import { findOccasion, type Occasion, type OccasionWorld } from '#lib/planning/days/occasions'
import { capital } from './capital'
import { givenName } from './given'
import { weekdayOptions } from './work'

const months = () => [
  ...[say('January'), say('February'), say('March'), say('April'), say('May'), say('June'), say('July')],
  ...[say('August'), say('September'), say('October'), say('November'), say('December')],
]
/** Months to choose from: 1 January to 12 December. */
export const monthOptions = () => months().map((label, at) => ({ value: String(at + 1), label }))
const nths = sayings({ 1: 'first', 2: 'second', 3: 'third', 4: 'fourth', 5: 'fifth', last: 'last' })

const dayOfMonth = (month: number, day: number): string => `${day} ${months()[month - 1]}`
const weekdayName = (weekday: number): string => weekdayOptions()[weekday - 1]?.label ?? ''

/** "24 December"; "39 days after Easter"; "the last Monday of May"; "the Sunday nearest 30 November". */
function ruleWords(rule: OccasionRule): string {
  switch (rule.kind) {
    case 'fixed':
      return dayOfMonth(rule.month, rule.day)
    case 'easter':
      if (rule.days === 0) return say('Easter Sunday')
      return say('{abs, plural, one {# day} other {# days}} {daysCase, select, yes {before} other {after}} Easter', {
        abs: Math.abs(rule.days),
        daysCase: rule.days < 0,
      })
    case 'weekday':
      return say('the {nths} {weekdayName} of {months}', {
        nths: nths[rule.nth],
        weekdayName: weekdayName(rule.weekday),
        months: months()[rule.month - 1],
      })
    case 'nearest': {
      const nearest = say('the {weekdayName} nearest {dayOfMonth}', {
        weekdayName: weekdayName(rule.weekday),
        dayOfMonth: dayOfMonth(rule.month, rule.day),
      })
      return rule.days === 0
        ? nearest
        : say('{abs, plural, one {# day} other {# days}} {daysCase, select, yes {before} other {after}} {nearest}', {
            abs: Math.abs(rule.days),
            daysCase: rule.days < 0,
            nearest,
          })
    }
    case 'once':
      return say('once, {on}', { on: formatDate(rule.on) })
  }
}

/** The same of a rule as it is stored. */
export function storedRuleWords(text: string): string {
  const rule = parseRule(text)
  return rule ? ruleWords(rule) : text
}

/** Occasions to choose from, her own under their own heading. */
export const occasionOptions = (occasions: readonly Occasion[]) =>
  occasions.map(({ key, name, isOwn }) => ({
    value: key,
    label: capital(givenName(name)),
    group: isOwn ? say('Your own days') : say('Feasts and seasons'),
  }))

/** When something is due and for what: "Sun 28 Mar 2027, for Easter"; null where it is not due. */
export function dueWords(
  { dueOn, occasionKey }: { dueOn: string | null; occasionKey: string | null },
  world: OccasionWorld,
): string | null {
  if (dueOn === null) return null
  const name = occasionKey === null ? null : findOccasion(occasionKey, world)?.name
  return name ? say('{dueOn}, for {givenName}', { dueOn: formatDate(dueOn), givenName: givenName(name) }) : formatDate(dueOn)
}

/** Why an occasion was not kept, or not chosen. */
export function occasionRefusalWords(refusal: OccasionRefused | SaveOccasionRefused): string {
  switch (refusal.kind) {
    case 'no-such-occasion':
      return say(
        'This occasion is not known any more: it was taken out, or the country in Settings does not keep it. Choose another.',
      )
    case 'occasion-over':
      return say('This day came once and has gone by. Give it another day, or choose another.')
    case 'changed-meanwhile':
      return say('Somebody changed this occasion meanwhile. Load the page again and look.')
    case 'no-such-owner':
      return say('Choose whose day it is.')
    case 'no-rule':
      return say('No day of the year is like that. Give a day and a month, days from Easter, a weekday of a month, or one date.')
    case 'name-taken':
      return say('There is an occasion called {name} already.', { name: refusal.name })
    case 'too-many-occasions':
      return say('There are {most} occasions already. Take one out first.', { most: refusal.most })
  }
}
