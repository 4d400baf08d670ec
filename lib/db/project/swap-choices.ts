import 'server-only'
import { database } from '../client'
import { getSettings } from '../settings/settings'
import { readThreadTags, type ThreadTag } from '../thread/thread-tag'
import { readProject } from './project-row'
import { readProjectNeed } from './read-need'

/** One colour of a project's key: what it is worked in, and what might stand in for it. */
export type SwapChoice = {
  charted: ThreadTag
  /** null: as charted. */
  worked: ThreadTag | null
  reason: string | null
  /** Accepted stand-ins, with who says so; none of them worked or charted for another colour of the key. */
  standIns: { thread: ThreadTag; source: string | null }[]
}

/** What a project's colours are worked in, in the order of the key; empty when there is no such project or it has no thread list. */
export async function readSwapChoices(projectId: string): Promise<SwapChoice[]> {
  const { prisma } = database()
  const read = await readProject(prisma, { projectId })
  if (!read.ok) return []
  const { charted, swaps } = await readProjectNeed(prisma, read.value, await getSettings())
  const chartedIds = charted.map(({ threadId }) => threadId)
  const [accepted, reasons] = await Promise.all([
    prisma.standIn.findMany({
      where: { threadId: { in: chartedIds }, standIn: { goneAt: null } },
      select: { threadId: true, standInThreadId: true, source: true },
      orderBy: { id: 'asc' },
    }),
    prisma.projectSwap.findMany({ where: { projectId }, select: { threadId: true, reason: true } }),
  ])
  const tags = await readThreadTags([
    ...new Set([...chartedIds, ...swaps.values(), ...accepted.map(({ standInThreadId }) => standInThreadId)]),
  ])
  const reasonOf = new Map(reasons.map(({ threadId, reason }) => [threadId, reason]))
  return chartedIds.flatMap((threadId) => {
    const thread = tags.get(threadId)
    if (!thread) return []
    const taken = new Set(chartedIds.filter((other) => other !== threadId).map((other) => swaps.get(other) ?? other))
    const standIns = accepted
      .filter((row) => row.threadId === threadId && !taken.has(row.standInThreadId))
      .flatMap(({ standInThreadId, source }) => {
        const standIn = tags.get(standInThreadId)
        return standIn ? [{ thread: standIn, source }] : []
      })
    const worked = tags.get(swaps.get(threadId) ?? '') ?? null
    return [{ charted: thread, worked, reason: reasonOf.get(threadId) ?? null, standIns }]
  })
}
