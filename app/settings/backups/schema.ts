import { z } from 'zod'
import { say } from '#language/say'
import { isBackupName } from '#lib/backup/backup-name'
import { hourShape } from '#lib/backup/schedule'

export const nameSchema = z.object({ name: z.string().refine(isBackupName) })

export const jobSchema = z.object({ jobId: z.uuid() })

const most = (count: number, of: string) =>
  z.coerce
    .number({ error: () => say('A number of {of} from 1 to {count}.', { of, count }) })
    .int()
    .min(1, { error: () => say('At least 1.') })
    .max(count, { error: () => say('At most {count}.', { count }) })

export const settingsFormSchema = z.object({
  isScheduled: z.string().optional(),
  hour: z
    .string()
    .trim()
    .regex(hourShape, { error: () => say('A time by the clock, such as 02:30.') }),
  folder: z
    .string()
    .trim()
    .max(1_000, { error: () => say('A path of up to 1,000 letters.') })
    .default(''),
  days: most(366, 'days'),
  weeks: most(260, 'weeks'),
  months: most(240, 'months'),
})

/** What is to be typed before a collection is replaced. */
export const restoreWord = 'restore'
