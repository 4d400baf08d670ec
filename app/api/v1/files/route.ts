import { describeFile } from '#api/describe-file'
import { fileOperations } from '#api/files'
import { chosenOwners } from '#api/owners'
import { notFound, Problem } from '#api/problem'
import { endpoint, serve } from '#api/serve'
import { keepFile } from '#lib/db/file/keep-file'
import { prepareFile } from '#lib/db/file/prepare-file'
import { listFiles } from '#lib/db/file/queries'
import { describeFileUnfit, describeKeepFileRefusal } from '../../../_files/words'

const list = serve(fileOperations.list, async ({ query }) => {
  const owners = await chosenOwners(query.owner)
  if (owners instanceof Problem) return owners
  const files = await listFiles({ noun: query.noun, id: query.thingId })
  return { files: files.filter(({ owner }) => owners.includes(owner.id)).map(describeFile) }
})

const keep = serve(fileOperations.keep, async ({ query, file }) => {
  const prepared = await prepareFile(file.name, file.bytes)
  if (!prepared.ok) return new Problem('refused', `${file.name}: ${describeFileUnfit(prepared.error)}`)
  const { noun, thingId, role, 'is-another': isAnother } = query
  const thing = { noun, id: thingId }
  const kept = await keepFile({ thing, role, file: prepared.value, pages: null, isAnother })
  if (!kept.ok && kept.error.kind === 'no-such-thing') return notFound(noun, thingId)
  if (!kept.ok) return new Problem('refused', describeKeepFileRefusal(kept.error))
  const row = (await listFiles(thing)).find(({ id }) => id === kept.value.fileId)
  return row ? describeFile(row) : notFound('file', kept.value.fileId)
})

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ GET: list, POST: keep })
