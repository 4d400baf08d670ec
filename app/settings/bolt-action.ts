'use server'

import { revalidatePath } from 'next/cache'
import type { FormState } from '#forms/form-state'
import { formatClothLength } from '#language/lengths'
import { say } from '#language/say'
import { requireRight } from '#lib/db/access/right'
import { getSettings, saveSettings } from '#lib/db/settings/settings'
import { parseClothLength } from '#lib/quantity/cloth-length'
import { type BoltFigures, boltFields } from './bolt-fields'

/** Keep how cloth is sold and cut off the bolt. A figure left as it was shown keeps the exact one behind it. */
export async function saveBoltAction(_previous: FormState, form: FormData): Promise<FormState> {
  requireRight('keep')
  const values = Object.fromEntries([...form].filter((entry): entry is [string, string] => typeof entry[1] === 'string'))
  const settings = await getSettings()
  const unit = settings.lengthUnit
  const fieldErrors: Record<string, string[]> = {}
  const held: BoltFigures = { ...settings.bolt, leastOffcutUm: settings.leastOffcutUm, cutGapUm: settings.cutGapUm }
  const read = { ...held }
  for (const { name, least, most } of boltFields()) {
    const typed = (values[name] ?? '').trim()
    if (typed === formatClothLength(held[name], unit)) continue
    const um = parseClothLength(typed, unit)
    if (um === null || um < least || um > most)
      fieldErrors[name] = [
        say('A length from {least} to {most}.', { least: formatClothLength(least, unit), most: formatClothLength(most, unit) }),
      ]
    else read[name] = um
  }
  if (Object.keys(fieldErrors).length === 0 && 2 * read.selvedgeUm >= read.widthUm)
    fieldErrors.selvedgeUm = [say('The two selvedges leave nothing of the bolt’s width.')]
  if (Object.keys(fieldErrors).length > 0) return { status: 'invalid', fieldErrors, values }
  const { leastOffcutUm, cutGapUm, ...bolt } = read
  await saveSettings({ ...settings, bolt, leastOffcutUm, cutGapUm })
  revalidatePath('/', 'layout')
  return { status: 'done', message: say('Kept. Yardage and cuts are reckoned with these.') }
}
