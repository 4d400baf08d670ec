import { say, sayings } from '#language/say'
import type { MissingStatus } from '#lib/db/missing/queries'
import type { ReportMissingRefused } from '#lib/db/missing/report-missing'
import type { ReportThingRefused } from '#lib/db/missing/report-thing'
import type { SettleRefused } from '#lib/db/missing/settle-missing'
import type { UnpackBagRefused } from '#lib/db/unpack/unpack-bag'
import type { ThreadLengthUnit } from '#lib/quantity/thread-length'
import { threadLength } from './amounts'
import { threadName } from './thread'

export const missingStatusWords: Record<MissingStatus, string> = sayings({ open: 'open', found: 'found', 'given up': 'given up' })

type ThreadSaid = { makerName: string; code: string; name: string | null; strands: number }

/** Why a thing was not put on record as missing, or its question not settled. */
export function describeMissingRefusal(refusal: ReportMissingRefused | ReportThingRefused | SettleRefused): string {
  switch (refusal.kind) {
    case 'no-such-batch':
    case 'no-such-thing':
      return say('It is not on record any more. Load the page again.')
    case 'changed-meanwhile':
      return say(
        'Somebody moved or changed it meanwhile, so nothing was written. Load the page again, look, and do it once more.',
      )
    case 'not-enough':
      return say('There was not so much of it on record. Give how many put-ups are missing, and whether the part is.')
    case 'nothing-parted':
      return say('Say how much is missing: so many whole put-ups, the part, or both.')
    case 'no-place':
      return say('The record does not say where it was. Give it a place, or correct how much there is.')
    case 'already-missing':
      return say('It is being looked for already.')
    case 'several-copies':
      return say('There are several copies, and the record cannot tell them apart. Correct how many there are instead.')
    case 'no-such-question':
      return say('This question is no longer there.')
    case 'settled-already':
      return say('This question was settled already. Load the page again.')
    case 'no-reason':
      return say('Say why it is given up: it stays in the journal.')
    case 'no-home':
      return say('It has no place of its own. Say where you found it.')
  }
}

/** Why a bag was not unpacked. `findThread` finds a thread by its id. */
export function describeUnpackRefusal(
  refusal: UnpackBagRefused,
  unit: ThreadLengthUnit,
  findThread: (threadId: string) => ThreadSaid | undefined = () => undefined,
): string {
  const said = (threadId: string): string => {
    const thread = findThread(threadId)
    return thread ? threadName(thread) : say('A thread')
  }
  switch (refusal.kind) {
    case 'no-such-place':
      return say('This place is not there any more.')
    case 'no-such-project':
      return say('A project it was to be used for is not there any more. Load the page again.')
    case 'changed-meanwhile':
      return say(
        'Somebody took out or changed something of it meanwhile, so nothing was written. Load the page again, look, and do it once more.',
      )
    case 'not-in-bag':
      return say(
        'One of these things does not lie there any more, is on a put-back list already, or is being looked for. Nothing was written; load the page again.',
      )
    case 'more-left-than-brought': {
      const length = (tenths: number) => threadLength(tenths, findThread(refusal.threadId)?.strands ?? 1, unit)
      return say('{said}: {length} cannot be left, {length2} was brought. Measure or weigh it again. Nothing was written.', {
        said: said(refusal.threadId),
        length: length(refusal.leftStrandTenths),
        length2: length(refusal.broughtStrandTenths),
      })
    }
    case 'more-missing-than-brought':
      return say(
        '{said}: more is said not to be there than was brought{wholePutUpsCase, select, yes {} other {, or all of it; then choose “not in the bag”}}. Nothing was written.',
        { said: said(refusal.threadId), wholePutUpsCase: refusal.wholePutUps === 0 },
      )
    case 'no-weight':
      return say('{said}: say on the page of its line what a full put-up weighs, or measure what is left. Nothing was written.', {
        said: said(refusal.threadId),
      })
    case 'not-used-up':
      return say('Cloth and charts are not used up here. Cut or finish the cloth on its own page. Nothing was written.')
    case 'nothing-to-do':
      return say('Everything is said to stay as it is, so there is nothing to write.')
  }
}
