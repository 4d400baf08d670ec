import 'server-only'
import { textKey } from '#lib/quantity/text-key'
import { ok, type Result, refused } from '#lib/result'
import { notFoundLabel } from '../missing/not-found-place'
import type { Write } from '../write-gate'
import { findMeant } from './look-up-label'

/** Only the record puts things where what was looked for in vain is: somebody says that a thing is not there. */
export type KeptByRecord = { kind: 'kept-by-record'; label: string }

/** Refused where a typed label means the record's own place, or would take its name before it is made. */
export async function refuseKeptByRecord({ tx }: Pick<Write, 'tx'>, label: string): Promise<Result<null, KeptByRecord>> {
  const meant = await findMeant(label, tx)
  const isKept = meant ? meant.kind === 'not found' : textKey(label) === textKey(notFoundLabel)
  return isKept ? refused({ kind: 'kept-by-record', label: meant?.label ?? notFoundLabel }) : ok(null)
}
