import { giveArchiveOperation } from '#api/archives'
import { describeGiven, refusedArchive } from '#api/describe-archive'
import { Problem } from '#api/problem'
import { endpoint, serve } from '#api/serve'
import { keepGiven, removeGiven } from '#lib/db/archive/archive-files'

const give = serve(giveArchiveOperation, async ({ file }) => {
  const kept = await keepGiven(new Blob([file.bytes]).stream(), new Date())
  if (!kept.ok) return refusedArchive(kept.error)
  const described = await describeGiven(kept.value.givenId)
  if (described instanceof Problem) await removeGiven(kept.value.givenId)
  return described
})

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ POST: give })
