import type { KitItemRefusal } from '#lib/db/kit/kit-item-refusal'
import { type Kit, readKit } from '#lib/db/kit/read-kit'
import type { ReckonedLine } from '#lib/project/kit/reckoning'
import type { Result } from '#lib/result'
import { describeKitItemRefusal } from '#words/kit-item'
import { notFound, Problem } from './problem'
import { readThreadRefs } from './read-thread-refs'
import { noSuch } from './stock-refusal'

type RefOf = Awaited<ReturnType<typeof readThreadRefs>>

function describeLine(line: ReckonedLine, { cloth, items, threads }: Kit, refOf: RefOf) {
  const { key, kits, toBuy } = line
  switch (line.kind) {
    case 'thread': {
      const { kind, threadId, perKitStrandTenths, cutsPerPutUp, putUpsForAll, lot, cut } = line
      const lotsMatter = threads.get(threadId)?.line.lotsMatter ?? false
      const figures = { perKitStrandTenths, cutsPerPutUp, putUpsForAll, lotsMatter, lot, cut }
      return { kind, key, kits, toBuy, thread: refOf(threadId), ...figures }
    }
    case 'cloth': {
      const { kind, wanted, cut, kept, free, boltForAll } = line
      return {
        ...{ kind, key, kits, toBuy, wanted, cut, kept, free, lengthForAllUm: boltForAll?.best?.toBuyUm ?? null },
        ...{ cutWidthUm: cloth?.cutSize?.widthUm ?? null, cutHeightUm: cloth?.cutSize?.heightUm ?? null },
      }
    }
    case 'chart': {
      const { kind, isFile, wanted, copies } = line
      return { kind, key, kits, toBuy, isFile, wanted, copies }
    }
    case 'item': {
      const { kind, itemId, perKit, wanted, packsForAll } = line
      const item = items.find(({ id }) => id === itemId)
      if (!item) throw new Error(`describeLine: no item ${itemId}`)
      const { name, notionId, priceMinor, note, have } = item
      const said = { itemId, itemKind: item.kind, name, notionId, priceMinor, note }
      return { kind, key, kits, toBuy, ...said, perKit, wanted, packsForAll, have }
    }
  }
}

/** The kits of a project as the API gives them. */
export async function describeKit(kit: Kit) {
  const refOf = await readThreadRefs()
  const { project, reckoning, progress, cost } = kit
  const { copies, spares, soldSpares, makeable, stops, unknown, lines } = reckoning
  return {
    ...{ projectId: project.id, version: project.version, title: project.title },
    owner: { id: project.ownerId, name: project.ownerName },
    ...{ copies, spares, soldSpares, makeable, stops, unknown },
    lines: lines.map((line) => describeLine(line, kit, refOf)),
    progress: { ...progress.done },
    cost: { ...cost, lines: cost.lines.map(({ from: _, ...line }) => line) },
  }
}

/** The kits after a write, or why it was not written. */
export async function answerKit(projectId: string, result: Result<unknown, KitItemRefusal>) {
  if (result.ok) {
    const kit = await readKit(projectId)
    if (!kit) throw new Error(`answerKit: no project ${projectId}`)
    return describeKit(kit)
  }
  const { error } = result
  if (error.kind === 'no-such-project') return notFound('project', projectId)
  if (error.kind === 'no-such-item') return notFound('item', error.itemId)
  if (error.kind === 'no-such-notion') return noSuch('notion on the list', 'notionId')
  return new Problem('refused', describeKitItemRefusal(error))
}
