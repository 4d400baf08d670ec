import { z } from 'zod'
import type { FormState } from '#forms/form-state'

/** The answer to a form whose fields do not read: what is wrong with each, and what was sent. */
export const invalid = (error: z.ZodError, values: Record<string, string>): FormState => ({
  status: 'invalid',
  fieldErrors: z.flattenError(error).fieldErrors,
  values,
})
