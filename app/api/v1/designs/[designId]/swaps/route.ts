import { threadRef } from '#api/describe-design'
import { describeSwap } from '#api/describe-swap'
import { chosenOwners } from '#api/owners'
import { notFound, Problem } from '#api/problem'
import { endpoint, serve } from '#api/serve'
import { getDesignSwaps } from '#api/swaps'
import { hexToLab } from '#lib/colour/convert'
import type { JudgedCandidate } from '#lib/coverage/assign-swaps'
import { getAnswers } from '#lib/db/answers/get-answers'
import { findDesign } from '#lib/db/chart/find-design'
import { coverageOfDesign } from '#lib/db/coverage/design-coverage'
import { listSwapProjects } from '#lib/db/swap/list-swap-projects'
import { proposeSwaps } from '#lib/db/swap/propose-swaps'

const get = serve(getDesignSwaps, async ({ path, query, request }) => {
  const chosen = await chosenOwners(query.owner)
  if (chosen instanceof Problem) return chosen
  const [detail, projects] = await Promise.all([findDesign(path.designId), listSwapProjects(path.designId)])
  if (!detail) return notFound('design', path.designId)
  const project = projects.find(({ id }) => id === query.project) ?? null
  if (query.project !== undefined && !project) return notFound('project of this design under way', query.project)
  // A project is worked from its own owner's goods.
  const ownerIds = project && query.owner === undefined ? [project.owner.id] : chosen
  const answers = await getAnswers()
  const coverage = coverageOfDesign(answers, detail, { ownerIds })
  const listId = query.list ?? project?.threadListId ?? coverage?.comparison[0]?.listId
  if (!coverage || listId === undefined) return new Problem('not-found', 'The design has no thread list yet.')
  const board = await proposeSwaps(
    answers,
    coverage,
    {
      ownerIds,
      listId,
      cloth: query.cloth === undefined ? null : hexToLab(query.cloth),
      picks: new Map(),
      merges: [],
      keepsDyeing: query.keepsDyeing ?? false,
      project,
    },
    request.signal,
  )
  if (!board) return notFound('thread list of this design', listId)
  const threadOf = (threadId: string) => threadRef(answers, threadId)
  const judged = ({ candidate, verdict }: JudgedCandidate) => describeSwap(candidate.thread, candidate.stock, verdict, threadOf)
  const servedCount = board.lines.filter(({ chosen }) => chosen !== null).length
  return {
    ownerIds,
    designId: path.designId,
    listId,
    isProven: board.isProven,
    servedCount,
    toBuyCount: board.lines.length - servedCount,
    lines: board.lines.map(({ charted, status, chosen: swap, chosenBy, nearer, others, opinions }) => ({
      thread: threadOf(charted.threadId),
      status,
      swap: swap && judged(swap),
      chosenBy,
      nearer: nearer.map(judged),
      others: others.map(judged),
      opinions: opinions.map(({ sourceName, otherThreadId }) => ({ sourceName, thread: threadOf(otherThreadId) })),
    })),
  }
})

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ GET: get })
