import 'server-only'
import { ok, type Result, refused } from '#lib/result'
import { beyondSight } from '../sight/sighted-client'
import { write } from '../write'
import type { Write } from '../write-gate'
import type { ChartRefusal } from './chart-refusal'
import { readProjects } from './read-projects'

type Refusal = Extract<ChartRefusal, { kind: 'changed-meanwhile' | 'in-work' }>

/**
 * Take a thread list away, with its key. Refused while a project that is not given up is worked from it; a finish keeps the list it was
 * worked from. Projects given up or removed let go of it.
 */
export function removeThreadList(input: { id: string; version: number }): Promise<Result<{ designId: string }, Refusal>> {
  return write<{ designId: string }, Refusal>(async (open) => {
    const { tx, touch } = open
    const { id, version } = input
    const list = await tx.threadList.findFirst({ where: { id, version }, select: { designId: true } })
    if (!list) return refused({ kind: 'changed-meanwhile' })
    const projects = await readProjects(open, { threadListId: id, goneAt: null, status: { not: 'abandoned' } })
    if (projects.length > 0) return refused({ kind: 'in-work', projects })
    await letGo(open, id)
    const gone = await tx.threadList.deleteMany({ where: { id, version } })
    if (gone.count === 0) return refused({ kind: 'changed-meanwhile' })
    touch('list', id)
    touch('design', list.designId)
    return ok({ designId: list.designId })
  })
}

async function letGo({ tx: seen, touch }: Write, threadListId: string): Promise<void> {
  const tx = beyondSight(seen)
  const holding = await tx.project.findMany({ where: { threadListId }, select: { id: true } })
  await tx.project.updateMany({ where: { threadListId }, data: { threadListId: null, version: { increment: 1 } } })
  for (const { id } of holding) touch('project', id)
}
