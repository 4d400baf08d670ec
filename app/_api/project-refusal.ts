import type { FinishRefused } from '#lib/db/project/finish-project'
import type { KitRefused } from '#lib/db/project/kit-project'
import type { LogRefused, MoveRefused } from '#lib/db/project/move-project'
import type { StartRefused } from '#lib/db/project/start-project'
import { formatClothSize } from '#lib/quantity/cloth-length'
import { formatThreadLength } from '#lib/quantity/thread-length'
import { notFound, Problem } from './problem'
import { noSuch } from './stock-refusal'

export type ProjectRefusal = FinishRefused | KitRefused | LogRefused | MoveRefused | StartRefused

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
    case 'changed-meanwhile':
      return new Problem('refused', 'It was changed meanwhile. Read the project again, then ask with its new version.')
    case 'not-from-here':
      return new Problem(
        'refused',
        `A project that is ${refusal.from} cannot become ${refusal.to}${refusal.allowed.length > 0 ? `, only ${refusal.allowed.join(', ')}` : ''}.`,
      )
    case 'nothing-logged':
      return new Problem('refused', 'Neither hours nor stitches are logged.')
    case 'not-enough':
      return new Problem(
        'refused',
        `Of one thread ${strand(refusal.requestedStrandTenths)} is said to be used, but there was ${strand(refusal.heldStrandTenths)}.`,
      )
    case 'finished-before-started':
      return new Problem('refused', `It was started on ${refusal.startedOn}, so it cannot be finished before.`)
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
  }
}
