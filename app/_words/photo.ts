import { say } from '#language/say'
import type { PhotoRefusal } from '#lib/db/photo/prepare-photo'

const megabytes = (bytes: number) => `${Math.ceil(bytes / 1024 / 1024)} MB`

/** Why a photo cannot be kept. */
export function photoRefusalWords(refusal: PhotoRefusal): string {
  switch (refusal.kind) {
    case 'photo-too-large':
      return say('The photo has {megabytes}; up to {megabytes2} can be kept. Send a smaller copy. Nothing was written.', {
        megabytes: megabytes(refusal.bytes),
        megabytes2: megabytes(refusal.mostBytes),
      })
    case 'photo-heic':
      return say(
        'This photo is in the HEIC format of some phones, which cannot be read here. Send it as JPEG: most phones do so when the photo is shared or its settings say “most compatible”. Nothing was written.',
      )
    case 'not-a-photo':
      return say('This is not a photo that can be read ({found}). Send a JPEG, PNG or WebP. Nothing was written.', {
        found: refusal.found ?? say('no known kind of picture'),
      })
    case 'photo-unreadable':
      return say('The photo is damaged and cannot be read. Send another copy. Nothing was written.')
  }
}
