import 'server-only'
import type { WhatIf } from '#lib/coverage/engine'
import { byOutcome, type Outcome } from '#lib/coverage/what-if-outcome'
import type { Place } from '#lib/place/place'
import { openStatuses, type ProjectStatus, underWayStatuses } from '#lib/project/life-cycle'
import { compareExact, isOut } from '#lib/stock/batch'
import type { Answers } from '../answers/answers'

/** A project whose bag can be supposed unpacked. */
export type Bag = {
  projectId: string
  designId: string
  title: string
  status: ProjectStatus
  forWhom: string | null
  place: Place | null
  /** How many batches are promised to it, and how many others lie in its bag away from home. */
  promisedCount: number
  lyingCount: number
}

/**
 * The projects of these owners that have a bag or promises, those nearest to the needle first, then by title. A place of a project that is
 * finished or given up is a bag only as long as thread lies in it.
 */
export function listBags(answers: Answers, ownerIds: readonly string[]): Bag[] {
  const { batches, promises } = answers.world.stock
  const promised = new Map<string, Set<string>>()
  for (const { batchId, projectId } of [...promises.values()].flat()) {
    promised.set(projectId, (promised.get(projectId) ?? new Set()).add(batchId))
  }
  const lying = new Map<string, string[]>()
  for (const batch of [...batches.values()].flat()) {
    if (!isOut(batch) || batch.currentPlaceId === null) continue
    const known = lying.get(batch.currentPlaceId)
    if (known) known.push(batch.id)
    else lying.set(batch.currentPlaceId, [batch.id])
  }
  const rank = ({ status }: Bag) => {
    const at = (underWayStatuses as readonly string[]).indexOf(status)
    return at < 0 ? underWayStatuses.length : at
  }
  return [...answers.world.projects.values()]
    .filter(({ ownerId }) => ownerIds.includes(ownerId))
    .flatMap(({ id, designId, status, forWhom, placeId }): Bag[] => {
      const own = promised.get(id) ?? new Set()
      const lies = lying.get(placeId ?? '') ?? []
      const hasBag = placeId !== null && (lies.length > 0 || (openStatuses as readonly string[]).includes(status))
      if (own.size === 0 && !hasBag) return []
      return [
        {
          projectId: id,
          designId,
          title: answers.world.designs.get(designId)?.design.title ?? '',
          ...{ status, forWhom },
          place: hasBag ? (answers.world.places.get(placeId) ?? null) : null,
          promisedCount: own.size,
          lyingCount: lies.filter((batchId) => !own.has(batchId)).length,
        },
      ]
    })
    .sort((a, b) => rank(a) - rank(b) || compareExact(a.title, b.title) || compareExact(a.projectId, b.projectId))
}

export type WhatIfAsked = {
  /** Put-ups as their line sells them. */
  buy: readonly { threadId: string; putUps: number; lot: string | null }[]
  unpackProjectIds: readonly string[]
  /** From whose stock the designs are answered; what is bought is the first one's. */
  ownerIds: readonly string[]
}

/** What was asked about but cannot be supposed. */
export type NotSupposed =
  | { kind: 'no-such-thread' | 'no-such-project'; id: string }
  | { kind: 'empty-bag'; id: string; title: string }

export type WhatIfAnswer = { outcome: Record<Outcome, WhatIf[]>; notSupposed: NotSupposed[] }

/** Which designs would stand otherwise if thread were bought and bags unpacked; what cannot be supposed is named. Nothing is written. */
export function askWhatIf(answers: Answers, { buy, unpackProjectIds, ownerIds }: WhatIfAsked): WhatIfAnswer {
  const { world } = answers
  const notSupposed: NotSupposed[] = []
  const bags = new Map(listBags(answers, ownerIds).map((bag) => [bag.projectId, bag]))
  const buyer = ownerIds[0]
  const bought = buy.flatMap(({ threadId, putUps, lot }) => {
    const line = world.lines.get(world.threads.get(threadId)?.lineId ?? '')
    if (!line) notSupposed.push({ kind: 'no-such-thread', id: threadId })
    if (!line || buyer === undefined) return []
    return [{ threadId, putUps, lot, putUpStrandTenths: line.putUpStrandTenths, ownerId: buyer }]
  })
  const unpack = unpackProjectIds.flatMap((id) => {
    const bag = bags.get(id)
    if (bag) return [{ projectId: id, placeId: bag.place?.id ?? null }]
    const project = world.projects.get(id)
    const isTheirs = project !== undefined && ownerIds.includes(project.ownerId)
    const title = world.designs.get(project?.designId ?? '')?.design.title ?? ''
    notSupposed.push(isTheirs ? { kind: 'empty-bag', id, title } : { kind: 'no-such-project', id })
    return []
  })
  const changed = bought.length + unpack.length > 0 ? answers.whatIf(ownerIds, { buy: bought, unpack }) : []
  return { outcome: byOutcome(changed), notSupposed }
}
