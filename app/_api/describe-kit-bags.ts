import type { z } from 'zod'
import { readMasterList } from '#lib/db/kit/master-list'
import { type KitBags, readKitBags } from '#lib/db/kit-bag/queries'
import { getSettings } from '#lib/db/settings/settings'
import type { ThreadTag } from '#lib/db/thread/thread-tag'
import { describeKitRefusal, type KitRefusal, lineName, perKitWords } from '#words/kit'
import type { getKitBags } from './kit-bags'
import { notFound, Problem } from './problem'

export const describeTag = ({ id, makerName, code, name }: ThreadTag) => ({ threadId: id, maker: makerName, code, name })

const tagIn = ({ threads }: Pick<KitBags, 'threads'>, threadId: string) => {
  const tag = threads.get(threadId)
  return tag ? describeTag(tag) : { threadId, maker: '', code: '', name: null }
}

/** The bags of a project, or that there is no such project. */
export async function describeKitBags(projectId: string): Promise<z.input<typeof getKitBags.answer> | Problem> {
  const [kit, settings] = await Promise.all([readKitBags(projectId), getSettings()])
  if (!kit) return notFound('project', projectId)
  const { master } = kit
  const iso = (at: Date | null) => at?.toISOString() ?? null
  return {
    ...{ projectId, title: kit.project.title, copies: master.copies, spares: master.spares },
    lines: master.lines.map((line) => ({
      ...{ key: line.key, name: lineName(line), perKit: perKitWords(line, settings), isInSpares: line.isInSpares },
    })),
    bags: kit.bags.map((bag) => ({
      ...{ bag: bag.number, isSpare: bag.isSpare, status: bag.status, uncut: bag.uncut },
      marks: bag.marks.map(({ key, status, at, who }) => ({ key, status, at: at.toISOString(), who })),
      ...{ packedAt: iso(bag.packedAt), packedBy: bag.packedBy, checkedAt: iso(bag.checkedAt), checkedBy: bag.checkedBy },
      ...{ sealedAt: iso(bag.sealedAt), sealedBy: bag.sealedBy, soldAt: iso(bag.soldAt), soldTo: bag.soldTo, note: bag.note },
    })),
    lots: kit.lots.map(({ threadId, batchId, lot, fromBag, toBag, at, who }) => ({
      ...{ threadId, batchId, lot, fromBag, toBag, at: at.toISOString(), who, thread: tagIn(kit, threadId) },
    })),
  }
}

/** Why nothing was written, in the words of the screens. */
export async function describeKitBagProblem(refusal: KitRefusal, projectId: string): Promise<Problem> {
  if (refusal.kind === 'no-such-project') return notFound('project', projectId)
  const master = await readMasterList(projectId)
  return new Problem('refused', describeKitRefusal(refusal, master?.lines ?? []))
}
