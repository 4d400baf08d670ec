import { say } from '#language/say'
import type { SwapRefused } from '#lib/db/project/set-project-swap'
import type { StandInRefused } from '#lib/db/thread/add-stand-in'
import { givenName } from '#words/given'

/** Why a swap was not kept with a project, and what would be accepted. */
export function describeProjectSwapRefusal(refusal: SwapRefused): string {
  switch (refusal.kind) {
    case 'changed-meanwhile':
      return say('Somebody changed the project while you were looking. Open this page again and look before you repeat it.')
    case 'no-such-project':
      return say('That project was removed meanwhile. Choose another.')
    case 'project-closed':
      return say('The project is {status}: what it was worked in stays as it is.', { status: givenName(refusal.status) })
    case 'no-such-thread':
      return say('This thread was removed meanwhile. Choose another.')
    case 'not-in-key':
      return say('The thread list this project is worked from has no such thread. Choose the project’s own list.')
    case 'stands-for-itself':
      return say('A thread cannot stand in for itself. Choose another.')
    case 'in-the-bag':
      return say('What it is worked in now lies in the project’s bag. Put that back first.')
    case 'would-merge':
      return say(
        'Another colour of this project is worked in that thread already: the two would become one. Choose to work them in one first.',
      )
  }
}

/** Why a stand-in was not accepted for good. */
export function describeStandInRefusal(refusal: StandInRefused): string {
  switch (refusal.kind) {
    case 'no-such-thread':
      return say('This thread was removed meanwhile.')
    case 'stands-for-itself':
      return say('A thread cannot stand in for itself. Choose another.')
    case 'stand-in-known':
      return say('That stand-in is on record already.')
  }
}
