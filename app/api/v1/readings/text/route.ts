import { describeReading } from '#api/describe-reading'
import { chosenOwners } from '#api/owners'
import { notFound, Problem } from '#api/problem'
import { readingOperations } from '#api/readings'
import { endpoint, serve } from '#api/serve'
import { findDesign } from '#lib/db/chart/find-design'
import { readText } from '#lib/db/reading/start-reading'
import { describeTextUnfit } from '../../../../_reading/words'

const read = serve(readingOperations.readText, async ({ body }) => {
  const { text, ownerId, designId } = body
  const owners = await chosenOwners(ownerId === undefined ? undefined : [ownerId])
  if (owners instanceof Problem) return owners
  const [owner] = owners
  if (owner === undefined) return new Problem('refused', 'There is no owner yet.')
  if (designId !== null && !(await findDesign(designId))) return notFound('design', designId)
  const staged = await readText({ text, ownerId: owner, designId })
  return staged.ok ? describeReading(staged.value) : new Problem('refused', describeTextUnfit(staged.error))
})

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ POST: read })
