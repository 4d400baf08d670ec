import { describeHad, findHadByCoverOperation } from '#api/doubles'
import { Problem } from '#api/problem'
import { endpoint, serve } from '#api/serve'
import { findHadByCover } from '#lib/db/merging/had-before'
import { photoHashes } from '#lib/db/photo/cover-hash'
import { preparePhoto } from '#lib/db/photo/prepare-photo'

const find = serve(findHadByCoverOperation, async ({ file }) => {
  const photo = await preparePhoto(file.bytes)
  if (!photo.ok) return new Problem('refused', `That is no photo that can be read: ${photo.error.kind.replaceAll('-', ' ')}.`)
  const { sure, near, covers } = await findHadByCover(await photoHashes(photo.value.full))
  return { sure: sure.map(describeHad), near: near.map(describeHad), covers }
})

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ POST: find })
