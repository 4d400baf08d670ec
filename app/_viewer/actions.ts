'use server'

import { revalidatePath } from 'next/cache'
import { cookies } from 'next/headers'
import { listOwners } from '#lib/db/owner/owners'
import { everyone, ownerCookie } from './viewer'

const yearSeconds = 365 * 24 * 3600

/** Keep whose stock is on show. */
export async function chooseOwnerAction(form: FormData): Promise<void> {
  const owner = String(form.get('owner') ?? '')
  const owners = await listOwners()
  if (owner !== everyone && !owners.some(({ id }) => id === owner)) return
  const jar = await cookies()
  jar.set(ownerCookie, owner, { path: '/', maxAge: yearSeconds, sameSite: 'lax', httpOnly: true })
  revalidatePath('/', 'layout')
}
