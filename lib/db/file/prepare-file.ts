import 'server-only'
import { createHash } from 'node:crypto'
import { fileTypeFromBuffer } from 'file-type'
import { ok, type Result, refused } from '#lib/result'

export const mostFileBytes = 50 * 1024 * 1024

/** What is kept, and how its name ends. */
export const endingOf = { 'application/pdf': 'pdf', 'image/jpeg': 'jpg', 'image/png': 'png', 'image/webp': 'webp' } as const
export type KeptMime = keyof typeof endingOf

const phoneFormats = new Set(['image/heic', 'image/heif', 'image/heic-sequence', 'image/heif-sequence'])

export type FileUnfit =
  | { kind: 'file-empty' }
  | { kind: 'file-too-large'; bytes: number; mostBytes: number }
  | { kind: 'file-heic' }
  /** `found`: what it is by its bytes, where that can be told. */
  | { kind: 'file-of-another-kind'; found: string | null }

export type PreparedFile = { name: string; mime: KeptMime; bytes: Uint8Array; sha256: string }

const isKept = (mime: string | null): mime is KeptMime => mime !== null && mime in endingOf

/** A file fit to keep as it is: a PDF or a picture. What it is goes by its bytes, never by its name. */
export async function prepareFile(name: string, bytes: Uint8Array): Promise<Result<PreparedFile, FileUnfit>> {
  if (bytes.length === 0) return refused({ kind: 'file-empty' })
  if (bytes.length > mostFileBytes) return refused({ kind: 'file-too-large', bytes: bytes.length, mostBytes: mostFileBytes })
  const found = (await fileTypeFromBuffer(bytes))?.mime ?? null
  if (found !== null && phoneFormats.has(found)) return refused({ kind: 'file-heic' })
  if (!isKept(found)) return refused({ kind: 'file-of-another-kind', found })
  return ok({ name: shownName(name), mime: found, bytes, sha256: createHash('sha256').update(bytes).digest('hex') })
}

/** A name fit to be shown and sent: no folders, nothing that is not printed. */
const shownName = (name: string): string =>
  (name.split(/[/\\]/).at(-1) ?? '')
    .normalize('NFC')
    .replace(/[\p{Cc}\p{Cf}\p{Cs}"]+/gu, '')
    .trim()
    .slice(0, 200) || 'file'
