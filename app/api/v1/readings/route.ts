import { describeReading, describeReadingHead } from '#api/describe-reading'
import { chosenOwners } from '#api/owners'
import { notFound, Problem } from '#api/problem'
import { readingOperations } from '#api/readings'
import { endpoint, serve } from '#api/serve'
import { findDesign } from '#lib/db/chart/find-design'
import { prepareFile } from '#lib/db/file/prepare-file'
import { listStagedReadings, type StagedReading } from '#lib/db/reading/reading-store'
import { readFiles } from '#lib/db/reading/start-reading'
import { describeUnfitFile } from '../../../_reading/words'

const list = serve(readingOperations.list, async ({ query }) => {
  const owners = await chosenOwners(query.owner)
  if (owners instanceof Problem) return owners
  return { readings: await Promise.all((await listStagedReadings(owners)).map(describeReadingHead)) }
})

const read = serve(readingOperations.readFile, async ({ file }) => {
  const { ownerId, designId } = file.fields
  const owners = await chosenOwners(ownerId ? [ownerId] : undefined)
  if (owners instanceof Problem) return owners
  const [owner] = owners
  if (owner === undefined) return new Problem('refused', 'There is no owner yet.')
  if (designId && !(await findDesign(designId))) return notFound('design', designId)
  const prepared = await prepareFile(file.name, file.bytes)
  if (!prepared.ok) return new Problem('refused', describeUnfitFile(file.name, prepared.error))
  const [staged] = await readFiles({ files: [prepared.value], ownerId: owner, designId: designId || null })
  return describeReading(staged as StagedReading)
})

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ GET: list, POST: read })
