'use server'

import { revalidatePath } from 'next/cache'
import { cookies } from 'next/headers'
import { z } from 'zod'
import { finishings, type Margins } from '#lib/cloth/margins'
import { addOwner, editOwner } from '#lib/db/owner/owners'
import { getSettings, saveSettings } from '#lib/db/settings/settings'
import { formatClothLength, type LengthUnit, parseClothLength } from '#lib/quantity/cloth-length'
import { parseNumber } from '#lib/quantity/number'
import { settingsSchema } from '#lib/settings/settings'
import { isAllowance } from '#lib/thread/allowance'
import type { FormState } from '#ui/form'
import { themeCookie } from '../_ui/theme'
import { ownerFormSchema, settingsFormSchema, themeSchema } from './schema'

const valuesOf = (form: FormData): Record<string, string> =>
  Object.fromEntries([...form].filter((entry): entry is [string, string] => typeof entry[1] === 'string'))

/** Keep units, allowance, rounding and the way of finishing. */
export async function saveSettingsAction(_previous: FormState, form: FormData): Promise<FormState> {
  const values = valuesOf(form)
  const input = settingsFormSchema.safeParse(values)
  if (!input.success) return { status: 'invalid', fieldErrors: z.flattenError(input.error).fieldErrors, values }
  const { allowance, shrinkPercent, ...plain } = input.data
  const figures = { allowance: parseNumber(allowance), shrinkPercent: parseNumber(shrinkPercent) }
  const fieldErrors: Record<string, string[]> = {}
  if (figures.allowance === null || !isAllowance(figures.allowance)) {
    fieldErrors.allowance = ['A number from 1 to 5, such as 1.5.']
  }
  if (figures.shrinkPercent === null || figures.shrinkPercent < 0 || figures.shrinkPercent > 20) {
    fieldErrors.shrinkPercent = ['A number of per cent from 0 to 20.']
  }
  if (Object.keys(fieldErrors).length > 0) return { status: 'invalid', fieldErrors, values }
  await saveSettings(settingsSchema.parse({ ...(await getSettings()), ...plain, ...figures }))
  revalidatePath('/', 'layout')
  return { status: 'done', message: 'Kept. Every answer is worked out anew with these.' }
}

/** Reckon with the allowance that was offered, as it was shown. */
export async function saveAllowanceAction(_previous: FormState, form: FormData): Promise<FormState> {
  const values = valuesOf(form)
  const allowance = parseNumber(values.allowance ?? '')
  if (allowance === null || !isAllowance(allowance))
    return { status: 'refused', message: 'An allowance is a number from 1 to 5. Load the page again and look.', values }
  await saveSettings({ ...(await getSettings()), allowance })
  revalidatePath('/', 'layout')
  return { status: 'done', message: `Everything is reckoned with ${allowance} now.` }
}

/** Keep the four margins of every way of finishing. */
export async function saveMarginsAction(_previous: FormState, form: FormData): Promise<FormState> {
  const values = valuesOf(form)
  const settings = await getSettings()
  const margins = { ...settings.margins }
  const fieldErrors: Record<string, string[]> = {}
  for (const finishing of finishings) {
    const read = {} as Margins
    for (const side of ['leftUm', 'rightUm', 'topUm', 'bottomUm'] as const) {
      const name = `${finishing} ${side}`
      const um = parseClothLength(values[name] ?? '', settings.lengthUnit as LengthUnit)
      if (um === null || um < 0 || um > 500_000)
        fieldErrors[name] = [`A width such as ${formatClothLength(76_200, settings.lengthUnit)}.`]
      else read[side] = Math.round(um)
    }
    margins[finishing] = read
  }
  if (Object.keys(fieldErrors).length > 0) return { status: 'invalid', fieldErrors, values }
  await saveSettings({ ...settings, margins })
  revalidatePath('/', 'layout')
  return { status: 'done', message: 'Margins kept.' }
}

/** Light, dark, or as the device has it. */
export async function chooseThemeAction(_previous: FormState, form: FormData): Promise<FormState> {
  const theme = themeSchema.catch('device').parse(form.get('theme'))
  const jar = await cookies()
  if (theme === 'device') jar.delete(themeCookie)
  else jar.set(themeCookie, theme, { path: '/', maxAge: 365 * 24 * 3600, sameSite: 'lax' })
  revalidatePath('/', 'layout')
  return { status: 'done', message: 'Kept on this device.' }
}

/** Add an owner, or change one that is there. */
export async function saveOwnerAction(_previous: FormState, form: FormData): Promise<FormState> {
  const values = valuesOf(form)
  const input = ownerFormSchema.safeParse(values)
  if (!input.success) return { status: 'invalid', fieldErrors: z.flattenError(input.error).fieldErrors, values }
  const { id, version, name, kind } = input.data
  const result = id && version !== undefined ? await editOwner({ id, version, name, kind }) : await addOwner({ name, kind })
  if (!result.ok) return { status: 'refused', message: ownerRefusalWords(result.error), values }
  revalidatePath('/', 'layout')
  return { status: 'done', message: id ? 'Changed.' : `${name} added.` }
}

function ownerRefusalWords(refusal: Extract<Awaited<ReturnType<typeof addOwner>>, { ok: false }>['error']): string {
  switch (refusal.kind) {
    case 'name-taken':
      return `There is an owner named ${refusal.name} already.`
    case 'changed-meanwhile':
      return 'Somebody changed this owner meanwhile. The page now shows how it stands; look and save again.'
  }
}
