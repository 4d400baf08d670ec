import 'server-only'
import { type MarkGiven, type MarkRefused, type MarksPlanned, planMarks } from '#lib/project/kit/check'
import { ok, type Result, refused } from '#lib/result'
import { newId } from '../new-id'
import { write } from '../write'
import { ensureBags } from './ensure-bags'
import { linesOfBag, readLotRows } from './kit-rows'
import { type KitChanged, type NoSuchKit, readKitProject, readMaster } from './read-kit-project'
import { type NoSuchBag, writeBag } from './step-bags'

export type MarkBagsRefused = NoSuchKit | KitChanged | NoSuchBag | MarkRefused

export type BagsMarked = {
  marked: number
  /** Bags in which every line is there now. */
  checked: number[]
  conflicts: (MarksPlanned['conflicts'][number] & { bag: number })[]
}

/**
 * Hold bags against the master list: lines there, short or wrong. A line that another marked otherwise meanwhile keeps their mark and is
 * named. Two people may look through different bags, or different lines of one, at once.
 */
export async function markBags(input: {
  projectId: string
  by: string
  isAlone: boolean
  marks: readonly (MarkGiven & { bag: number; note?: string | null })[]
}): Promise<Result<BagsMarked, MarkBagsRefused>> {
  const read = await readMaster(input.projectId)
  if (!read.ok) return read
  const master = read.value
  return write<BagsMarked, MarkBagsRefused>(async (writing) => {
    const { tx, at } = writing
    const project = await readKitProject(tx, master)
    if (!project.ok) return project
    const rows = new Map((await ensureBags(writing, master)).map((row) => [row.number, row]))
    const lots = await readLotRows(tx, project.value.id)
    const answered: BagsMarked = { marked: 0, checked: [], conflicts: [] }
    const byBag = new Map<number, (typeof input.marks)[number][]>()
    for (const mark of input.marks) byBag.set(mark.bag, [...(byBag.get(mark.bag) ?? []), mark])
    for (const [number, marks] of byBag) {
      const bag = rows.get(number)
      if (!bag) return refused({ kind: 'no-such-bag', bag: number })
      const { keys } = linesOfBag(master, lots, bag)
      const planned = planMarks(bag, { keys, marks, by: input.by, isAlone: input.isAlone })
      if (!planned.ok) return planned
      const { status, conflicts } = planned.value
      const written = new Map(planned.value.marks.map((mark) => [mark.key, mark]))
      if (written.size > 0) {
        await tx.kitBagCheck.deleteMany({ where: { bagId: bag.id, item: { in: [...written.keys()] } } })
        await tx.kitBagCheck.createMany({
          data: [...written].map(([item, mark]) => ({
            ...{ id: newId(), bagId: bag.id, item, status: mark.status, at, who: input.by },
            note: marks.find(({ key }) => key === item)?.note ?? null,
          })),
        })
        const isChecked = status === 'checked'
        const done = await writeBag(writing, bag, {
          status,
          checkedAt: isChecked ? at : null,
          checkedBy: isChecked ? input.by : null,
        })
        if (!done.ok) return done
      }
      answered.marked += written.size
      answered.conflicts.push(...conflicts.map((conflict) => ({ bag: number, ...conflict })))
      if (status === 'checked') answered.checked.push(number)
    }
    return ok(answered)
  })
}
