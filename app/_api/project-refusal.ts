import type { FinishRefused } from '#lib/db/project/finish-project'
import type { KitRefused } from '#lib/db/project/kit-project'
import type { MoveRefused } from '#lib/db/project/move-project'
import type { PromiseAgainRefused } from '#lib/db/project/promise-again'
import type { SwapRefused } from '#lib/db/project/set-project-swap'
import type { StartRefused } from '#lib/db/project/start-project'
import type { LogRefused } from '#lib/db/work/log-work'
import type { OccasionRefused } from '#lib/planning/days/occasion-due'
import { formatClothSize } from '#lib/quantity/cloth-length'
import { formatThreadLength } from '#lib/quantity/thread-length'
import { keptByRecordWords } from '#words/kept-by-record'
import { occasionRefusalWords } from '#words/occasion'
import { workRefusalWords } from '#words/work'
import { notFound, Problem } from './problem'
import { noSuch } from './stock-refusal'

export type ProjectRefusal =
  | PromiseAgainRefused
  | SwapRefused
  | FinishRefused
  | KitRefused
  | LogRefused
  | MoveRefused
  | StartRefused
  | OccasionRefused

const strand = (tenths: number): string => `${formatThreadLength(tenths, 'm')} of one strand`

/** Why a project was not changed, in words. */
export function describeProjectRefusal(refusal: ProjectRefusal): Problem {
  switch (refusal.kind) {
    case 'no-such-project':
      return notFound('project', refusal.projectId)
    case 'no-such-design':
      return noSuch('design', 'designId')
    case 'no-such-list':
      return noSuch('thread list of this design', 'threadListId')
    case 'no-such-owner':
      return noSuch('owner', 'ownerId')
    case 'no-such-cloth':
      return noSuch('piece of cloth of this owner', 'clothPieceId')
    case 'cloth-reserved':
      return new Problem('refused', `The piece is kept for ${refusal.title}.`)
    case 'no-such-thread':
      return noSuch('thread', 'standInThreadId')
    case 'not-in-key':
      return new Problem('refused', 'The project’s thread list does not name this thread.')
    case 'stands-for-itself':
      return new Problem('refused', 'A thread cannot stand in for itself; null works it as charted.')
    case 'project-closed':
      return new Problem('refused', `A project that is ${refusal.status} is worked in what it was.`)
    case 'in-the-bag':
      return new Problem('refused', `Thread ${refusal.threadId} lies in the project’s bag; put it back first.`)
    case 'would-merge':
      return new Problem(
        'refused',
        `Thread ${refusal.otherThreadId} of the key is worked in ${refusal.threadId} already; with mayMerge the two become one.`,
      )
    case 'changed-meanwhile':
      return new Problem('refused', 'It was changed meanwhile. Read the project again, then ask with its new version.')
    case 'not-from-here':
      return new Problem(
        'refused',
        `A project that is ${refusal.from} cannot become ${refusal.to}${refusal.allowed.length > 0 ? `, only ${refusal.allowed.join(', ')}` : ''}.`,
      )
    case 'no-such-occasion':
    case 'occasion-over':
      return new Problem('refused', occasionRefusalWords(refusal))
    case 'nothing-logged':
    case 'stitches-and-percent':
    case 'not-yet':
    case 'below-nothing':
    case 'given-up':
    case 'no-timer':
    case 'timer-too-long':
      return new Problem('refused', workRefusalWords(refusal))
    case 'not-enough':
      return new Problem(
        'refused',
        `Of one thread ${strand(refusal.requestedStrandTenths)} is said to be used, but there was ${strand(refusal.heldStrandTenths)}.`,
      )
    case 'nothing-in-bag':
      return new Problem('refused', 'None of that thread was in the bag, so nothing of it can be left over.')
    case 'more-left-than-brought':
      return new Problem(
        'refused',
        `Of one thread ${strand(refusal.leftStrandTenths)} is said to be left, but ${strand(refusal.broughtStrandTenths)} was brought.`,
      )
    case 'no-weight':
      return new Problem('refused', 'A leftover was weighed, but nobody has said what a full put-up of that line weighs.')
    case 'finished-before-started':
      return new Problem('refused', `It was started on ${refusal.startedOn}, so it cannot be finished before.`)
    case 'not-kept':
      return noSuch('piece of cloth kept for this project', 'usedKeptClothIds')
    case 'nothing-cut':
      return new Problem('refused', 'Nothing was cut off the piece.')
    case 'more-than-it-was':
      return new Problem('refused', 'The offcuts are more cloth than the piece was.')
    case 'part-too-large':
      return new Problem(
        'refused',
        `An offcut of ${formatClothSize(refusal, 'in')} does not come out of the piece either way round.`,
      )
    case 'label-taken':
      return new Problem('refused', `There is a piece labelled ${refusal.label} already.`)
    case 'kept-by-record':
      return new Problem('refused', keptByRecordWords(refusal.label))
  }
}
