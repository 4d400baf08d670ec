import { findMeant } from '#lib/db/place/look-up-label'
import { oldLabelWords } from '#words/old-label'

/**
 * The place that a typed label means, by the label it has now, and what is to be said to whoever typed an old one; after the write, which
 * makes a place of a label that is new.
 */
export async function meantPlace(typed: string): Promise<{ label: string; said: string }> {
  const meant = await findMeant(typed)
  return { label: meant?.label ?? typed, said: meant?.old ? ` ${oldLabelWords(meant.old)}` : '' }
}
