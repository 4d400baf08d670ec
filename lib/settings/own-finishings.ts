import { findFinishing, type Margins } from '#lib/cloth/margins'
import { textKey } from '#lib/quantity/text-key'
import { ok, type Result, refused } from '#lib/result'
import { mostOwnFinishings, type Settings } from './settings'

export type FinishingRefused =
  | { kind: 'name-taken'; name: string }
  | { kind: 'too-many'; most: number }
  | { kind: 'not-yours'; name: string }

/** Add a way of finishing with its margins. */
export function addFinishing(settings: Settings, name: string, margins: Margins): Result<Settings, FinishingRefused> {
  const known = findFinishing(settings, name)
  if (known) return refused({ kind: 'name-taken', name: known.name })
  if (settings.ownFinishings.length >= mostOwnFinishings) return refused({ kind: 'too-many', most: mostOwnFinishings })
  return ok({ ...settings, ownFinishings: [...settings.ownFinishings, { name: name.trim(), margins }] })
}

/** Take away a way of finishing that was added. Where the reckoning went by it, the default one takes its place when next read. */
export function removeFinishing(settings: Settings, name: string): Result<Settings, FinishingRefused> {
  const key = textKey(name)
  const left = settings.ownFinishings.filter((own) => textKey(own.name) !== key)
  if (left.length === settings.ownFinishings.length) return refused({ kind: 'not-yours', name })
  return ok({ ...settings, ownFinishings: left })
}

/** Set the margins of a way of finishing, whether always there or added; settings as they are where there is none of that name. */
export function withMargins(settings: Settings, name: string, margins: Margins): Settings {
  const known = findFinishing(settings, name)
  if (!known) return settings
  if (known.isOwn) {
    const ownFinishings = settings.ownFinishings.map((own) => (own.name === known.name ? { ...own, margins } : own))
    return { ...settings, ownFinishings }
  }
  return { ...settings, margins: { ...settings.margins, [known.name]: margins } }
}
