'use server'

import { revalidatePath } from 'next/cache'
import { cookies } from 'next/headers'
import { redirect } from 'next/navigation'
import type { FormState } from '#forms/form-state'
import { errands } from './errands'
import { readTour, tourBegun, tourCookie, tourCookieOptions, tourValue } from './tour-state'

/** Begin the errands, from the first or where they were left, on this device. */
export async function beginTourAction(_previous: FormState, form: FormData): Promise<FormState> {
  const jar = await cookies()
  const known = form.get('from') === 'where-left' ? readTour(jar.get(tourCookie)?.value) : null
  const state = known ? { ...known, isLeft: false } : tourBegun
  jar.set(tourCookie, tourValue(state), tourCookieOptions)
  revalidatePath('/', 'layout')
  const { steps = [] } = errands()[state.errand] ?? {}
  redirect(steps[Math.min(state.step, steps.length - 1)]?.from.href ?? '/')
}
