import { numberText } from '#language/figures'
import type { ShownLine, ShownThing } from '#lib/db/walk/queries'
import type { WalkRefusal } from '#lib/db/walk/walk-refusal'
import type { WalkKind, WalkProgress, WalkStatus } from '#lib/project/walk'
import type { LeftWhy } from '#lib/project/walk-carry'
import type { ThreadLengthUnit } from '#lib/quantity/thread-length'
import { counted, listed, threadLength } from './amounts'
import { threadName } from './thread'

export const walkTitle = ({ kind, title }: { kind: WalkKind; title: string }): string =>
  kind === 'pull' ? `Pull for ${title}` : `Put back: ${title}`

/** "14 of 37": things in hand or carried, of all on the list. */
export const progressWords = ({ done, things }: Pick<WalkProgress, 'done' | 'things'>): string => `${done} of ${things}`

export const walkStatusWords: Record<WalkStatus, string> = { open: 'open', done: 'done', dropped: 'dropped' }

/** A thing by its name: "Larkholm 0311 Barn Red", "Needles, size 26". */
export function thingName(thing: ShownThing): string {
  switch (thing.kind) {
    case 'thread':
      return threadName(thing.thread)
    case 'cloth':
      return [thing.label, thing.name].filter(Boolean).join(' · ')
    case 'chart':
      return thing.title
    case 'notion':
      return [thing.name, thing.size].filter(Boolean).join(', ')
  }
}

type Amount = { count: number; takesPart: boolean }

/** What to lift out of one thing: "the part skein of 2.5 m and 1 skein", "1 piece", "12 copies". */
export function liftWords(thing: ShownThing, { count, takesPart }: Amount, unit: ThreadLengthUnit): string {
  if (thing.kind === 'cloth') return 'the piece'
  if (thing.kind === 'chart') return count === 1 ? 'the chart' : counted(count, 'copy')
  if (thing.kind === 'notion') return String(count)
  const { putUpWord, partStrandTenths, partCertainty, thread } = thing
  const of =
    partCertainty === 'some' || partStrandTenths === 0 ? '' : ` of ${threadLength(partStrandTenths, thread.strands, unit)}`
  return listed([...(takesPart ? [`the part ${putUpWord}${of}`] : []), ...(count > 0 ? [counted(count, putUpWord)] : [])])
}

/** All that several bags want of one thing. Only one of them can have the part. */
export const totalOf = (lines: readonly Pick<ShownLine, 'count' | 'takesPart'>[]): Amount => ({
  count: lines.reduce((sum, line) => sum + line.count, 0),
  takesPart: lines.some((line) => line.takesPart),
})

/** Why a ticked line was left where it is. */
export const leftWords: Record<LeftWhy, string> = {
  'not-enough': 'the record has not so much of it there',
  promised: 'others were promised it',
  gone: 'it is no longer on record',
  'no-home': 'it has no home on record',
}

/** Why nothing was done to a walk. */
export function describeWalkRefusal(refusal: WalkRefusal): string {
  switch (refusal.kind) {
    case 'no-such-walk':
      return 'This list is no longer there.'
    case 'no-such-line':
      return 'This line is no longer on the list: it was brought up to date meanwhile.'
    case 'walk-closed':
      return refusal.status === 'done' ? 'This walk is done; nothing more is ticked on it.' : 'This walk was dropped.'
    case 'no-such-project':
      return 'One of the projects is no longer there. Choose again.'
    case 'project-not-open':
      return `${refusal.title} holds no stock as it stands: plan it first.`
    case 'already-pulling':
      return `${refusal.title} is on another open walk already: ${refusal.walkTitle}. Finish that one, or bring it up to date.`
    case 'nothing-to-pull':
      return 'There is nothing to pull: all that was promised is in the bags, or nothing is promised yet.'
    case 'too-many-projects':
      return `One walk is for up to ${numberText(refusal.most)} projects. Choose fewer.`
    case 'not-a-pull':
      return 'This is a list of what goes back; that is only done on a pull.'
    case 'nothing-ticked':
      return 'Nothing is ticked that is not carried out already.'
    case 'bag-unnamed':
      return `Say which bag ${refusal.title} goes into.`
    case 'carried-already':
      return 'It is in the bag already, on the record.'
    case 'not-thread':
      return 'That is done with thread only.'
    case 'no-such-batch':
      return 'This stock is no longer there: it was laid together with another or removed.'
    case 'not-instead':
      return 'It cannot be taken instead: it is another thread that nobody accepted as a stand-in, or another owner’s.'
    case 'would-mix':
      return 'More of this colour is promised to the project, or the other thread is a colour of its own in it: part of a colour in another thread would show. Change what it is worked in on the project’s page.'
    case 'not-enough-free':
      return 'Not enough of it is free for this. Choose other stock, or take it for one bag at a time.'
    case 'not-enough':
      return 'The record has not so much of it there. Bring the list up to date.'
    case 'changed-meanwhile':
      return 'Somebody changed this meanwhile, so nothing was written. Look again, and do it once more.'
    case 'already-missing':
      return 'It is being looked for already.'
    case 'nothing-parted':
      return 'Nothing is asked for, so nothing can be missing.'
    case 'no-place':
      return 'The record does not say where it was, so it cannot be missing from there.'
    case 'cloth-reserved':
      return `The piece of cloth is kept for ${refusal.title}.`
    case 'no-such-cloth':
      return 'The piece of cloth is no longer there.'
  }
}
