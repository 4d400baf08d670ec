'use server'

import { revalidatePath } from 'next/cache'
import { redirect } from 'next/navigation'
import { z } from 'zod'
import type { FormState } from '#forms/form-state'
import { say } from '#language/say'
import { addOwner, ownerKinds } from '#lib/db/owner/owners'

const startSchema = z.object({
  name: z
    .string()
    .trim()
    .min(1, { error: () => say('Give a name: yours, or your shop’s.') })
    .max(100, { error: () => say('A name of up to 100 letters.') }),
  kind: z.enum(ownerKinds),
})

/** Start with nothing but an owner: whose goods they are. */
export async function startEmptyAction(_previous: FormState, form: FormData): Promise<FormState> {
  const values = { name: String(form.get('name') ?? ''), kind: String(form.get('kind') ?? 'own') }
  const input = startSchema.safeParse(values)
  if (!input.success) return { status: 'invalid', fieldErrors: z.flattenError(input.error).fieldErrors, values }

  const result = await addOwner(input.data)
  if (!result.ok)
    return { status: 'refused', message: say('There is an owner named {name} already.', { name: input.data.name }), values }
  // The frame around the page says whose stock is shown.
  revalidatePath('/', 'layout')
  redirect('/charts')
}
