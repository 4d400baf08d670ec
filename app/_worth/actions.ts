'use server'

import { revalidatePath } from 'next/cache'
import type { FormState } from '#forms/form-state'
import { invalid } from '#forms/invalid'
import { textFields } from '#forms/text-fields'
import { say } from '#language/say'
import { keepWorth } from '#lib/db/insurance/keep-worth'
import { type PhotoRefusal, preparePhoto } from '#lib/db/photo/prepare-photo'
import { bytesWords } from '#words/backup'
import { worthSchema } from './schema'

const changed = () => say('Somebody changed it meanwhile. The page now shows how it stands; look and save again.')

/** Keep price, photo and whether it is out of print. */
export async function keepWorthAction(_previous: FormState, form: FormData): Promise<FormState> {
  const values = textFields(form)
  const input = worthSchema.safeParse(values)
  if (!input.success) return invalid(input.error, values)
  const { noun, id, version, price, isOutOfPrint } = input.data
  const file = form.get('photo')
  const photo = file instanceof File && file.size > 0 ? await preparePhoto(new Uint8Array(await file.arrayBuffer())) : null
  if (photo && !photo.ok) return { status: 'invalid', fieldErrors: { photo: [describePhotoRefusal(photo.error)] }, values }
  const claimed = { id, version, photo: photo?.value ?? null }
  const kept = await keepWorth(
    noun === 'cloth'
      ? { ...claimed, noun, priceMinor: price }
      : noun === 'chart'
        ? { ...claimed, noun, isOutOfPrint, photo: null }
        : { ...claimed, noun },
  )
  if (!kept.ok) return { status: 'refused', message: changed(), values }
  revalidatePath('/', 'layout')
  return { status: 'done', message: say('Kept.') }
}

function describePhotoRefusal(refusal: PhotoRefusal): string {
  switch (refusal.kind) {
    case 'photo-too-large':
      return say('The photo is larger than {bytes}.', { bytes: bytesWords(refusal.mostBytes) })
    case 'photo-heic':
      return say('This is a HEIC photo, which cannot be read here. Send it as JPEG: phones can be set to.')
    case 'not-a-photo':
      return say('This is not a photo. JPEG, PNG and WebP are taken.')
    case 'photo-unreadable':
      return say('The photo does not read: it may be cut off. Send it once more.')
  }
}
