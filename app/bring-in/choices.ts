import { z } from 'zod'
import { say } from '#language/say'
import type { ImportChoices } from '#lib/db/importing/import-service'
import { importKinds } from '#lib/importing/fields'
import { fileTitle } from '#lib/importing/file-title'
import { mappingSchema, readingSchema } from '#lib/importing/mapping'
import { separators } from '#lib/importing/sniff-separator'

const choicesSchema = z
  .object({
    kind: z.enum(importKinds).optional(),
    separator: z.enum(separators).optional(),
    reading: readingSchema.optional(),
    mapping: mappingSchema.optional(),
    ownerName: z.string().trim().min(1).max(100).optional(),
  })
  .refine(({ kind, mapping }) => mapping === undefined || mapping.kind === kind, {
    error: () => say('the mapping is for another kind'),
  })

/** Choices as one text, for an address or an unseen field; columns a file has not are left out to keep it short. */
export function writeChoices({ mapping, ...choices }: ImportChoices): string {
  const columns = Object.entries(mapping?.columns ?? {}).filter(([, index]) => index !== null)
  return JSON.stringify(mapping ? { ...choices, mapping: { ...mapping, columns: Object.fromEntries(columns) } } : choices)
}

/** What cannot be read counts as no choice at all: the file is then read as it looks. */
export function parseChoices(text: unknown): ImportChoices {
  const read = choicesSchema.safeParse(parseJson(text))
  return read.success ? read.data : {}
}

/** A file chosen together with others, or a sheet of one, waiting for its turn. */
export type WaitingFile = { stagedId: string; fileName: string; sheet?: string }

/** What goes along from page to page: how the file is read, and which files come after it. */
export type Errand = { stagedId: string | null; choices: ImportChoices; waiting: WaitingFile[] }

const stagedIdSchema = z.string().regex(/^[\w-]{1,64}$/)
const waitingSchema = z.array(z.tuple([stagedIdSchema, z.string().max(200), z.string().max(200).optional()])).max(100)

export function parseErrand(search: { from?: unknown; read?: unknown; next?: unknown }): Errand {
  const from = stagedIdSchema.safeParse(search.from)
  const next = waitingSchema.safeParse(parseJson(search.next))
  return {
    stagedId: from.success ? from.data : null,
    choices: parseChoices(search.read),
    waiting: next.success
      ? next.data.map(([stagedId, fileName, sheet]) => ({ stagedId, fileName, ...(sheet !== undefined && { sheet }) }))
      : [],
  }
}

/** The errand as a query: empty, or beginning with a question mark. */
export function errandQuery({ stagedId, choices, waiting }: Errand): string {
  const read = writeChoices(choices)
  const query = new URLSearchParams({
    ...(stagedId !== null && { from: stagedId }),
    ...(read !== '{}' && { read }),
    ...writeWaiting(waiting),
  }).toString()
  return query === '' ? '' : `?${query}`
}

/** The files that wait, as a part of a query or an unseen field; nothing when none does. */
export const writeWaiting = (waiting: readonly WaitingFile[]): { next?: string } =>
  waiting.length === 0
    ? {}
    : {
        next: JSON.stringify(
          waiting.map(({ stagedId, fileName, sheet }) => [stagedId, fileName, ...(sheet === undefined ? [] : [sheet])]),
        ),
      }

export const waitingTitle = ({ fileName, sheet }: WaitingFile): string => fileTitle(fileName, sheet)

/** The preview of the first file that waits, the others after it. */
export const nextHref = ([next, ...later]: readonly [WaitingFile, ...WaitingFile[]]): string =>
  previewHref(next.stagedId, next.sheet === undefined ? {} : { reading: { sheet: next.sheet } }, later)

/** The preview of a file, read as chosen. */
export const previewHref = (stagedId: string, choices: ImportChoices, waiting: WaitingFile[]): string =>
  `/bring-in/${stagedId}${errandQuery({ stagedId: null, choices, waiting })}`

function parseJson(text: unknown): unknown {
  if (typeof text !== 'string') return undefined
  try {
    return JSON.parse(text)
  } catch {
    return undefined
  }
}
