import { say, sayings } from '#language/say'
import type { ShownLine, ShownThing } from '#lib/db/walk/queries'
import type { WalkRefusal } from '#lib/db/walk/walk-refusal'
import type { WalkKind, WalkProgress, WalkStatus } from '#lib/project/walk'
import type { LeftWhy } from '#lib/project/walk-carry'
import type { ThreadLengthUnit } from '#lib/quantity/thread-length'
import { counted, listed, singular, threadLength } from './amounts'
import { threadName } from './thread'

export const walkTitle = ({ kind, title }: { kind: WalkKind; title: string }): string =>
  kind === 'pull' ? say('Pull for {title}', { title }) : say('Put back: {title}', { title })

/** "14 of 37": things in hand or carried, of all on the list. */
export const progressWords = ({ done, things }: Pick<WalkProgress, 'done' | 'things'>): string =>
  say('{done} of {things}', { done, things })

export const walkStatusWords: Record<WalkStatus, string> = sayings({ open: 'open', done: 'done', dropped: 'dropped' })

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
  if (thing.kind === 'cloth') return say('the piece')
  if (thing.kind === 'chart') return count === 1 ? say('the chart') : counted(count, 'copy')
  if (thing.kind === 'notion') return String(count)
  const { putUpWord, partStrandTenths, partCertainty, thread } = thing
  const of =
    partCertainty === 'some' || partStrandTenths === 0
      ? ''
      : say(' of {threadLength}', { threadLength: threadLength(partStrandTenths, thread.strands, unit) })
  return listed([
    ...(takesPart ? [say('the part {putUpWord}{of}', { putUpWord: singular(putUpWord), of })] : []),
    ...(count > 0 ? [counted(count, putUpWord)] : []),
  ])
}

/** All that several bags want of one thing. Only one of them can have the part. */
export const totalOf = (lines: readonly Pick<ShownLine, 'count' | 'takesPart'>[]): Amount => ({
  count: lines.reduce((sum, line) => sum + line.count, 0),
  takesPart: lines.some((line) => line.takesPart),
})

/** Why a ticked line was left where it is. */
export const leftWords: Record<LeftWhy, string> = sayings({
  'not-enough': 'the record has not so much of it there',
  promised: 'others were promised it',
  gone: 'it is no longer on record',
  'no-home': 'it has no home on record',
})

/** Why nothing was done to a walk. */
export function describeWalkRefusal(refusal: WalkRefusal): string {
  switch (refusal.kind) {
    case 'no-such-walk':
      return say('This list is no longer there.')
    case 'no-such-line':
      return say('This line is no longer on the list: it was brought up to date meanwhile.')
    case 'walk-closed':
      return refusal.status === 'done' ? say('This walk is done; nothing more is ticked on it.') : say('This walk was dropped.')
    case 'no-such-project':
      return say('One of the projects is no longer there. Choose again.')
    case 'project-not-open':
      return say('{title} holds no stock as it stands: plan it first.', { title: refusal.title })
    case 'already-pulling':
      return say('{title} is on another open walk already: {walkTitle}. Finish that one, or bring it up to date.', {
        title: refusal.title,
        walkTitle: refusal.walkTitle,
      })
    case 'nothing-to-pull':
      return say('There is nothing to pull: all that was promised is in the bags, or nothing is promised yet.')
    case 'too-many-projects':
      return say('One walk is for up to {most, number} projects. Choose fewer.', { most: refusal.most })
    case 'not-a-pull':
      return say('This is a list of what goes back; that is only done on a pull.')
    case 'nothing-ticked':
      return say('Nothing is ticked that is not carried out already.')
    case 'bag-unnamed':
      return say('Say which bag {title} goes into.', { title: refusal.title })
    case 'carried-already':
      return say('It is in the bag already, on the record.')
    case 'not-thread':
      return say('That is done with thread only.')
    case 'no-such-batch':
      return say('This stock is no longer there: it was laid together with another or removed.')
    case 'not-instead':
      return say('It cannot be taken instead: it is another thread that nobody accepted as a stand-in, or another owner’s.')
    case 'would-mix':
      return say(
        'More of this colour is promised to the project, or the other thread is a colour of its own in it: part of a colour in another thread would show. Change what it is worked in on the project’s page.',
      )
    case 'not-enough-free':
      return say('Not enough of it is free for this. Choose other stock, or take it for one bag at a time.')
    case 'not-enough':
      return say('The record has not so much of it there. Bring the list up to date.')
    case 'changed-meanwhile':
      return say('Somebody changed this meanwhile, so nothing was written. Look again, and do it once more.')
    case 'already-missing':
      return say('It is being looked for already.')
    case 'nothing-parted':
      return say('Nothing is asked for, so nothing can be missing.')
    case 'no-place':
      return say('The record does not say where it was, so it cannot be missing from there.')
    case 'cloth-reserved':
      return say('The piece of cloth is kept for {title}.', { title: refusal.title })
    case 'no-such-cloth':
      return say('The piece of cloth is no longer there.')
  }
}
