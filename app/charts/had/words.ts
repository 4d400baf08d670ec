import { formatDate } from '#language/day'
import type { HadChart, HadReason } from '#lib/db/merging/had-before'
import type { PhotoRefusal } from '#lib/db/photo/prepare-photo'
import { counted, listed } from '#words/amounts'
import { dayOf } from '#words/date'

export function photoRefusalWords(refusal: PhotoRefusal): string {
  switch (refusal.kind) {
    case 'photo-too-large':
      return `The photo has ${Math.ceil(refusal.bytes / 1_048_576)} MB; up to ${refusal.mostBytes / 1_048_576} are taken.`
    case 'photo-heic':
      return 'This phone saved the photo in its own way (HEIC). Set its camera to JPEG, or “most compatible”, and take it again.'
    case 'not-a-photo':
      return 'That is not a photo. JPEG, PNG and WebP are taken.'
    case 'photo-unreadable':
      return 'The photo could not be read. Take it again.'
  }
}

export function hadReasonWords(reason: HadReason): string {
  switch (reason.kind) {
    case 'title':
      return 'this title'
    case 'near-title':
      return 'nearly this title'
    case 'other-title':
      return `also called ${reason.title}`
    case 'design':
      return `in it: ${reason.title}`
    case 'designer':
      return `by ${reason.name}`
    case 'words':
      return 'some of the words'
    case 'cover':
      return reason.bits <= 6 ? 'the same cover' : reason.bits <= 10 ? 'a cover much alike' : 'a cover somewhat alike'
  }
}

/** Where it is, or what became of it, in one line: what one wants to know at the counter. */
export function whereaboutsWords(chart: HadChart): string {
  const { left, lentTo, isMissing, copies, place } = chart
  if (left) return `${leftWords(left.reason)}, ${dayOf(left.on)}`
  const lent = lentTo.map(
    ({ label, dueOn, copies: count }) =>
      `${count > 1 ? `${count} ` : ''}lent to ${label}${dueOn ? `, due ${formatDate(dueOn)}` : ''}`,
  )
  const held = counted(copies, 'copy')
  if (isMissing) return `${held}, not found where it should be`
  if (lent.length > 0) return `${held}, ${listed(lent)}`
  return place ? held : `${held}, no place yet`
}

/** A reason as the journal has it: "passed on: to the guild". */
function leftWords(reason: string | null): string {
  const [ending, ...note] = (reason ?? '').split(': ')
  const said = note.length > 0 ? ` (${note.join(': ')})` : ''
  switch (ending) {
    case 'passed on':
      return `had once, passed on${said}`
    case 'lost':
      return `had once, lost${said}`
    case 'slip':
      return `entered once by mistake${said}`
    default:
      return 'had once, held no more'
  }
}

export const finishedWords = (finishedOn: readonly (string | null)[]): string | null => {
  if (finishedOn.length === 0) return null
  const years = [...new Set(finishedOn.flatMap((day) => (day === null ? [] : [day.slice(0, 4)])))]
  return `finished${years.length > 0 ? ` in ${listed(years)}` : ''}`
}
