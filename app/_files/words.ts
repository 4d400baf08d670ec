import { numberText } from '#language/figures'
import type { FileRole, KeepFileRefusal } from '#lib/db/file/keep-file'
import type { FileUnfit } from '#lib/db/file/prepare-file'
import type { FileChangeRefusal } from '#lib/db/file/remove-file'
import type { PhotoRefusal } from '#lib/db/photo/prepare-photo'
import { counted } from '#words/amounts'

export const fileRoleWords: Record<FileRole, string> = { chart: 'Digital chart', receipt: 'Receipt' }

/** Said once beside every file of a chart. */
export const ownUseWords = 'A file is for its owner’s own use: it is kept for them, and is not to be passed on.'

/** "1.4 MB", "320 kB". */
export function fileSize(bytes: number): string {
  if (bytes < 1024 * 1024) return `${numberText(Math.max(1, Math.round(bytes / 1024)))} kB`
  return `${numberText(bytes / (1024 * 1024), { maximumFractionDigits: 1 })} MB`
}

/** "PDF, 12 pages, 1.4 MB". */
export function fileFacts({ mime, bytes, pages }: { mime: string; bytes: number; pages: number | null }): string {
  const kind = mime === 'application/pdf' ? 'PDF' : 'picture'
  return [kind, pages !== null && mime === 'application/pdf' && counted(pages, 'page'), fileSize(bytes)]
    .filter(Boolean)
    .join(', ')
}

export function describeFileUnfit(refusal: FileUnfit): string {
  switch (refusal.kind) {
    case 'file-empty':
      return 'the file is empty.'
    case 'file-too-large':
      return `the file has ${fileSize(refusal.bytes)}; up to ${fileSize(refusal.mostBytes)} are kept.`
    case 'file-heic':
      return 'the photo is in the phone’s own format (HEIC), which is not read here. Take it as JPEG: in the phone’s camera settings, “most compatible”.'
    case 'file-of-another-kind':
      return 'it is neither a PDF nor a picture. PDF, JPEG, PNG and WebP are taken.'
  }
}

export function describeKeepFileRefusal(refusal: KeepFileRefusal): string {
  switch (refusal.kind) {
    case 'no-such-thing':
      return 'What it belongs to is not there any more.'
    case 'only-charts':
      return 'Only a chart has a digital chart; here a receipt can be kept.'
    case 'kept-already':
      return `The same file is kept here already, as ${refusal.file.name}.`
    case 'kept-elsewhere':
      return refusal.file.chartTitle
        ? `You have this very file already: ${refusal.file.name}, with the chart ${refusal.file.chartTitle}. If it is meant for both, tick the box.`
        : `You have this very file already, as ${refusal.file.name}. If it is meant for both, tick the box.`
  }
}

export function describeFileChangeRefusal(refusal: FileChangeRefusal): string {
  switch (refusal.kind) {
    case 'changed-meanwhile':
      return 'Somebody changed this file’s entry meanwhile. Look again.'
  }
}

/** Why a picture is not taken as a cover. */
export function describeCoverUnfit(refusal: PhotoRefusal): string {
  switch (refusal.kind) {
    case 'photo-too-large':
      return `The picture has ${fileSize(refusal.bytes)}; up to ${fileSize(refusal.mostBytes)} are taken.`
    case 'photo-heic':
      return 'The photo is in the phone’s own format (HEIC), which is not read here. Take it as JPEG: in the phone’s camera settings, “most compatible”.'
    case 'not-a-photo':
      return 'It is not a picture. JPEG, PNG and WebP are taken.'
    case 'photo-unreadable':
      return 'The picture is damaged: it cannot be opened.'
  }
}
