import { decideCountLine } from '#api/counts'
import { describeComparison, describeCountProblem } from '#api/describe-count'
import { endpoint, serve } from '#api/serve'
import { decideLine } from '#lib/db/count/decide-line'
import { correctionWords } from '#words/count'

const decide = serve(decideCountLine, async ({ path, body }) => {
  const { counted, ...line } = body
  const decided = await decideLine({ ...line, countId: path.countId, sawCounted: counted, reasonOf: correctionWords })
  return decided.ok ? describeComparison(path.countId) : describeCountProblem(decided.error, path.countId)
})

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ POST: decide })
