import { z } from 'zod'
import { fileRoles } from '#lib/db/file/keep-file'
import { filedNouns } from '#lib/db/file/kept-thing'
import { flagQuery, namedSchema, ownerQuery } from './collection'
import { operation } from './operation'
import { idText } from './quantities'

const fileSchema = z
  .strictObject({
    fileId: z.string(),
    version: z.int(),
    role: z.enum(fileRoles),
    owner: namedSchema,
    name: z.string(),
    mime: z.string(),
    bytes: z.int(),
    pages: z.int().nullable(),
    addedAt: z.string().meta({ description: 'ISO 8601, UTC.' }),
    isGone: z.boolean().meta({ description: 'Taken off; it can be brought back.' }),
    href: z.string().meta({ description: 'Where its bytes are had, by whoever looks after its owner’s goods.' }),
  })
  .meta({ id: 'KeptFile', description: 'A digital chart, for its owner’s own use, or a receipt.' })

export type FileAnswer = z.input<typeof fileSchema>

const exampleFile: FileAnswer = {
  ...{ fileId: 'f1', version: 0, role: 'chart', owner: { id: 'o1', name: 'Hanne Drewitt' }, name: 'salt-road.pdf' },
  ...{ mime: 'application/pdf', bytes: 182_400, pages: 6, addedAt: '2026-09-08T09:30:00.000Z', isGone: false, href: '/files/f1' },
}

const group = 'Bring in'
const thing = { noun: z.enum(filedNouns), thingId: idText }

const listFilesOperation = operation({
  ...{ method: 'get', path: '/files', id: 'listFiles', group },
  summary: 'The files kept with a thing',
  description: 'Only those of the owners asked about: a digital chart is nobody else’s to see.',
  query: z.strictObject({ ...ownerQuery, ...thing }),
  answer: z.strictObject({ files: z.array(fileSchema) }).meta({ id: 'FileList' }),
  answerMeans: 'Its files, oldest first; those taken off last.',
  example: { answer: { files: [exampleFile] } },
})

const keepFileOperation = operation({
  ...{ method: 'post', path: '/files', id: 'keepFile', group },
  summary: 'Keep a file with a chart, or a receipt with a thing',
  description: 'Send the file as the part `file` of a form. The same file again is told.',
  query: z.strictObject({
    ...thing,
    role: z.enum(fileRoles),
    'is-another': flagQuery.default(false).meta({ description: 'It is known that the same file is kept with something else.' }),
  }),
  takesFile: true,
  answer: fileSchema,
  answerStatus: 201,
  answerMeans: 'The file.',
  problems: ['not-found', 'refused'],
  example: { answer: exampleFile },
})

const onFile = {
  pathParameters: z.strictObject({ fileId: idText }),
  group,
  query: z.strictObject(ownerQuery),
  answer: fileSchema,
  answerMeans: 'The file as it is now.',
} as const

const getFileOperation = operation({
  ...onFile,
  ...{ method: 'get', path: '/files/{fileId}', id: 'getFile' },
  summary: 'One kept file',
  problems: ['not-found'],
  example: { answer: exampleFile },
})

const version = z.int().min(0).optional().meta({ description: 'The version last seen; left out, it is taken as it stands.' })
const changeBody = z.strictObject({ version }).meta({ id: 'FileChangeRequest' })

const removeFileOperation = operation({
  ...onFile,
  ...{ method: 'post', path: '/files/{fileId}/remove', id: 'removeFile' },
  summary: 'Take a file off',
  description: 'Its bytes stay, so that it can be brought back.',
  body: changeBody,
  problems: ['not-found', 'refused'],
  example: { body: {}, answer: { ...exampleFile, version: 1, isGone: true } },
})

const restoreFileOperation = operation({
  ...onFile,
  ...{ method: 'post', path: '/files/{fileId}/restore', id: 'restoreFile' },
  summary: 'Bring a file back',
  body: changeBody,
  problems: ['not-found', 'refused'],
  example: { body: {}, answer: { ...exampleFile, version: 2 } },
})

export const fileOperations = {
  list: listFilesOperation,
  keep: keepFileOperation,
  get: getFileOperation,
  remove: removeFileOperation,
  restore: restoreFileOperation,
} as const
