import { asking } from '#lib/db/access/asking'
import { logRefusal } from '#lib/db/access/sign-in'
import { countAddressTry } from '#lib/db/access/sign-in-limits'
import { signInRefusalWords } from '#words/sign-in'

/** Counts a try by passkey from wherever it comes; the sentence that has one wait, or null. */
export async function tooManyTries(): Promise<string | null> {
  const { waitSeconds, isFirstRefusal } = await countAddressTry(asking()?.address ?? '')
  if (waitSeconds === 0) return null
  if (isFirstRefusal) await logRefusal({ kind: 'refused', what: 'too-many-tries' }, { id: null, name: '' }, new Date())
  return signInRefusalWords({ kind: 'wait', seconds: waitSeconds })
}
