import { say, sayings } from '#language/say'
import type { FilingRefused } from '#lib/db/filing/carry-out-filing'
import type { Filing } from '#lib/db/filing/read-filing'
import type { FilingChoice, FilingWay } from '#lib/place/filing-moves'
import type { FilingOrder } from '#lib/thread/filing-order'

export const orderWords: Record<FilingOrder, string> = sayings({
  number: 'by number',
  name: 'by name, “The” passed over',
  colour: 'by colour family',
})

/** A choice named; the drawer put in by the label it would get. */
export function wayWords(way: FilingWay, { added }: Filing, percent: number): string {
  switch (way) {
    case 'forward':
      return say('Push on to later drawers only')
    case 'both':
      return say('Shift both ways')
    case 'added':
      return say('Put in one more drawer, {label}', { label: added?.label })
    case 'afresh':
      return say('Deal all out afresh, each drawer {percent} % full', { percent })
  }
}

/** What a drawer of a choice is called. */
export const drawerLabel = ({ drawers, added }: Filing, choice: FilingChoice, drawer: number): string => {
  const before = choice.drawers[drawer]?.before ?? null
  return before === null ? (added?.label ?? '') : (drawers[before]?.label ?? '')
}

/** Where one thing goes, by the labels of both compartments: "T5.1-27 to T5.3-01"; null where drawers have none. */
export function stepOf(
  { compartments, placeLabels }: Filing,
  choice: FilingChoice,
  item: number,
): { from: string; to: string } | null {
  const to = choice.placeOf?.[item]
  if (to === undefined) return null
  const labelOf = (place: string | null | undefined) => placeLabels.get(place ?? '') ?? ''
  return { from: labelOf(compartments?.at[item]), to: labelOf(to) }
}

/** Codes from the first to the last. */
export const rangeWords = (codes: readonly string[]): string =>
  codes.length === 0
    ? say('empty')
    : codes.length === 1
      ? (codes[0] as string)
      : say('{codes} to {codes2}', { codes: codes[0], codes2: codes.at(-1) })

/** "after T5.1", or before the first. */
export function standsWords(filing: Filing, choice: FilingChoice): string {
  const at = choice.drawers.findIndex(({ before }) => before === null)
  return at === 0
    ? say('before {drawerLabel}', { drawerLabel: drawerLabel(filing, choice, 1) })
    : say('after {drawerLabel}', { drawerLabel: drawerLabel(filing, choice, at - 1) })
}

export function describeFilingRefusal(refusal: FilingRefused): string {
  switch (refusal.kind) {
    case 'changed-meanwhile':
      return say(
        'Something in these drawers changed since this plan was drawn, so nothing was done. Open it again and look before you repeat it.',
      )
    case 'no-such-choice':
      return say('That cannot be done any more: there is not enough room. Look at the plan anew.')
    case 'nothing-moves':
      return say('Nothing on record would change its home.')
  }
}
