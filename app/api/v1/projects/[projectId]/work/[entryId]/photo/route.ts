import { answerLog, findEntry } from '#api/describe-work'
import { Problem } from '#api/problem'
import { endpoint, serve } from '#api/serve'
import { workOperations } from '#api/work'
import { preparePhoto } from '#lib/db/photo/prepare-photo'
import { setWorkPhoto } from '#lib/db/work/set-work-photo'
import { photoRefusalWords } from '#words/photo'

const keep = serve(workOperations.photo, async ({ path, file }) => {
  const there = await findEntry(path)
  if (there instanceof Problem) return there
  const photo = await preparePhoto(file.bytes)
  if (!photo.ok) return new Problem('refused', photoRefusalWords(photo.error))
  return answerLog(path.projectId, await setWorkPhoto({ entryId: path.entryId, photo: photo.value }))
})

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ POST: keep })
