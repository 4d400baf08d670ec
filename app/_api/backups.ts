import { z } from 'zod'
import { backupKinds } from '#lib/backup/manifest'
import { hourShape } from '#lib/backup/schedule'
import { operation } from './operation'
import { idText, orNull } from './quantities'

const nameText = z.string().max(80).meta({ description: 'The name of its file.', example: 'larder-20261130-023000-3fa9.zip' })
const namePath = z.strictObject({ backupName: nameText })

const holdsSchema = z
  .strictObject({
    ...{ charts: z.int(), threads: z.int(), cloth: z.int(), notions: z.int(), places: z.int(), projects: z.int() },
    ...{ movements: z.int(), photos: z.int(), files: z.int() },
  })
  .meta({ id: 'BackupHolds', description: 'How many of each it holds, without what was removed.' })

const checkSchema = z
  .strictObject({
    at: z.string(),
    isGood: z.boolean(),
    canRestore: z.boolean().meta({ description: 'Faults that the collection itself had are no hindrance.' }),
    faults: z.array(z.string()),
    holds: orNull(holdsSchema),
  })
  .meta({ id: 'BackupCheck', description: 'What was found when it was restored to a scratch place.' })

const backupSchema = z
  .strictObject({
    name: nameText,
    madeAt: z.string().meta({ description: 'ISO 8601, UTC.' }),
    kind: z.enum(backupKinds),
    isBroughtIn: z.boolean(),
    bytes: z.int(),
    check: orNull(checkSchema).meta({ description: 'Null while nobody looked.' }),
    download: z.string().meta({ description: 'Where its file is had, under this server’s address.' }),
  })
  .meta({ id: 'Backup' })

const jobSchema = z
  .strictObject({
    jobId: z.string(),
    verb: z.enum(['make', 'check', 'restore']),
    state: z.enum(['running', 'done', 'refused', 'stopped', 'failed']),
    step: z.string(),
    doneBytes: z.int(),
    ofBytes: z.int().meta({ description: '0 where nobody knows how much there is.' }),
    backupName: orNull(z.string()).meta({ description: 'Of the backup made, checked or restored.' }),
    setAside: orNull(z.string()).meta({ description: 'After a restore: the backup of what was there before.' }),
    check: orNull(checkSchema),
    refusal: orNull(z.string()),
  })
  .meta({ id: 'BackupJob' })

const exampleHolds = {
  ...{ charts: 158, threads: 700, cloth: 90, notions: 12, places: 69, projects: 59, movements: 1_204, photos: 38, files: 4 },
}
const exampleCheck = { at: '2026-11-30T02:30:09.000Z', isGood: true, canRestore: true, faults: [], holds: exampleHolds }
const exampleName = 'larder-20261130-023000-3fa9.zip'
const exampleBackup = {
  ...{ name: exampleName, madeAt: '2026-11-30T02:30:00.000Z', kind: 'scheduled' as const, isBroughtIn: false },
  ...{ bytes: 1_288_989, check: exampleCheck, download: `/settings/backups/${exampleName}/file` },
}
const exampleJob = {
  ...{ jobId: 'j1', verb: 'make' as const, state: 'running' as const, step: 'packing', doneBytes: 65_536, ofBytes: 6_287_360 },
  ...{ backupName: null, setAside: null, check: null, refusal: null },
}

export const listBackupsOperation = operation({
  method: 'get',
  path: '/backups',
  id: 'listBackups',
  right: 'keep',
  group: 'Service',
  summary: 'The backups there are, and how the last one went',
  answer: z
    .strictObject({
      folder: z.string(),
      trouble: orNull(z.string()).meta({ description: 'Why there is no good backup of late; null when all is well.' }),
      runningJobId: orNull(z.string()),
      backups: z.array(backupSchema),
    })
    .meta({ id: 'BackupList' }),
  answerMeans: 'Newest first.',
  example: { answer: { folder: '/srv/larder/backups', trouble: null, runningJobId: null, backups: [exampleBackup] } },
})

export const makeBackupOperation = operation({
  method: 'post',
  path: '/backups',
  id: 'makeBackup',
  right: 'keep',
  group: 'Service',
  summary: 'Make a backup',
  description:
    'Of database and files together, while others work; then checked by restoring it to a scratch place. Goes on in the background: ask for the job.',
  answer: jobSchema,
  answerMeans: 'Begun.',
  problems: ['refused'],
  example: { answer: { ...exampleJob, step: 'copying', doneBytes: 0, ofBytes: 0 } },
})

export const getBackupJob = operation({
  method: 'get',
  path: '/backups/jobs/{jobId}',
  id: 'getBackupJob',
  right: 'keep',
  group: 'Service',
  summary: 'How the making, checking or restoring of a backup stands',
  pathParameters: z.strictObject({ jobId: idText }),
  answer: jobSchema,
  answerMeans: 'As it stands.',
  problems: ['not-found'],
  example: { answer: exampleJob },
})

export const stopBackupJobOperation = operation({
  method: 'post',
  path: '/backups/jobs/{jobId}/stop',
  id: 'stopBackupJob',
  right: 'keep',
  group: 'Service',
  summary: 'Stop it: nothing half made stays',
  pathParameters: z.strictObject({ jobId: idText }),
  answer: jobSchema,
  answerMeans: 'Ended.',
  problems: ['not-found'],
  example: { answer: { ...exampleJob, state: 'stopped' as const } },
})

export const checkBackupOperation = operation({
  method: 'post',
  path: '/backups/{backupName}/check',
  id: 'checkBackup',
  right: 'keep',
  group: 'Service',
  summary: 'Check a backup by restoring it to a scratch place',
  pathParameters: namePath,
  answer: jobSchema,
  answerMeans: 'Begun.',
  problems: ['not-found', 'refused'],
  example: { answer: { ...exampleJob, verb: 'check' as const, step: 'checking', backupName: exampleName } },
})

export const previewRestoreOperation = operation({
  method: 'get',
  path: '/backups/{backupName}/restore',
  id: 'previewRestore',
  right: 'keep',
  group: 'Service',
  summary: 'What a backup holds, and what would be lost since',
  pathParameters: namePath,
  answer: z
    .strictObject({
      backup: backupSchema,
      held: holdsSchema,
      present: holdsSchema,
      since: orNull(z.strictObject({ writes: z.int(), movements: z.int(), lastAt: orNull(z.string()) })).meta({
        description: 'What came after it, and would be lost; null where the collection here has another past.',
      }),
    })
    .meta({ id: 'RestoreOutlook' }),
  answerMeans: 'The backup beside the collection that is here.',
  problems: ['not-found'],
  example: {
    answer: {
      ...{ backup: exampleBackup, held: exampleHolds, present: { ...exampleHolds, movements: 1_213 } },
      since: { writes: 6, movements: 9, lastAt: '2026-11-30T09:12:44.000Z' },
    },
  },
})

export const restoreBackupOperation = operation({
  method: 'post',
  path: '/backups/{backupName}/restore',
  id: 'restoreBackup',
  right: 'keep',
  group: 'Service',
  summary: 'Put a backup in the place of the collection that is here',
  description:
    'The backup is checked, what is here is set aside as a backup of its own, and then all of it is replaced at once. Writes wait until it is over.',
  pathParameters: namePath,
  body: z
    .strictObject({ replacesEverything: z.literal(true).meta({ description: 'That it is meant.' }) })
    .meta({ id: 'RestoreRequest' }),
  answer: jobSchema,
  answerMeans: 'Begun.',
  problems: ['not-found', 'refused'],
  example: {
    body: { replacesEverything: true },
    answer: { ...exampleJob, verb: 'restore' as const, step: 'checking', backupName: exampleName },
  },
})

export const removeBackupOperation = operation({
  method: 'post',
  path: '/backups/{backupName}/remove',
  id: 'removeBackup',
  right: 'keep',
  group: 'Service',
  summary: 'Take a backup off the disk',
  pathParameters: namePath,
  answer: z.strictObject({ removed: z.string() }).meta({ id: 'BackupRemoved' }),
  answerMeans: 'Gone.',
  problems: ['not-found'],
  example: { answer: { removed: exampleName } },
})

export const bringInBackupOperation = operation({
  method: 'post',
  path: '/backups/brought-in',
  id: 'bringInBackup',
  right: 'keep',
  group: 'Service',
  summary: 'Keep a backup that comes from elsewhere',
  description:
    'Send the ZIP as the part `file` of a form. It is listed and not checked yet. One larger than a form takes is copied into the folder of backups instead.',
  takesFile: true,
  answer: backupSchema,
  answerStatus: 201,
  answerMeans: 'Kept; the collection is not touched.',
  problems: ['refused'],
  example: { answer: { ...exampleBackup, isBroughtIn: true, check: null } },
})

const settingsSchema = z
  .strictObject({
    isScheduled: z.boolean(),
    hour: z.string().regex(hourShape).meta({ description: 'HH:MM by the machine’s clock.' }),
    folder: orNull(z.string().min(1).max(1_000)).meta({ description: 'Null: `backups` in the data folder.' }),
    keeping: z
      .strictObject({ days: z.int().min(1).max(366), weeks: z.int().min(1).max(260), months: z.int().min(1).max(240) })
      .meta({
        description: 'The last of each of so many days, weeks and months that have one.',
      }),
  })
  .meta({ id: 'BackupSettings' })
const exampleSettings = { isScheduled: true, hour: '02:30', folder: null, keeping: { days: 7, weeks: 5, months: 12 } }

export const getBackupSettingsOperation = operation({
  method: 'get',
  path: '/backups/settings',
  id: 'getBackupSettings',
  right: 'keep',
  group: 'Service',
  summary: 'When and where backups are made, and how many are kept',
  answer: settingsSchema,
  answerMeans: 'As they are on this machine.',
  example: { answer: exampleSettings },
})

export const saveBackupSettingsOperation = operation({
  method: 'post',
  path: '/backups/settings',
  id: 'saveBackupSettings',
  right: 'keep',
  group: 'Service',
  summary: 'Change when and where backups are made, and how many are kept',
  body: settingsSchema,
  answer: settingsSchema,
  answerMeans: 'Kept.',
  problems: ['refused'],
  example: { body: exampleSettings, answer: exampleSettings },
})

export const backupOperations = [
  listBackupsOperation,
  makeBackupOperation,
  getBackupJob,
  stopBackupJobOperation,
  checkBackupOperation,
  previewRestoreOperation,
  restoreBackupOperation,
  removeBackupOperation,
  bringInBackupOperation,
  getBackupSettingsOperation,
  saveBackupSettingsOperation,
] as const
