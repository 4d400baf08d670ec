import { formatDate } from '#language/day'
import { formatClothSize } from '#language/lengths'
import { say, sayings } from '#language/say'
import type { PhotoRefusal } from '#lib/db/photo/prepare-photo'
import type { EditRefused } from '#lib/db/project/edit-project'
import type { FinishRefused } from '#lib/db/project/finish-project'
import type { MoveRefused } from '#lib/db/project/move-project'
import type { PromiseAgainRefused } from '#lib/db/project/promise-again'
import type { PullLine } from '#lib/db/project/pull-list'
import type { CloseRefused } from '#lib/db/project/put-kit-back'
import type { SwapRefused } from '#lib/db/project/set-project-swap'
import type { StartRefused } from '#lib/db/project/start-project'
import type { PromiseRefused } from '#lib/db/stock/promise-stock'
import type { ThreadTag } from '#lib/db/thread/thread-tag'
import type { ChangeWorkRefused } from '#lib/db/work/change-work'
import type { LogRefused } from '#lib/db/work/log-work'
import type { DueChoice } from '#lib/project/filter-projects'
import type { ProjectStatus } from '#lib/project/life-cycle'
import type { ThreadLengthUnit } from '#lib/quantity/thread-length'
import type { Settings } from '#lib/settings/settings'
import { counted, listed, singular, threadLength } from '#words/amounts'
import { keptByRecordWords } from '#words/kept-by-record'
import { occasionRefusalWords } from '#words/occasion'
import { photoRefusalWords } from '#words/photo'
import { threadName } from '#words/thread'
import { workRefusalWords } from '#words/work'

/** A status as a heading over the projects that have it. */
export const statusHeads: Record<ProjectStatus, string> = sayings({
  wanted: 'Wanted',
  planned: 'Planned',
  kitted: 'Kitted',
  stitching: 'Under the needle',
  resting: 'Resting',
  stitched: 'Stitched, not yet finished',
  finished: 'Finished',
  abandoned: 'Given up',
})

/** When what a list is narrowed to is due. */
export const dueWords: Record<DueChoice, string> = sayings({
  late: 'late',
  soon: 'due within four weeks',
  none: 'no day said',
})

/** A status in the middle of a sentence. */
const statusWords: Record<ProjectStatus, string> = sayings({
  wanted: 'only wanted',
  planned: 'planned',
  kitted: 'kitted',
  stitching: 'being stitched',
  resting: 'resting',
  stitched: 'stitched',
  finished: 'finished',
  abandoned: 'given up',
})

/** What to lift out: "the part skein and 1 skein". */
export function pullWords({ pull, batch, thread }: PullLine, unit: ThreadLengthUnit): string {
  const one = batch.putUpWord ?? thread.putUpWord
  const part = pull.takesPart
    ? say('the part {one} of {threadLength}', {
        one: singular(one),
        threadLength: threadLength(batch.partStrandTenths, thread.strands, unit),
      })
    : null
  const whole = pull.wholePutUps > 0 ? counted(pull.wholePutUps, one) : null
  return listed([part, whole].flatMap((words) => words ?? []))
}

type ProjectRefusal =
  | StartRefused
  | PromiseAgainRefused
  | MoveRefused
  | LogRefused
  | ChangeWorkRefused
  | EditRefused
  | CloseRefused
  | FinishRefused
  | PhotoRefusal
  | SwapRefused
  | PromiseRefused

/** Why it was not done. `findThread` finds a thread the refusal is about, by its id or its batch's. */
export function describeProjectRefusal(
  refusal: ProjectRefusal,
  settings: Pick<Settings, 'lengthUnit' | 'threadUnit'>,
  findThread: (threadId: string) => ThreadTag | undefined = () => undefined,
): string {
  const threadSaid = (threadId: string): string => {
    const thread = findThread(threadId)
    return thread ? threadName(thread) : say('A thread')
  }
  switch (refusal.kind) {
    case 'no-such-project':
      return say('This project is no longer there. Go back to the list of projects and look for it anew.')
    case 'no-such-design':
      return say('This design is no longer there: its chart was removed. Nothing was started.')
    case 'no-such-owner':
      return say('Choose whose goods it is stitched from.')
    case 'no-such-list':
      return say('This thread list is not one of the design’s any more. Choose another.')
    case 'no-such-cloth':
      return say('This piece of cloth is not there any more. Choose another, or none for now.')
    case 'cloth-reserved':
      return say('This piece of cloth is kept for {title}. Choose another, or none for now.', { title: refusal.title })
    case 'changed-meanwhile':
      return say('Somebody changed this meanwhile, so nothing was written. Load the page again, look, and do it once more.')
    case 'not-from-here':
      return refusal.allowed.length === 0
        ? say('It is {status} already; nothing more can be done to it.', { status: statusWords[refusal.from] })
        : say('It is {status}; from there it cannot become {status2}.', {
            status: statusWords[refusal.from],
            status2: statusWords[refusal.to],
          })
    case 'nothing-logged':
    case 'stitches-and-percent':
    case 'not-yet':
    case 'below-nothing':
    case 'given-up':
    case 'no-timer':
    case 'timer-too-long':
    case 'no-such-entry':
      return workRefusalWords(refusal)
    case 'already-kitted':
      return say('Its threads are in the bag already, so list, cloth, over and number stay as they are. Nothing was changed.')
    case 'not-enough': {
      const thread = findThread(refusal.threadId)
      const length = (tenths: number) => threadLength(tenths, thread?.strands ?? 1, settings.threadUnit)
      return say('{rest}: {length} cannot have been used, there was {length2}. Nothing was written.', {
        rest: thread ? threadName(thread) : say('A thread'),
        length: length(refusal.requestedStrandTenths),
        length2: length(refusal.heldStrandTenths),
      })
    }
    case 'nothing-in-bag':
      return say(
        '{threadSaid}: none of it was in the bag, so none can be left over. Say how much was used instead. Nothing was written.',
        { threadSaid: threadSaid(refusal.threadId) },
      )
    case 'more-left-than-brought': {
      const length = (tenths: number) => threadLength(tenths, findThread(refusal.threadId)?.strands ?? 1, settings.threadUnit)
      return say(
        '{threadSaid}: {length} cannot be left, {length2} was brought. Measure or weigh it again. Nothing was written.',
        {
          threadSaid: threadSaid(refusal.threadId),
          length: length(refusal.leftStrandTenths),
          length2: length(refusal.broughtStrandTenths),
        },
      )
    }
    case 'no-weight':
      return say(
        '{threadSaid}: say on the page of its line what a full put-up weighs, or measure what is left. Nothing was written.',
        { threadSaid: threadSaid(refusal.threadId) },
      )
    case 'finished-before-started':
      return say('It was started on {startedOn}, so it cannot have been finished before.', {
        startedOn: formatDate(refusal.startedOn),
      })
    case 'not-kept':
      return say('A piece of cloth is not kept for this project any more. Load the page again. Nothing was written.')
    case 'nothing-cut':
      return say(
        'The offcut is as large as the piece was: then nothing was cut. Say that the cloth was not used, or measure again.',
      )
    case 'more-than-it-was':
      return say('The offcuts together are more cloth than the piece was. Measure again.')
    case 'part-too-large':
      return say('An offcut of {refusal} cannot have come out of this piece. Measure again.', {
        refusal: formatClothSize(refusal, settings.lengthUnit),
      })
    case 'label-taken':
      return say('Another piece of cloth has the label {label}. Give the offcut another one, or none.', { label: refusal.label })
    case 'kept-by-record':
      return keptByRecordWords(refusal.label)
    case 'no-such-thread':
      return say('That thread was removed meanwhile. Choose another.')
    case 'not-in-key':
      return say('The thread list does not name this thread any more, so nothing can stand in for it. Load the page again.')
    case 'stands-for-itself':
      return say('A thread cannot stand in for itself. Choose another, or work it as charted.')
    case 'project-closed':
      return say('It is {status}; what it was worked in stays as it was.', { status: statusWords[refusal.status] })
    case 'in-the-bag':
      return say('{threadSaid} lies in the bag for it. Put it back first, then choose what it is worked in.', {
        threadSaid: threadSaid(refusal.threadId),
      })
    case 'would-merge':
      return say(
        'Another colour of the key is worked in {threadSaid} already: the two would come to be one colour. Choose another.',
        { threadSaid: threadSaid(refusal.threadId) },
      )
    case 'no-such-batch':
      return say('This stock is no longer there: it was laid together with another or removed.')
    case 'not-enough-free': {
      const length = (tenths: number) => threadLength(tenths, findThread(refusal.batchId)?.strands ?? 1, settings.threadUnit)
      return say('Only {length} of it is free to this project; {length2} is asked for.', {
        length: length(refusal.freeStrandTenths),
        length2: length(refusal.requestedStrandTenths),
      })
    }
    case 'not-open':
      return say('Nothing can be promised to it as it stands: plan it first.')
    case 'other-owner':
      return say('This stock is another owner’s. Pass it on first.')
    case 'no-such-occasion':
    case 'occasion-over':
      return occasionRefusalWords(refusal)
    case 'photo-too-large':
    case 'photo-heic':
    case 'not-a-photo':
    case 'photo-unreadable':
      return photoRefusalWords(refusal)
  }
}
