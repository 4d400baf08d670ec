import { describe, expect, it } from 'vitest'
import { type Concerned, type Fault, type FaultFacts, type FaultKind, faultKinds, repairsOf } from '#lib/checking/fault'
import type { CheckResult } from '#lib/db/checking/check-collection'
import { lookedWords, verdictWords } from '#words/checking'
import { byWeight, describeFault, faultHref, ownWayOut } from '#words/fault'
import { describeRepairRefusal, outcomeWords, previewRepair } from '#words/repair'

const about: Concerned = { noun: 'batch', id: 'b1', name: 'Larkholm 0017, lot 22', linkId: 't1' }
const amount = (whole: number, partStrandTenths = 0) => ({ whole, partStrandTenths })

/** One of each kind. */
const facts: { [Kind in FaultKind]: Extract<FaultFacts, { kind: Kind }> } = {
  'stock-differs': { kind: 'stock-differs', noun: 'batch', held: amount(5), journal: amount(3, 120_000), isGone: false },
  'below-nothing': { kind: 'below-nothing', noun: 'notion', held: amount(-1) },
  'gone-holds': { kind: 'gone-holds', held: amount(2), journal: amount(0) },
  'in-gone-place': { kind: 'in-gone-place', home: 'T1', current: null },
  'out-differs': { kind: 'out-differs', isAway: true },
  'place-in-circle': { kind: 'place-in-circle', labels: ['Room', 'T1'] },
  'place-in-gone-place': { kind: 'place-in-gone-place', inside: 'Old room' },
  'place-path-differs': { kind: 'place-path-differs' },
  'bag-gone': { kind: 'bag-gone', label: 'K-01' },
  'promise-closed': { kind: 'promise-closed', promiseId: 'p1', project: 'Nine Wrens', status: 'finished', isGone: false },
  'promise-beyond': {
    kind: 'promise-beyond',
    projects: ['Nine Wrens', 'Acorn Reckoner'],
    why: 'not-enough',
    promises: [{ promiseId: 'p1', keepsStrandTenths: 0 }],
  },
  'lent-elsewhere': { kind: 'lent-elsewhere', lineId: 'l1', withWhom: 'Ines Coldwell', why: 'elsewhere' },
  'lent-twice': { kind: 'lent-twice', withWhom: ['Ines Coldwell', 'Corrie Dunn'], lineIds: ['l1'] },
  'lender-gone': { kind: 'lender-gone', withWhom: 'Ines Coldwell' },
  'unlent-with-somebody': { kind: 'unlent-with-somebody', withWhom: 'Ines Coldwell' },
  'looked-for-here': { kind: 'looked-for-here', askedId: 'q1', isGone: false },
  'looked-for-twice': { kind: 'looked-for-twice', askedIds: ['q1'] },
  'put-back-twice': { kind: 'put-back-twice', walks: ['Monday', 'Tuesday'] },
  'cut-twice': { kind: 'cut-twice', thread: 'Larkholm 0017', bag: 4 },
  'cut-beyond': { kind: 'cut-beyond', thread: 'Larkholm 0017', bag: 6, quantity: 5 },
  'work-below-nothing': { kind: 'work-below-nothing', stitchesDone: -4, hoursTenths: 25 },
  'work-no-day': { kind: 'work-no-day', day: '2026-02-30' },
  'occasion-gone': { kind: 'occasion-gone', occasionKey: 'o1' },
  'label-of-nothing': { kind: 'label-of-nothing', text: '0017' },
  'told-apart-gone': { kind: 'told-apart-gone' },
  'revision-behind': { kind: 'revision-behind', revision: 1_200, latest: 1_204 },
  'broken-links': { kind: 'broken-links', column: 'chartId', names: 'Chart', count: 2 },
  'rule-broken': { kind: 'rule-broken', says: 'CHECK constraint failed in Notion' },
  'database-damaged': { kind: 'database-damaged', says: 'row 3 missing from index' },
  'file-missing': { kind: 'file-missing', table: 'Chart', column: 'coverFile', file: 'a.webp', folder: 'photos' },
  'thumb-missing': { kind: 'thumb-missing', file: 'a.webp' },
  'file-unnamed': { kind: 'file-unnamed', bytes: 12_000 },
  'half-written': { kind: 'half-written', bytes: 12_000 },
  'staged-old': { kind: 'staged-old', bytes: 12_000 },
  'snapshot-differs': { kind: 'snapshot-differs', lists: 1, of: 158 },
  'answers-differ': { kind: 'answers-differ', designs: 2, of: 158 },
}
const fault = (kind: FaultKind): Fault => ({ ...facts[kind], id: kind, about })

describe.each(faultKinds)('a fault of the kind %s', (kind) => {
  it('is told in a sentence, and each thing to be done about it says what it would change', () => {
    expect(describeFault(fault(kind))).toMatch(/^[A-Z0-9].*\.$/)
    const repairs = repairsOf(facts[kind])
    for (const repair of repairs) expect(previewRepair(fault(kind), repair)).toMatch(/^[A-Z].*\.$/)
    // Where nothing is offered, what a person can do is said.
    if (repairs.length === 0) expect(ownWayOut(kind)).toMatch(/\.$/)
  })
})

describe('what a fault is told by', () => {
  it('has its figures in the units she counts in', () => {
    expect(describeFault(fault('stock-differs'))).toBe(
      'The record says 5 put-ups; the journal adds up to 3 put-ups and 12 m of strand.',
    )
    expect(describeFault(fault('work-below-nothing'))).toBe('Its totals are -4 stitches and 2.5 h.')
  })

  it('names the projects that go without', () => {
    expect(describeFault(fault('promise-beyond'))).toContain('Nine Wrens and Acorn Reckoner do not get')
    expect(previewRepair(fault('promise-beyond'), 'let-go')).toContain('Nine Wrens and Acorn Reckoner keep')
  })

  it('leads to the page of its thing, where that has one', () => {
    expect(faultHref(about)).toBe('/threads/t1')
    expect(faultHref({ ...about, noun: 'disk', linkId: null })).toBeNull()
  })
})

describe('the verdict', () => {
  const result = (counts: CheckResult['counts'], over: Partial<CheckResult> = {}): CheckResult => ({
    ...{ at: '2026-11-30T10:00:00.000Z', seconds: 2.6, engine: 'sqlite', faults: [], counts, isWhole: true },
    looked: {
      movements: 1_234,
      things: 960,
      places: 1,
      promises: 0,
      files: 42,
      snapshot: null,
      answers: { looked: 158, of: 158 },
    },
    ...over,
  })

  it('says that all is well, and what only wants a look', () => {
    expect(verdictWords(result({}))).toBe('All is well: 1,234 movements add up')
    expect(verdictWords(result({ 'file-unnamed': 1 }))).toBe('All is well: 1,234 movements add up, and 1 thing is worth a look')
  })

  it('says what was found, and when it was broken off', () => {
    expect(verdictWords(result({ 'stock-differs': 2, 'file-unnamed': 3 }))).toBe(
      'Found 2 things that must not be and 3 things worth a look',
    )
    expect(verdictWords(result({}, { isWhole: false }))).toBe('Broken off before the end: nothing found by then')
  })

  it('says what was looked at, and whether it was a sample', () => {
    const [what, , , answers] = lookedWords(result({}))
    expect(what).toBe('1,234 movements held against 960 things, 1 place, 0 promises and 42 files, in 3 seconds.')
    expect(answers).toBe('Of the answers in memory, all 158 designs.')
    const sampled = result({})
    sampled.looked.answers = { looked: 2_000, of: 20_000 }
    expect(lookedWords(sampled)[3]).toBe('Of the answers in memory, a sample of 2,000 of 20,000 designs.')
  })

  it('puts what must not be first', () => {
    expect((['file-unnamed', 'thumb-missing', 'stock-differs'] as const).toSorted(byWeight)).toEqual([
      ...['thumb-missing', 'stock-differs', 'file-unnamed'],
    ])
  })
})

it('says of a repair what came of it', () => {
  expect(outcomeWords('bring-back', { ok: true, value: { backup: 'larder-20261130.zip' } })).toBe(
    'Brought back from larder-20261130.zip.',
  )
  for (const kind of ['not-offered', 'no-longer-there', 'changed-meanwhile', 'in-no-backup', 'photo-unreadable'] as const)
    expect(describeRepairRefusal({ kind })).toMatch(/\.$/)
})
