import { pairKey } from '#lib/chart/doubles-suggested'
import { likenessOf, titleForm } from '#lib/chart/likeness'
import { deltaE00 } from '#lib/colour/convert'
import type { Lab } from '#lib/colour/lab'
import { grouped } from '#lib/grouped'
import { textKey } from '#lib/quantity/text-key'

export type ComparedThread = { id: string; lineId: string; code: string; name: string | null; lab: Lab | null }

export type ThreadReason =
  /** Their codes differ in zeros in front, spaces, signs or case, or in O for 0. */
  | 'codes-read-alike'
  | 'same-name'
  /** CIEDE2000 at most 2: very near (trade notes 3.3). */
  | 'same-colour'

export type SuggestedThreads = { firstId: string; secondId: string; reasons: ThreadReason[] }

/** A code as a hand may write it: O for 0, l and I for 1, with or without zeros in front, spaces, dots and dashes. */
const writtenKey = (code: string): string =>
  textKey(code)
    .replace(/[^\p{L}\p{N}]/gu, '')
    .replace(/(?<=\d)o|o(?=\d)/gu, '0')
    .replace(/(?<=\d)[il]|[il](?=\d)/gu, '1')
    .replace(/(?<!\d)0+(?=\d)/gu, '')

const veryNear = 2

/**
 * Threads of one line that may be one thread entered twice. Another name on each, or colours apart, means they are two, however alike the
 * codes: `0017` is not `17`.
 *
 * @param toldApart  by `pairKey`
 */
export function suggestThreads(threads: readonly ComparedThread[], toldApart: ReadonlySet<string>): SuggestedThreads[] {
  const found = new Map<string, SuggestedThreads>()
  const look = (group: readonly ComparedThread[], codesReadAlike: boolean) => {
    for (const [at, b] of group.entries())
      for (const a of group.slice(0, at)) {
        const key = pairKey(a.id, b.id)
        if (found.has(key) || toldApart.has(key)) continue
        const names = a.name === null || b.name === null ? null : likenessOf(titleForm(a.name), titleForm(b.name))
        const apart = a.lab === null || b.lab === null ? null : deltaE00(a.lab, b.lab)
        if (names === 'far' || names === 'part' || (apart !== null && apart > veryNear)) continue
        const reasons: ThreadReason[] = []
        if (codesReadAlike) reasons.push('codes-read-alike')
        if (names !== null) reasons.push('same-name')
        if (apart !== null) reasons.push('same-colour')
        if (!codesReadAlike && (names !== 'same' || apart === null)) continue
        const [firstId, secondId] = a.id < b.id ? [a.id, b.id] : [b.id, a.id]
        found.set(key, { firstId, secondId, reasons })
      }
  }
  for (const group of grouped(threads, ({ lineId, code }) => `${lineId} ${writtenKey(code)}`).values()) look(group, true)
  const named = threads.filter(({ name }) => name !== null)
  for (const group of grouped(named, ({ lineId, name }) => `${lineId} ${titleForm(name as string).key}`).values())
    look(group, false)
  return [...found.values()].sort((a, b) => b.reasons.length - a.reasons.length || (a.firstId < b.firstId ? -1 : 1))
}
