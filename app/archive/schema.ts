import { z } from 'zod'

const idText = z.string().min(1).max(64)

export const archiveNameSchema = z.object({ name: z.string().min(1).max(100) })
export const archiveJobSchema = z.object({ jobId: idText })
export const givenSchema = z.object({ givenId: idText })
