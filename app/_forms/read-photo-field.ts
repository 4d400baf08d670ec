import { preparePhoto } from '#lib/db/photo/prepare-photo'

/** A browser sends an empty file where none was chosen. */
export const readPhotoField = async (field: FormDataEntryValue | null) =>
  field instanceof File && field.size > 0 ? preparePhoto(new Uint8Array(await field.arrayBuffer())) : null
