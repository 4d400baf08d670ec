import { formatDate } from '#language/day'
import { say } from '#language/say'
import type { HadChart, HadReason } from '#lib/db/merging/had-before'
import type { PhotoRefusal } from '#lib/db/photo/prepare-photo'
import { counted, listed } from '#words/amounts'
import { dayOf } from '#words/date'

export function photoRefusalWords(refusal: PhotoRefusal): string {
  switch (refusal.kind) {
    case 'photo-too-large':
      return say('The photo has {ceil} MB; up to {mostBytes} are taken.', {
        ceil: Math.ceil(refusal.bytes / 1_048_576),
        mostBytes: refusal.mostBytes / 1_048_576,
      })
    case 'photo-heic':
      return say(
        'This phone saved the photo in its own way (HEIC). Set its camera to JPEG, or “most compatible”, and take it again.',
      )
    case 'not-a-photo':
      return say('That is not a photo. JPEG, PNG and WebP are taken.')
    case 'photo-unreadable':
      return say('The photo could not be read. Take it again.')
  }
}

export function hadReasonWords(reason: HadReason): string {
  switch (reason.kind) {
    case 'title':
      return say('this title')
    case 'near-title':
      return say('nearly this title')
    case 'other-title':
      return say('also called {title}', { title: reason.title })
    case 'design':
      return say('in it: {title}', { title: reason.title })
    case 'designer':
      return say('by {name}', { name: reason.name })
    case 'words':
      return say('some of the words')
    case 'cover':
      return reason.bits <= 6
        ? say('the same cover')
        : reason.bits <= 10
          ? say('a cover much alike')
          : say('a cover somewhat alike')
  }
}

/** Where it is, or what became of it, in one line: what one wants to know at the counter. */
export function whereaboutsWords(chart: HadChart): string {
  const { left, lentTo, isMissing, copies, place } = chart
  if (left) return `${leftWords(left.reason)}, ${dayOf(left.on)}`
  const lent = lentTo.map(({ label, dueOn, copies: count }) =>
    say('{rest}lent to {label}{rest2}', {
      rest: count > 1 ? `${count} ` : '',
      label,
      rest2: dueOn ? say(', due {dueOn}', { dueOn: formatDate(dueOn) }) : '',
    }),
  )
  const held = counted(copies, 'copy')
  if (isMissing) return say('{held}, not found where it should be', { held })
  if (lent.length > 0) return `${held}, ${listed(lent)}`
  return place ? held : say('{held}, no place yet', { held })
}

/** A reason as the journal has it: "passed on: to the guild". */
function leftWords(reason: string | null): string {
  const [ending, ...note] = (reason ?? '').split(': ')
  const said = note.length > 0 ? ` (${note.join(': ')})` : ''
  switch (ending) {
    case 'passed on':
      return say('had once, passed on{said}', { said })
    case 'lost':
      return say('had once, lost{said}', { said })
    case 'slip':
      return say('entered once by mistake{said}', { said })
    default:
      return say('had once, held no more')
  }
}

export const finishedWords = (finishedOn: readonly (string | null)[]): string | null => {
  if (finishedOn.length === 0) return null
  const years = [...new Set(finishedOn.flatMap((day) => (day === null ? [] : [day.slice(0, 4)])))]
  return say('finished{rest}', { rest: years.length > 0 ? say(' in {years}', { years: listed(years) }) : '' })
}
