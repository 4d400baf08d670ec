import { describe, expect, it } from 'vitest'
import { type Trouble, troubleOf } from '#lib/db/trouble'
import { describeTrouble, digestOfTrouble, troubleOfDigest } from '#words/trouble'

/** As libsql, pg, Prisma's adapters and Node's file system word them. */
const seen: [Trouble | null, unknown][] = [
  ['full', Object.assign(new Error('ENOSPC: no space left on device, write'), { code: 'ENOSPC' })],
  [
    'full',
    Object.assign(new Error('x'), { cause: { kind: 'sqlite', originalMessage: 'SQLITE_FULL: database or disk is full' } }),
  ],
  ['full', Object.assign(new Error('could not extend file "base/1/2"'), { code: '53100' })],
  ['busy', new Error('SQLITE_BUSY: database is locked')],
  [
    'busy',
    Object.assign(new Error('Database error'), {
      code: 'P2039',
      meta: { driverAdapterError: { cause: { originalCode: '55P03' } } },
    }),
  ],
  [
    'busy',
    Object.assign(new Error('Transaction API error: Unable to start a transaction in the given time.'), { code: 'P2028' }),
  ],
  ['away', new Error('ConnectionFailed("Unable to open connection to local database /x/larder.db: 14")')],
  ['away', Object.assign(new AggregateError([Object.assign(new Error(''), { code: 'ECONNREFUSED' })]), { cause: undefined })],
  ['away', Object.assign(new Error('terminating connection due to administrator command'), { code: '57P01' })],
  ['away', Object.assign(new Error('The table `main.Revision` does not exist'), { code: 'P2021' })],
  [null, Object.assign(new Error('Unique constraint failed'), { code: 'P2002' })],
  [null, new TypeError('x is not a function')],
  [null, null],
  [null, 'full'],
]

describe('what keeps the program from its work', () => {
  it('is told from a fault of the program, however deep it is wrapped', () => {
    for (const [trouble, error] of seen) expect(troubleOf(error), String(error)).toBe(trouble)
    const round: { cause?: unknown } = {}
    round.cause = round
    expect(troubleOf(round)).toBeNull()
  })

  it('has a sentence each, and a word that a page’s error is known by', () => {
    const words = (['full', 'busy', 'away'] as const).map((trouble) => {
      expect(troubleOfDigest(digestOfTrouble(trouble))).toBe(trouble)
      return describeTrouble(trouble)
    })
    expect(new Set(words).size).toBe(3)
    expect([troubleOfDigest(undefined), troubleOfDigest('123456')]).toEqual([null, null])
  })
})
