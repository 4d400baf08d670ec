import { pairKey } from './doubles-suggested'
import { formKeys, isInitialled, likenessOf, nameForm, pairsSharing } from './likeness'

export type NameReason = 'same-name' | 'near-name' | 'name-in-name' | 'initials'

export type SuggestedNames = { firstId: string; secondId: string; reason: NameReason }

const mostSharing = 60
const reasonOrder: readonly NameReason[] = ['same-name', 'initials', 'near-name', 'name-in-name']
const reasonOf = { same: 'same-name', near: 'near-name', part: 'name-in-name' } as const

/**
 * Names that may be two spellings of one: of designers, makers, or the lines of a maker.
 *
 * @param toldApart  by `pairKey`
 * @returns  the surest first; ties by name
 */
export function suggestNames(names: readonly { id: string; name: string }[], toldApart: ReadonlySet<string>): SuggestedNames[] {
  const forms = names.map(({ name }) => nameForm(name))
  const found: (SuggestedNames & { order: string })[] = []
  for (const [left, right] of pairsSharing(
    forms.map((form) => [...formKeys('name', form)]),
    mostSharing,
  )) {
    const [a, b] = [names[left], names[right]] as [{ id: string; name: string }, { id: string; name: string }]
    const [formA, formB] = [forms[left], forms[right]] as [(typeof forms)[0], (typeof forms)[0]]
    const alike = likenessOf(formA, formB)
    const reason = alike !== 'far' ? reasonOf[alike] : isInitialled(formA, formB) ? 'initials' : null
    if (reason === null || toldApart.has(pairKey(a.id, b.id))) continue
    const [firstId, secondId] = a.id < b.id ? [a.id, b.id] : [b.id, a.id]
    found.push({ firstId, secondId, reason, order: [a.name, b.name].sort().join('\n') })
  }
  return found
    .sort((a, b) => reasonOrder.indexOf(a.reason) - reasonOrder.indexOf(b.reason) || (a.order < b.order ? -1 : 1))
    .map(({ order: _order, ...pair }) => pair)
}
