'use server'

import { redirect } from 'next/navigation'
import type { FormState } from '#forms/form-state'
import { say } from '#language/say'
import { photoHashes } from '#lib/db/photo/cover-hash'
import { preparePhoto } from '#lib/db/photo/prepare-photo'
import { photoRefusalWords } from './words'

/** A photo is looked at and not kept: what it looks like goes into the address, and the answer stands there. */
export async function askByPhotoAction(_previous: FormState, form: FormData): Promise<FormState> {
  const sent = form.get('photo')
  if (!(sent instanceof File) || sent.size === 0)
    return { status: 'invalid', fieldErrors: { photo: [say('Take or choose a photo of the cover first.')] }, values: {} }
  const photo = await preparePhoto(new Uint8Array(await sent.arrayBuffer()))
  if (!photo.ok) return { status: 'invalid', fieldErrors: { photo: [photoRefusalWords(photo.error)] }, values: {} }
  const hashes = await photoHashes(photo.value.full)
  if (hashes.length === 0)
    return { status: 'invalid', fieldErrors: { photo: [say('The photo could not be read. Take it again.')] }, values: {} }
  redirect(`/charts/had?photo=${hashes.join('.')}`)
}
