import { numberText } from '#language/figures'
import { say, sayings } from '#language/say'
import type { FileRole, KeepFileRefusal } from '#lib/db/file/keep-file'
import type { FileUnfit } from '#lib/db/file/prepare-file'
import type { FileChangeRefusal } from '#lib/db/file/remove-file'
import type { PhotoRefusal } from '#lib/db/photo/prepare-photo'
import { counted } from '#words/amounts'

export const fileRoleWords: Record<FileRole, string> = sayings({ chart: 'Digital chart', receipt: 'Receipt' })

/** Said once beside every file of a chart. */
export const ownUseWords = () => say('A file is for its owner’s own use: it is kept for them, and is not to be passed on.')

/** "1.4 MB", "320 kB". */
export function fileSize(bytes: number): string {
  if (bytes < 1024 * 1024) return `${numberText(Math.max(1, Math.round(bytes / 1024)))} kB`
  return `${numberText(bytes / (1024 * 1024), { maximumFractionDigits: 1 })} MB`
}

/** "PDF, 12 pages, 1.4 MB". */
export function fileFacts({ mime, bytes, pages }: { mime: string; bytes: number; pages: number | null }): string {
  const kind = mime === 'application/pdf' ? 'PDF' : say('picture')
  return [kind, pages !== null && mime === 'application/pdf' && counted(pages, 'page'), fileSize(bytes)]
    .filter(Boolean)
    .join(', ')
}

export function describeFileUnfit(refusal: FileUnfit): string {
  switch (refusal.kind) {
    case 'file-empty':
      return say('the file is empty.')
    case 'file-too-large':
      return say('the file has {fileSize}; up to {fileSize2} are kept.', {
        fileSize: fileSize(refusal.bytes),
        fileSize2: fileSize(refusal.mostBytes),
      })
    case 'file-heic':
      return say(
        'the photo is in the phone’s own format (HEIC), which is not read here. Take it as JPEG: in the phone’s camera settings, “most compatible”.',
      )
    case 'file-of-another-kind':
      return say('it is neither a PDF nor a picture. PDF, JPEG, PNG and WebP are taken.')
  }
}

export function describeKeepFileRefusal(refusal: KeepFileRefusal): string {
  switch (refusal.kind) {
    case 'no-such-thing':
      return say('What it belongs to is not there any more.')
    case 'only-charts':
      return say('Only a chart has a digital chart; here a receipt can be kept.')
    case 'kept-already':
      return say('The same file is kept here already, as {name}.', { name: refusal.file.name })
    case 'kept-elsewhere':
      return refusal.file.chartTitle
        ? say('You have this very file already: {name}, with the chart {chartTitle}. If it is meant for both, tick the box.', {
            name: refusal.file.name,
            chartTitle: refusal.file.chartTitle,
          })
        : say('You have this very file already, as {name}. If it is meant for both, tick the box.', { name: refusal.file.name })
  }
}

export function describeFileChangeRefusal(refusal: FileChangeRefusal): string {
  switch (refusal.kind) {
    case 'changed-meanwhile':
      return say('Somebody changed this file’s entry meanwhile. Look again.')
  }
}

/** Why a picture is not taken as a cover. */
export function describeCoverUnfit(refusal: PhotoRefusal): string {
  switch (refusal.kind) {
    case 'photo-too-large':
      return say('The picture has {fileSize}; up to {fileSize2} are taken.', {
        fileSize: fileSize(refusal.bytes),
        fileSize2: fileSize(refusal.mostBytes),
      })
    case 'photo-heic':
      return say(
        'The photo is in the phone’s own format (HEIC), which is not read here. Take it as JPEG: in the phone’s camera settings, “most compatible”.',
      )
    case 'not-a-photo':
      return say('It is not a picture. JPEG, PNG and WebP are taken.')
    case 'photo-unreadable':
      return say('The picture is damaged: it cannot be opened.')
  }
}
