import 'server-only'
import { parseLabelPattern, printLabelPattern } from '#lib/place/label-pattern'
import type { OwnPattern } from '#lib/place/own-patterns'
import { ok, type Result, refused } from '#lib/result'
import { mostLabelPatterns } from '#lib/settings/settings'
import { getSettings, saveSettings } from './settings'

/** A pattern is one of the shop's by its text and by where it begins. */
const isSame = (a: Pick<OwnPattern, 'text' | 'insideId'>, b: Pick<OwnPattern, 'text' | 'insideId'>): boolean =>
  a.text === b.text && a.insideId === b.insideId

/** Keep a pattern as one of the shop's own, so that new places are labelled by it. The same again takes the place of what was kept. */
export async function keepLabelPattern(
  own: OwnPattern,
): Promise<Result<null, { kind: 'too-many'; most: number } | { kind: 'does-not-read' }>> {
  const read = parseLabelPattern(own.text)
  if (!read.ok) return refused({ kind: 'does-not-read' })
  const kept = { ...own, text: printLabelPattern(read.value), kinds: [...own.kinds] }
  const settings = await getSettings()
  const others = settings.labelPatterns.filter((other) => !isSame(other, kept))
  if (others.length >= mostLabelPatterns) return refused({ kind: 'too-many', most: mostLabelPatterns })
  await saveSettings({ ...settings, labelPatterns: [...others, kept] })
  return ok(null)
}

/** Keep a pattern no longer. The places made by it stay as they are. */
export async function forgetLabelPattern(own: Pick<OwnPattern, 'text' | 'insideId'>): Promise<void> {
  const settings = await getSettings()
  await saveSettings({ ...settings, labelPatterns: settings.labelPatterns.filter((other) => !isSame(other, own)) })
}
