import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import path from 'node:path'
import { afterAll, beforeAll, expect, it } from 'vitest'
import { bringIn } from '#lib/db/importing/bring-in'
import type { ImportProgress } from '#lib/db/importing/import-service'
import { stageFile } from '#lib/db/importing/stage-file'
import { undoImport } from '#lib/db/importing/undo-import'
import { describeOnEachEngine } from './engines'

describeOnEachEngine('a file of 6,000 rows', ({ open }) => {
  const folder = mkdtempSync(path.join(tmpdir(), 'larder-large-'))
  beforeAll(() => {
    process.env.LARDER_DATA = folder
  })
  afterAll(() => {
    delete process.env.LARDER_DATA
    rmSync(folder, { recursive: true, force: true })
  })

  it('comes in whole with its progress told, all but its one bad row, and can be taken back', { timeout: 180_000 }, async () => {
    const rows = Array.from(
      { length: 6_000 },
      (_, at) => `Larkholm,Cotton ${at % 7},${at},${at === 9 ? 'nine' : 1 + (at % 5)},Box ${at % 40}`,
    )
    const { stagedId } = await stageFile(
      'large.csv',
      new TextEncoder().encode(['Maker,Line,Code,Skeins,Place', ...rows].join('\n')),
    )
    const told: ImportProgress[] = []
    const result = await bringIn(stagedId, { ownerName: 'Nell Oxtoby' }, (progress) => told.push(progress))
    if (!result.ok) throw new Error(JSON.stringify(result.error))
    expect(result.value.counts).toEqual({ added: 5_999, changed: 0, same: 0, refused: 1 })
    expect(told.filter((progress) => progress.state === 'running' && progress.step === 'writing').length).toBeGreaterThan(10)

    const { prisma } = open()
    const held = { where: { goneAt: null } }
    const expected = rows.reduce((sum, _, at) => (at === 9 ? sum : sum + 1 + (at % 5)), 0)
    expect((await prisma.batch.aggregate({ ...held, _sum: { wholePutUps: true } }))._sum.wholePutUps).toBe(expected)
    expect((await prisma.movement.aggregate({ _sum: { wholeDelta: true } }))._sum.wholeDelta).toBe(expected)
    expect(await prisma.place.count(held)).toBe(40)

    expect(await undoImport(result.value.importId)).toMatchObject({ ok: true, value: { left: [] } })
    expect(await prisma.batch.count(held)).toBe(0)
    expect((await prisma.movement.aggregate({ _sum: { wholeDelta: true } }))._sum.wholeDelta).toBe(0)
  })
})
