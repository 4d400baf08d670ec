import { cookies } from 'next/headers'
import { cache } from 'react'
import { listOwners, type Owner } from '#lib/db/owner/owners'
import { getSettings } from '#lib/db/settings/settings'
import { troubleOf } from '#lib/db/trouble'
import type { Settings } from '#lib/settings/settings'
import { digestOfTrouble } from '#words/trouble'

export const ownerCookie = 'larder-owner'
/** The cookie's word for everybody's goods together: only ever by choice. */
export const everyone = 'everyone'

export type Viewer = {
  settings: Settings
  owners: Owner[]
  /** Whose goods are looked at: one owner unless "everyone" was chosen. Empty only in a collection without owners. */
  ownerIds: string[]
  /** "The Oxmarsh Needle Room", or "everyone". */
  ownerName: string
}

/** Every page begins here: what keeps all of them from being made is told by its own word. */
function sayTrouble(error: unknown): never {
  const trouble = troubleOf(error)
  throw trouble === null ? error : Object.assign(error as Error, { digest: digestOfTrouble(trouble) })
}

/** Who is looking, and how they like their figures. Once a request. */
export const getViewer = cache(async (): Promise<Viewer> => {
  const [settings, owners, jar] = await Promise.all([getSettings(), listOwners(), cookies()]).catch(sayTrouble)
  const chosen = jar.get(ownerCookie)?.value
  if (chosen === everyone && owners.length > 1) {
    return { settings, owners, ownerIds: owners.map((owner) => owner.id), ownerName: everyone }
  }
  const owner = owners.find(({ id }) => id === chosen) ?? owners[0]
  return { settings, owners, ownerIds: owner ? [owner.id] : [], ownerName: owner?.name ?? '' }
})
