import { say } from '#language/say'
import type { OldLabel } from '#lib/db/place/look-up-label'
import { dayOf } from './date'

/** What an old label means now: "The old label says T2.1-14; since 3 March 2026 that is T2.2-14." */
export function oldLabelWords({ label, why, until, place }: OldLabel): string {
  switch (why) {
    case 'renamed':
      return say('The old label says {label}; since {until} that is {label2}.', {
        label,
        until: dayOf(until),
        label2: place.label,
      })
    case 'merged':
      return say('The old label says {label}; since {until} all of it is in {label2}.', {
        label,
        until: dayOf(until),
        label2: place.label,
      })
    case 'split':
      return say('Part of what lived under the label {label} has lived in {label2} since {until}.', {
        label,
        label2: place.label,
        until: dayOf(until),
      })
  }
}

/** The same of a label that another place has now. */
export function formerUseWords({ label, why, until, place }: OldLabel): string {
  return why === 'split'
    ? oldLabelWords({ label, why, until, place })
    : say('Until {until} the label {label} was on what is {label2} now.', {
        until: dayOf(until),
        label,
        label2: why === 'renamed' ? place.label : say('in {label}', { label: place.label }),
      })
}

/** The same on the page of the place itself. */
export function beforeWords({ label, why, until }: Omit<OldLabel, 'place'>): string {
  switch (why) {
    case 'renamed':
      return say('Its label said {label} until {until}.', { label, until: dayOf(until) })
    case 'merged':
      return say('What had the label {label} until {until} is in here.', { label, until: dayOf(until) })
    case 'split':
      return say('What lives here was under the label {label} until {until}.', { label, until: dayOf(until) })
  }
}
