import type { OldLabel } from '#lib/db/place/look-up-label'
import { dayOf } from './date'

/** What an old label means now: "The old label says T2.1-14; since 3 March 2026 that is T2.2-14." */
export function oldLabelWords({ label, why, until, place }: OldLabel): string {
  switch (why) {
    case 'renamed':
      return `The old label says ${label}; since ${dayOf(until)} that is ${place.label}.`
    case 'merged':
      return `The old label says ${label}; since ${dayOf(until)} all of it is in ${place.label}.`
    case 'split':
      return `Part of what lived under the label ${label} has lived in ${place.label} since ${dayOf(until)}.`
  }
}

/** The same of a label that another place has now. */
export function formerUseWords({ label, why, until, place }: OldLabel): string {
  return why === 'split'
    ? oldLabelWords({ label, why, until, place })
    : `Until ${dayOf(until)} the label ${label} was on what is ${why === 'renamed' ? place.label : `in ${place.label}`} now.`
}

/** The same on the page of the place itself. */
export function beforeWords({ label, why, until }: Omit<OldLabel, 'place'>): string {
  switch (why) {
    case 'renamed':
      return `Its label said ${label} until ${dayOf(until)}.`
    case 'merged':
      return `What had the label ${label} until ${dayOf(until)} is in here.`
    case 'split':
      return `What lives here was under the label ${label} until ${dayOf(until)}.`
  }
}
