import { expect, it } from 'vitest'
import { describeMoveRefusal, moveTable } from '#words/moving'

const sum = (rows: number, sha256: string) => ({ rows, sha256: sha256.padEnd(64, '0') })

it('shows tables side by side, and which differ', () => {
  const lines = moveTable([
    { table: 'Batch', here: sum(1_234, 'aa'), there: sum(1_234, 'aa') },
    { table: 'Place', here: sum(2, 'bb'), there: sum(2, 'bc') },
    { table: 'Loan', here: sum(0, 'e3'), there: sum(0, 'e3') },
  ])
  expect(lines).toHaveLength(4)
  expect(lines[0]).toMatch(/^ +SQLite +PostgreSQL$/)
  expect(lines[1]).toMatch(/^Batch +1,234 · aa0000000000 +1,234 · aa0000000000 {2}the same$/)
  expect(lines[2]).toMatch(/^Place .*2 · bc0000000000 {2}DIFFERS$/)
  expect(lines[3]).toBe('1 more table: empty on both sides')
})

it('says of every refusal what to do', () => {
  expect(describeMoveRefusal({ kind: 'not-sound', count: 1_200 })).toContain('npm run check')
  expect(describeMoveRefusal({ kind: 'not-empty', table: 'Owner' })).toContain('Owner')
  expect(describeMoveRefusal({ kind: 'not-to-postgresql' })).toContain('--to postgres://')
})
