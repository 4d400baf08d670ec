import type { PhotoRefusal } from '#lib/db/photo/prepare-photo'

const megabytes = (bytes: number) => `${Math.ceil(bytes / 1024 / 1024)} MB`

/** Why a photo cannot be kept. */
export function photoRefusalWords(refusal: PhotoRefusal): string {
  switch (refusal.kind) {
    case 'photo-too-large':
      return `The photo has ${megabytes(refusal.bytes)}; up to ${megabytes(refusal.mostBytes)} can be kept. Send a smaller copy. Nothing was written.`
    case 'photo-heic':
      return 'This photo is in the HEIC format of some phones, which cannot be read here. Send it as JPEG: most phones do so when the photo is shared or its settings say “most compatible”. Nothing was written.'
    case 'not-a-photo':
      return `This is not a photo that can be read (${refusal.found ?? 'no known kind of picture'}). Send a JPEG, PNG or WebP. Nothing was written.`
    case 'photo-unreadable':
      return 'The photo is damaged and cannot be read. Send another copy. Nothing was written.'
  }
}
