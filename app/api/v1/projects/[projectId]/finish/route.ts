import { placeRef } from '#api/collection'
import { describeFinish } from '#api/describe-finish'
import { getWritten } from '#api/describe-project'
import { finishOperations } from '#api/finishes'
import { notFound } from '#api/problem'
import { describeProjectRefusal } from '#api/project-refusal'
import { finishProjectOperation } from '#api/projects'
import { readThreadRefs } from '#api/read-thread-refs'
import { endpoint, serve } from '#api/serve'
import { findFinish } from '#lib/db/finish/read-finishes'
import { listPlaces } from '#lib/db/place/queries'
import { finishProject } from '#lib/db/project/finish-project'
import { findProject } from '#lib/db/project/queries'

const finish = serve(finishProjectOperation, async ({ path, body }) => {
  const before = await findProject(path.projectId)
  if (!before) return notFound('project', path.projectId)
  const { isClothUsed, offcuts, ...told } = body
  // What is left out is taken from the record, so the record must still be the one read.
  const takesRecord = told.hoursTenths === undefined || told.stitchesDone === undefined
  const finished = await finishProject({
    ...told,
    projectId: path.projectId,
    version: told.version ?? (takesRecord ? before.version : undefined),
    hoursTenths: told.hoursTenths ?? before.hoursTenths,
    stitchesDone: told.stitchesDone ?? before.stitchesDone,
    cloth: isClothUsed ? { kind: 'used', offcuts } : { kind: 'not-used' },
    photo: null,
  })
  if (!finished.ok) return describeProjectRefusal(finished.error)
  const { putBack, usedUp, missing, offcutIds, walkId } = finished.value
  const refOf = await readThreadRefs()
  const places = new Map((await listPlaces()).map((place) => [place.id, place]))
  return {
    project: await getWritten(path.projectId),
    putBack: putBack.map(({ threadId, placeId, batchId, lot, wholePutUps, partStrandTenths }) => ({
      thread: refOf(threadId),
      place: placeRef(places.get(placeId)),
      ...{ batchId, lot, wholePutUps, partStrandTenths },
    })),
    usedUp: usedUp.map(({ threadId, putUps }) => ({ thread: refOf(threadId), putUps })),
    missing: missing.map(({ threadId, batchId, putUps }) => ({ thread: refOf(threadId), batchId, putUps })),
    offcutIds,
    walkId,
  }
})

const find = serve(finishOperations.find, async ({ path }) => {
  const record = await findFinish(path.projectId)
  return record ? describeFinish(record) : notFound('project', path.projectId)
})

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ GET: find, POST: finish })
