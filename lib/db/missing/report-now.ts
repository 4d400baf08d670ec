import 'server-only'
import type { Result } from '#lib/result'
import { write } from '../write'
import { type ReportMissingRefused, reportMissing } from './report-missing'
import { type ReportThingRefused, reportThing } from './report-thing'

/** `reportMissing` as a write of its own: what screens and API use. */
export const reportNow = (
  input: Parameters<typeof reportMissing>[1],
): Promise<Result<{ missingId: string; batchId: string }, ReportMissingRefused>> =>
  write((writing) => reportMissing(writing, input))

/** `reportThing` as a write of its own. */
export const reportThingNow = (
  input: Parameters<typeof reportThing>[1],
): Promise<Result<{ missingId: string }, ReportThingRefused>> => write((writing) => reportThing(writing, input))
