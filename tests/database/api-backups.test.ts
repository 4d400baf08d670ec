import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import path from 'node:path'
import { afterAll, beforeAll, expect, it } from 'vitest'
import * as backups from '#api/backups'
import { backupEnded } from '#lib/db/backup/backup-jobs'
import { findBackupFile } from '#lib/db/backup/list-backups'
import { POST as check } from '../../app/api/v1/backups/[backupName]/check/route'
import { POST as remove } from '../../app/api/v1/backups/[backupName]/remove/route'
import { GET as preview, POST as restore } from '../../app/api/v1/backups/[backupName]/restore/route'
import { GET as getJob } from '../../app/api/v1/backups/jobs/[jobId]/route'
import { GET as list, POST as make } from '../../app/api/v1/backups/route'
import { GET as getSettings, POST as saveSettings } from '../../app/api/v1/backups/settings/route'
import { answer, problem } from './api-caller'
import { describeOnEachEngine } from './engines'
import { addSmallWorld } from './small-world'

describeOnEachEngine('backups through the API', ({ open }) => {
  let folder = ''
  const before = process.env.LARDER_DATA

  beforeAll(async () => {
    folder = mkdtempSync(path.join(tmpdir(), 'larder-api-backups-'))
    process.env.LARDER_DATA = folder
    process.env.DATABASE_URL = open().url
    await addSmallWorld(open())
  })
  afterAll(() => {
    delete process.env.DATABASE_URL
    if (before === undefined) delete process.env.LARDER_DATA
    else process.env.LARDER_DATA = before
    rmSync(folder, { recursive: true, force: true })
  })

  it('are made, checked, looked at, restored and removed', { timeout: 120_000 }, async () => {
    const ended = async (jobId: string) => {
      await backupEnded(jobId)
      return answer(backups.getBackupJob, getJob, { parts: { jobId } })
    }
    const begun = await answer(backups.makeBackupOperation, make)
    const made = await ended(begun.jobId)
    expect(made).toMatchObject({ verb: 'make', state: 'done', check: { isGood: true, holds: { charts: 3, threads: 8 } } })
    const backupName = made.backupName as string
    const listed = await answer(backups.listBackupsOperation, list)
    expect(listed).toMatchObject({ trouble: null, runningJobId: null, backups: [{ name: backupName, isBroughtIn: false }] })

    await open().prisma.owner.create({ data: { id: 'o9', name: 'Ines Coldwell', nameKey: 'ines coldwell', kind: 'person' } })
    expect(await answer(backups.previewRestoreOperation, preview, { parts: { backupName } })).toMatchObject({
      held: { movements: await open().prisma.movement.count() },
      since: { movements: 0 },
    })
    expect(await problem(restore, { parts: { backupName }, body: {} })).toMatchObject({ status: 422 })
    const restoring = await answer(backups.restoreBackupOperation, restore, {
      parts: { backupName },
      body: { replacesEverything: true },
    })
    const restored = await ended(restoring.jobId)
    expect(restored).toMatchObject({ state: 'done', refusal: null })
    expect(await findBackupFile(restored.setAside as string)).not.toBeNull()
    expect(await open().prisma.owner.findUnique({ where: { id: 'o9' } })).toBeNull()

    const checking = await answer(backups.checkBackupOperation, check, { parts: { backupName } })
    expect(await ended(checking.jobId)).toMatchObject({ verb: 'check', check: { isGood: true, faults: [] } })
    expect(await answer(backups.removeBackupOperation, remove, { parts: { backupName } })).toEqual({ removed: backupName })
    expect(await problem(check, { parts: { backupName } })).toMatchObject({ status: 404 })
  })

  it('have settings of this machine', async () => {
    const settings = await answer(backups.getBackupSettingsOperation, getSettings)
    expect(settings).toEqual({ isScheduled: true, hour: '02:30', folder: null, keeping: { days: 7, weeks: 5, months: 12 } })
    const other = { ...settings, isScheduled: false, hour: '23:05', keeping: { days: 3, weeks: 2, months: 1 } }
    expect(await answer(backups.saveBackupSettingsOperation, saveSettings, { body: other })).toEqual(other)
    expect(await problem(saveSettings, { body: { ...other, folder: path.join(folder, 'nowhere') } })).toMatchObject({
      status: 409,
    })
    expect(await problem(saveSettings, { body: { ...other, hour: '25:00' } })).toMatchObject({ status: 422 })
    expect(await answer(backups.getBackupSettingsOperation, getSettings)).toEqual(other)
  })
})
