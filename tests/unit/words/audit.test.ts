import { describe, expect, it } from 'vitest'
import { auditKinds, auditWhats } from '#lib/access/audit'
import type { AuditLine } from '#lib/db/access/list-audit'
import { auditKindWords, auditWords, doerWords, touchedWords } from '#words/audit'

const line = (more: Partial<AuditLine>): AuditLine => ({
  id: '1',
  at: new Date(0),
  kind: 'sign-in',
  what: 'password',
  accountId: 'corrie',
  accountName: 'Corrie Dunn',
  address: '',
  detail: {},
  revision: null,
  ...more,
})

it('has words for whatever the log tells apart, and none twice of a kind', () => {
  for (const kind of auditKinds) {
    expect(auditKindWords[kind]).not.toBe('')
    const said = auditWhats[kind].map((what) => auditWords(line({ kind, what, detail: { accountId: 'ines', name: 'Ines' } })))
    expect(new Set(said).size).toBe(said.length)
  }
})

it('says whose it was, of a later program’s lines as much as it can', () => {
  const onInes = { accountId: 'ines', name: 'Ines Coldwell' }
  const account = (what: string, detail: AuditLine['detail']) => auditWords(line({ kind: 'account', what, detail }))
  expect(account('password-set', onInes)).toBe('Set Ines Coldwell’s password')
  expect(account('password-set', { accountId: 'corrie', name: 'Corrie Dunn' })).toBe('Set their own password')
  expect(account('added', { ...onInes, role: 'helper' })).toBe('Added Ines Coldwell as helper')
  expect(account('changed', { ...onInes, formerName: 'Ines Dale', role: 'keeper' })).toBe(
    'Changed Ines Dale, now Ines Coldwell: keeper',
  )
  expect(account('knighted', onInes)).toBe('People: knighted')
  expect(auditWords(line({ kind: 'refused', what: 'wrong-passkey', detail: { why: 'copied', label: 'Desk' } }))).toBe(
    'Passkey “Desk” not taken: there is a copy of it',
  )
})

it('names the doer as they were, or what stands in their place', () => {
  expect(doerWords(line({}))).toBe('Corrie Dunn')
  expect(doerWords(line({ accountId: null, accountName: 'admin', kind: 'refused' }))).toBe('“admin”')
  expect(doerWords(line({ accountId: null, accountName: '', kind: 'refused' }))).toBe('somebody unknown')
  expect(doerWords(line({ accountId: null, accountName: '', kind: 'account' }))).toBe('at the machine itself')
})

describe('what a change touched', () => {
  it('is counted by what it was', () => {
    const touched = [
      { noun: 'batch', count: 3 },
      { noun: 'cloth', count: 1 },
      { noun: 'standIn', count: 2 },
    ]
    expect(touchedWords(touched)).toBe('3 batches of thread, 1 piece of cloth and 2 stand-ins')
    expect(touchedWords([{ noun: 'everything', count: 1 }])).toBe('the whole collection')
    expect(auditWords(line({ kind: 'change', what: 'written', detail: { nouns: { place: 1 } } }))).toBe('Changed 1 place')
    expect(auditWords(line({ kind: 'change', what: 'written', detail: { nouns: 'no' } }))).toBe('Changed what is on record')
  })
})
