import { z } from 'zod'
import { faultKinds, repairs } from '#lib/checking/fault'

export const jobSchema = z.object({ jobId: z.uuid() })

/** One fault by its id, or all of a kind. */
export const repairSchema = z.object({
  jobId: z.uuid(),
  repair: z.enum(repairs),
  faultId: z.string().min(1).max(400).optional(),
  faultKind: z.enum(faultKinds).optional(),
})

export const daySchema = z.object({ day: z.string().max(10) })
