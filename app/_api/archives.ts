import { z } from 'zod'
import { peopleSheets } from '#lib/db/archive/collection-workbook'
import { operation } from './operation'
import { idText, orNull } from './quantities'

const nameText = z.string().min(1).max(100)

const archiveSchema = z
  .strictObject({
    name: nameText,
    bytes: z.int(),
    madeAt: z.string().meta({ description: 'ISO 8601, UTC.' }),
    href: z.string().meta({ description: 'Where its bytes are had, for some days.' }),
  })
  .meta({ id: 'Archive', description: 'Everything there was at one moment, as one ZIP; its own readme.txt describes it.' })

const tablesSchema = z.array(z.strictObject({ table: z.string(), count: z.int() }))

const givenSchema = z
  .strictObject({
    givenId: z.string(),
    madeAt: z.string(),
    version: z.int(),
    rowCount: z.int(),
    uploadCount: z.int().meta({ description: 'Photos, small ones included, and kept files.' }),
    missingCount: z.int().meta({ description: 'Files that rows name and that were not on the disk when it was written.' }),
    tables: tablesSchema,
    held: tablesSchema.meta({ description: 'What is here now; an archive is brought back only where this is empty.' }),
  })
  .meta({ id: 'GivenArchive' })

const jobSchema = z
  .strictObject({
    jobId: z.string(),
    verb: z.enum(['take-out', 'bring-back']),
    state: z.enum(['running', 'done', 'refused', 'stopped', 'failed']),
    step: z.enum(['rows', 'sheets', 'files']),
    done: z.int(),
    of: z.int().meta({ description: '0 where nobody knows yet how much there is.' }),
    rowCount: orNull(z.int()),
    uploadCount: orNull(z.int()),
    missing: z.array(z.string()),
    archive: orNull(z.strictObject({ name: nameText, href: z.string() })).meta({ description: 'The one that was written.' }),
    refusal: orNull(z.string()).meta({ description: 'Why not, in words. Nothing was changed.' }),
  })
  .meta({ id: 'ArchiveJob' })

export type ArchiveJobAnswer = z.input<typeof jobSchema>
export type GivenArchiveAnswer = z.input<typeof givenSchema>

const exampleName = 'chart-larder-2026-11-30-019ad4d1-6c1e-7bf1-8c4e-3a9b1d2e4f50.zip'
const exampleHref = `/archive/files/${exampleName}`
const exampleJob: ArchiveJobAnswer = {
  ...{ jobId: 'j1', verb: 'take-out', state: 'done', step: 'files', done: 38, of: 38, rowCount: 17_042, uploadCount: 38 },
  ...{ missing: [], archive: { name: exampleName, href: exampleHref }, refusal: null },
}
const begun: ArchiveJobAnswer = {
  ...{ ...exampleJob, state: 'running', step: 'rows', done: 0, of: 0, rowCount: null, uploadCount: null, archive: null },
}
const exampleGiven: GivenArchiveAnswer = {
  ...{ givenId: 'g1', madeAt: '2026-11-30T02:30:00.000Z', version: 1, rowCount: 17_042, uploadCount: 38, missingCount: 0 },
  ...{ tables: [{ table: 'Chart', count: 159 }], held: [] },
}

const group = 'Bring in'
const jobPath = z.strictObject({ jobId: idText })
const givenPath = z.strictObject({ givenId: idText })

export const listArchivesOperation = operation({
  ...{ method: 'get', path: '/archives', id: 'listArchives', group, right: 'keep' },
  summary: 'Archives that can be fetched, and sheets for people',
  answer: z
    .strictObject({
      archives: z.array(archiveSchema),
      sheets: z
        .array(z.strictObject({ sheet: z.enum([...peopleSheets, 'everything']), href: z.string() }))
        .meta({ description: 'XLSX, with prices and notes, put together when they are asked for.' }),
    })
    .meta({ id: 'ArchiveList' }),
  answerMeans: 'Newest first.',
  example: {
    answer: {
      archives: [{ name: exampleName, bytes: 596_900, madeAt: '2026-11-30T02:30:00.000Z', href: exampleHref }],
      sheets: [{ sheet: 'threads' as const, href: '/archive/sheets/threads.xlsx' }],
    },
  },
})

export const writeArchiveOperation = operation({
  ...{ method: 'post', path: '/archives', id: 'writeArchive', group, right: 'keep' },
  summary: 'Begin to write everything there is into one archive',
  description:
    'Every row of every table as of this moment, with photos, kept files and sheets. It goes on in the background; ask for it by its job.',
  answer: jobSchema,
  answerStatus: 201,
  answerMeans: 'Begun.',
  problems: ['refused'],
  example: { answer: begun },
})

export const removeArchiveOperation = operation({
  ...{ method: 'post', path: '/archives/{archiveName}/remove', id: 'removeArchive', group, right: 'keep' },
  summary: 'Remove an archive that was written',
  description: 'The collection stays as it is.',
  pathParameters: z.strictObject({ archiveName: nameText }),
  answer: z.strictObject({ isRemoved: z.literal(true) }).meta({ id: 'ArchiveRemoved' }),
  answerMeans: 'Removed.',
  problems: ['not-found'],
  example: { answer: { isRemoved: true as const } },
})

export const getArchiveJob = operation({
  ...{ method: 'get', path: '/archives/jobs/{jobId}', id: 'getArchiveJob', group, right: 'keep' },
  summary: 'How far an archive is that is written or brought back',
  pathParameters: jobPath,
  answer: jobSchema,
  answerMeans: 'How it stands.',
  problems: ['not-found'],
  example: { answer: exampleJob },
})

export const stopArchiveJobOperation = operation({
  ...{ method: 'post', path: '/archives/jobs/{jobId}/stop', id: 'stopArchiveJob', group, right: 'keep' },
  summary: 'Stop writing an archive or bringing one back',
  description: 'Nothing of it is kept.',
  pathParameters: jobPath,
  answer: jobSchema,
  answerMeans: 'Ended.',
  problems: ['not-found'],
  example: { answer: { ...begun, state: 'stopped' } },
})

export const giveArchiveOperation = operation({
  ...{ method: 'post', path: '/archives/given', id: 'giveArchive', group, right: 'keep' },
  summary: 'Send an archive, to see what is in it',
  description:
    'Nothing is brought back yet; it is kept for a day. One of more than 60 MB goes as application/zip to /archive/given, which takes it straight to the disk and answers with its `givenId`.',
  takesFile: true,
  answer: givenSchema,
  answerStatus: 201,
  answerMeans: 'What it says of itself.',
  problems: ['refused'],
  example: { answer: exampleGiven },
})

export const getGivenArchive = operation({
  ...{ method: 'get', path: '/archives/given/{givenId}', id: 'getGivenArchive', group, right: 'keep' },
  summary: 'What is in an archive that was sent',
  pathParameters: givenPath,
  answer: givenSchema,
  answerMeans: 'What it says of itself.',
  problems: ['not-found', 'refused'],
  example: { answer: exampleGiven },
})

export const bringBackOperation = operation({
  ...{ method: 'post', path: '/archives/given/{givenId}/bring-back', id: 'bringArchiveBack', group, right: 'keep' },
  summary: 'Begin to bring an archive back',
  description:
    'All of it in one change, and only where there is no collection: every row with its id, and every file. The job says when it is done, or why it was refused.',
  pathParameters: givenPath,
  answer: jobSchema,
  answerStatus: 201,
  answerMeans: 'Begun.',
  problems: ['not-found', 'refused'],
  example: { answer: { ...begun, verb: 'bring-back' } },
})

export const archiveOperations = [
  listArchivesOperation,
  writeArchiveOperation,
  removeArchiveOperation,
  getArchiveJob,
  stopArchiveJobOperation,
  giveArchiveOperation,
  getGivenArchive,
  bringBackOperation,
] as const
