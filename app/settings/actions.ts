'use server'

import { revalidatePath } from 'next/cache'
import { cookies } from 'next/headers'
import { z } from 'zod'
import type { FormState } from '#forms/form-state'
import { formatClothLength } from '#language/lengths'
import { say } from '#language/say'
import { type Framing, framingMargin } from '#lib/cloth/framing'
import { defaultFinishing, findFinishing, listFinishings, type Margins, marginsAllRound, marginsFor } from '#lib/cloth/margins'
import { requireRight } from '#lib/db/access/right'
import { addOwner, editOwner } from '#lib/db/owner/owners'
import { getSettings, saveSettings } from '#lib/db/settings/settings'
import { type LengthUnit, parseClothLength } from '#lib/quantity/cloth-length'
import { parseNumber } from '#lib/quantity/number'
import { addFinishing, type FinishingRefused, removeFinishing, withMargins } from '#lib/settings/own-finishings'
import { ownFinishingSchema, settingsSchema } from '#lib/settings/settings'
import { isAllowance } from '#lib/thread/allowance'
import { slashCookie } from '../_ui/slash-key'
import { themeCookie } from '../_ui/theme'
import { ownerFormSchema, settingsFormSchema, themeSchema } from './schema'

const valuesOf = (form: FormData): Record<string, string> =>
  Object.fromEntries([...form].filter((entry): entry is [string, string] => typeof entry[1] === 'string'))

/** Keep units, allowance, rounding and the way of finishing. */
export async function saveSettingsAction(_previous: FormState, form: FormData): Promise<FormState> {
  requireRight('keep')
  const values = valuesOf(form)
  const input = settingsFormSchema.safeParse(values)
  if (!input.success) return { status: 'invalid', fieldErrors: z.flattenError(input.error).fieldErrors, values }
  const { allowance, shrinkPercent, ...plain } = input.data
  const figures = { allowance: parseNumber(allowance), shrinkPercent: parseNumber(shrinkPercent) }
  const fieldErrors: Record<string, string[]> = {}
  if (figures.allowance === null || !isAllowance(figures.allowance)) {
    fieldErrors.allowance = [say('A number from 1 to 5, such as 1.5.')]
  }
  if (figures.shrinkPercent === null || figures.shrinkPercent < 0 || figures.shrinkPercent > 20) {
    fieldErrors.shrinkPercent = [say('A number of per cent from 0 to 20.')]
  }
  if (Object.keys(fieldErrors).length > 0) return { status: 'invalid', fieldErrors, values }
  const settings = await getSettings()
  if (!findFinishing(settings, plain.finishing))
    return { status: 'invalid', fieldErrors: { finishing: [say('Choose one of the ways of finishing.')] }, values }
  await saveSettings(settingsSchema.parse({ ...settings, ...plain, ...figures }))
  revalidatePath('/', 'layout')
  return { status: 'done', message: say('Kept. Every answer is worked out anew with these.') }
}

/** Reckon with the allowance that was offered, as it was shown. */
export async function saveAllowanceAction(_previous: FormState, form: FormData): Promise<FormState> {
  requireRight('keep')
  const values = valuesOf(form)
  const allowance = parseNumber(values.allowance ?? '')
  if (allowance === null || !isAllowance(allowance))
    return { status: 'refused', message: say('An allowance is a number from 1 to 5. Load the page again and look.'), values }
  await saveSettings({ ...(await getSettings()), allowance })
  revalidatePath('/', 'layout')
  return { status: 'done', message: say('Everything is reckoned with {allowance} now.', { allowance }) }
}

const sides = ['leftUm', 'rightUm', 'topUm', 'bottomUm'] as const
const widestMarginUm = 500_000

/** A width of cloth as typed; null when it does not read or is wider than any margin. */
function readWidth(text: string | undefined, unit: LengthUnit): number | null {
  const um = parseClothLength(text ?? '', unit)
  return um === null || um > widestMarginUm ? null : um
}

const widthError = (unit: LengthUnit): string[] => [
  say('A width such as {clothLength}.', { clothLength: formatClothLength(76_200, unit) }),
]

/** Keep the four margins of every way of finishing. */
export async function saveMarginsAction(_previous: FormState, form: FormData): Promise<FormState> {
  requireRight('keep')
  const values = valuesOf(form)
  const settings = await getSettings()
  const fieldErrors: Record<string, string[]> = {}
  let kept = settings
  for (const { name } of listFinishings(settings)) {
    const read: Margins = { ...marginsFor(settings, name) }
    for (const side of sides) {
      const field = `${name} ${side}`
      // One that was added while this form was open has no boxes in it.
      if (values[field] === undefined) continue
      const um = readWidth(values[field], settings.lengthUnit)
      if (um === null) fieldErrors[field] = widthError(settings.lengthUnit)
      else read[side] = um
    }
    kept = withMargins(kept, name, read)
  }
  if (Object.keys(fieldErrors).length > 0) return { status: 'invalid', fieldErrors, values }
  await saveSettings(kept)
  revalidatePath('/', 'layout')
  return { status: 'done', message: say('Margins kept.') }
}

/** Add a way of finishing of one's own; a margin left empty is as wide as the first. */
export async function addFinishingAction(_previous: FormState, form: FormData): Promise<FormState> {
  requireRight('keep')
  const values = valuesOf(form)
  const settings = await getSettings()
  const fieldErrors: Record<string, string[]> = {}
  const name = ownFinishingSchema.shape.name.safeParse(values.name)
  if (!name.success) fieldErrors.name = [say('A name of up to 60 letters.')]
  const first = readWidth(values.leftUm, settings.lengthUnit)
  if (first === null) fieldErrors.leftUm = widthError(settings.lengthUnit)
  const margins = marginsAllRound(first ?? 0)
  for (const side of sides) {
    if (side === 'leftUm' || !values[side]?.trim()) continue
    const um = readWidth(values[side], settings.lengthUnit)
    if (um === null) fieldErrors[side] = widthError(settings.lengthUnit)
    else margins[side] = um
  }
  if (!name.success || Object.keys(fieldErrors).length > 0) return { status: 'invalid', fieldErrors, values }
  const added = addFinishing(settings, name.data, margins)
  if (!added.ok) return { status: 'refused', message: finishingRefusalWords(added.error), values }
  await saveSettings(added.value)
  revalidatePath('/', 'layout')
  return { status: 'done', message: say('{name} added.', { name: name.data }) }
}

/** Take away a way of finishing that was added. */
export async function removeFinishingAction(_previous: FormState, form: FormData): Promise<FormState> {
  requireRight('keep')
  const values = valuesOf(form)
  const settings = await getSettings()
  const name = values.name ?? ''
  const removed = removeFinishing(settings, name)
  if (!removed.ok) return { status: 'refused', message: finishingRefusalWords(removed.error), values }
  await saveSettings(removed.value)
  revalidatePath('/', 'layout')
  const was = settings.finishing === name ? say(' Margins are now as for {defaultFinishing}.', { defaultFinishing }) : ''
  return { status: 'done', message: say('{name} taken away.{was}', { name, was }) }
}

/** Keep what a framed margin is made of. */
export async function saveFramingAction(_previous: FormState, form: FormData): Promise<FormState> {
  requireRight('keep')
  const values = valuesOf(form)
  const settings = await getSettings()
  const fieldErrors: Record<string, string[]> = {}
  const framing: Framing = { ...settings.framing }
  for (const part of ['seenUm', 'rabbetUm', 'boardUm', 'turnBackUm'] as const) {
    const um = readWidth(values[part], settings.lengthUnit)
    if (um === null) fieldErrors[part] = widthError(settings.lengthUnit)
    else framing[part] = um
  }
  if (Object.keys(fieldErrors).length > 0) return { status: 'invalid', fieldErrors, values }
  await saveSettings({ ...settings, framing })
  revalidatePath('/', 'layout')
  return { status: 'done', message: say('Kept.') }
}

/** Make the sum of the parts, rounded up, the framed margin all round. */
export async function applyFramingAction(_previous: FormState, _form: FormData): Promise<FormState> {
  requireRight('keep')
  const settings = await getSettings()
  const { marginUm } = framingMargin(settings.framing, settings.roundingUm)
  await saveSettings(withMargins(settings, defaultFinishing, marginsAllRound(marginUm)))
  revalidatePath('/', 'layout')
  return {
    status: 'done',
    message: say('The framed margin is {margin} all round.', { margin: formatClothLength(marginUm, settings.lengthUnit) }),
  }
}

function finishingRefusalWords(refusal: FinishingRefused): string {
  switch (refusal.kind) {
    case 'name-taken':
      return say('There is a way of finishing called {name} already. Change its margins above.', { name: refusal.name })
    case 'too-many':
      return say('{most} of your own are as many as are kept. Take one away first.', { most: refusal.most })
    case 'not-yours':
      return say('{name} is not among your own ways of finishing. The page now shows those there are.', { name: refusal.name })
  }
}

/** Light, dark, or as the device has it. */
export async function chooseThemeAction(_previous: FormState, form: FormData): Promise<FormState> {
  const theme = themeSchema.catch('device').parse(form.get('theme'))
  const jar = await cookies()
  if (theme === 'device') jar.delete(themeCookie)
  else jar.set(themeCookie, theme, { path: '/', maxAge: 365 * 24 * 3600, sameSite: 'lax' })
  revalidatePath('/', 'layout')
  return { status: 'done', message: say('Kept on this device.') }
}

/** Whether a slash leads to Find, on this device. */
export async function chooseSlashAction(_previous: FormState, form: FormData): Promise<FormState> {
  const jar = await cookies()
  if (form.has('slash')) jar.delete(slashCookie)
  // Read by the page's own scripts.
  else jar.set(slashCookie, 'off', { path: '/', maxAge: 365 * 24 * 3600, sameSite: 'lax' })
  revalidatePath('/', 'layout')
  return { status: 'done', message: say('Kept on this device.') }
}

/** Add an owner, or change one that is there. */
export async function saveOwnerAction(_previous: FormState, form: FormData): Promise<FormState> {
  requireRight('keep')
  const values = valuesOf(form)
  const input = ownerFormSchema.safeParse(values)
  if (!input.success) return { status: 'invalid', fieldErrors: z.flattenError(input.error).fieldErrors, values }
  const { id, version, name, kind } = input.data
  const result = id && version !== undefined ? await editOwner({ id, version, name, kind }) : await addOwner({ name, kind })
  if (!result.ok) return { status: 'refused', message: ownerRefusalWords(result.error), values }
  revalidatePath('/', 'layout')
  return { status: 'done', message: id ? say('Changed.') : say('{name} added.', { name }) }
}

function ownerRefusalWords(refusal: Extract<Awaited<ReturnType<typeof addOwner>>, { ok: false }>['error']): string {
  switch (refusal.kind) {
    case 'name-taken':
      return say('There is an owner named {name} already.', { name: refusal.name })
    case 'changed-meanwhile':
      return say('Somebody changed this owner meanwhile. The page now shows how it stands; look and save again.')
  }
}
