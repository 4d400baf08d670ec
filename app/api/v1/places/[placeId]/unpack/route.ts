import { placeRef } from '#api/collection'
import { unpackProblem } from '#api/describe-missing'
import { notFound } from '#api/problem'
import { readThreadRefs } from '#api/read-thread-refs'
import { endpoint, serve } from '#api/serve'
import { getUnpackSheet, unpackBagOperation } from '#api/unpack'
import { listPlaces } from '#lib/db/place/queries'
import { unpackBag } from '#lib/db/unpack/unpack-bag'
import { readUnpackSheet, type UnpackThing } from '#lib/db/unpack/unpack-sheet'

const nameOf = (thing: UnpackThing): string =>
  thing.noun === 'chart' ? thing.title : [thing.noun === 'cloth' ? thing.label : null, thing.name].filter(Boolean).join(' ')

const get = serve(getUnpackSheet, async ({ path }) => {
  const sheet = await readUnpackSheet(path.placeId)
  if (!sheet) return notFound('place', path.placeId)
  return {
    threads: sheet.threads.map((row) => ({
      ...{ batchId: row.id, version: row.version, lot: row.lot, owner: row.owner.name, home: placeRef(row.home) },
      thread: { threadId: row.threadId, maker: row.makerName, line: row.lineName, code: row.code, name: row.name },
      ...{ wholePutUps: row.wholePutUps, partStrandTenths: row.partStrandTenths, partCertainty: row.partCertainty },
      projects: row.projects.map(({ id, title }) => ({ projectId: id, title })),
    })),
    things: sheet.things.map((thing) => ({
      ...{ noun: thing.noun, id: thing.id, version: thing.version, name: nameOf(thing) },
      ...{ owner: thing.owner.name, home: placeRef(thing.home) },
    })),
    projects: sheet.projects.map(({ id, title, status }) => ({ projectId: id, title, status })),
    ...{ onLists: sheet.onLists, missing: sheet.missing },
  }
})

const unpack = serve(unpackBagOperation, async ({ path, body }) => {
  const places = await listPlaces()
  const place = places.find(({ id }) => id === path.placeId)
  if (!place) return notFound('place', path.placeId)
  const done = await unpackBag({ ...path, ...body, title: body.title ?? place.label })
  if (!done.ok) return unpackProblem(done.error)
  const refOf = await readThreadRefs()
  const placeOf = new Map(places.map((one) => [one.id, one]))
  const { walkId, check, back, usedUp, missing, missingIds } = done.value
  return {
    ...{ walkId, check, missingIds },
    back: back.map(({ threadId, batchId, lot, homePlaceId, wholePutUps, partStrandTenths }) => ({
      ...{ thread: refOf(threadId), batchId, lot, place: placeRef(placeOf.get(homePlaceId ?? '')) },
      ...{ wholePutUps, partStrandTenths },
    })),
    usedUp: usedUp.map(({ threadId, lot, putUps }) => ({ thread: refOf(threadId), lot, putUps })),
    missing: missing.map(({ threadId, batchId, putUps }) => ({ thread: refOf(threadId), batchId, putUps })),
  }
})

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ GET: get, POST: unpack })
