import 'server-only'
import { pairKey } from '#lib/chart/doubles-suggested'
import { ok, type Result, refused } from '#lib/result'
import { database } from '../client'
import { newId } from '../new-id'
import { beyondSight } from '../sight/sighted-client'
import { write } from '../write'
import type { MergingRefusal } from './merging-refusal'

/** A line is told apart as its maker is. */
export const toldApartNouns = ['chart', 'designer', 'thread', 'maker'] as const
export type ToldApartNoun = (typeof toldApartNouns)[number]

/** Remember that two things are not the same, so that they are not suggested again. Saying it twice changes nothing. */
export function tellApart(input: {
  noun: ToldApartNoun
  firstId: string
  secondId: string
  who?: string | null
}): Promise<Result<null, Extract<MergingRefusal, { kind: 'same-thing' | 'no-such-thing' }>>> {
  return write<null, Extract<MergingRefusal, { kind: 'same-thing' | 'no-such-thing' }>>(async ({ tx, at }) => {
    const { noun, who = null } = input
    if (input.firstId === input.secondId) return refused({ kind: 'same-thing' })
    const [firstId, secondId] = [input.firstId, input.secondId].sort() as [string, string]
    for (const id of [firstId, secondId]) {
      const there = await {
        chart: () => tx.chart.count({ where: { id } }),
        designer: () => tx.designer.count({ where: { id } }),
        thread: () => tx.thread.count({ where: { id } }),
        maker: async () => (await tx.maker.count({ where: { id } })) + (await tx.threadLine.count({ where: { id } })),
      }[noun]()
      if (there === 0) return refused({ kind: 'no-such-thing', noun, id })
    }
    const known = await tx.toldApart.count({ where: { firstId, secondId } })
    if (known === 0) await tx.toldApart.create({ data: { id: newId(), noun, firstId, secondId, at, who } })
    return ok(null)
  })
}

/** Forget that two things were told apart. */
export function forgetTellingApart(input: { firstId: string; secondId: string }): Promise<Result<null, never>> {
  return write<null, never>(async ({ tx }) => {
    const [firstId, secondId] = [input.firstId, input.secondId].sort() as [string, string]
    // Of charts that are not seen nothing is forgotten either.
    const both = { where: { id: { in: [firstId, secondId] } } }
    const areSeen = (await tx.chart.count(both)) === (await beyondSight(tx).chart.count(both))
    if (areSeen) await tx.toldApart.deleteMany({ where: { firstId, secondId } })
    return ok(null)
  })
}

/** The pairs told apart of a noun, by `pairKey`. */
export async function readToldApart(noun: ToldApartNoun): Promise<Set<string>> {
  const rows = await database().prisma.toldApart.findMany({ where: { noun }, select: { firstId: true, secondId: true } })
  return new Set(rows.map(({ firstId, secondId }) => pairKey(firstId, secondId)))
}

export type ToldApartPair = { firstId: string; firstName: string; secondId: string; secondName: string; at: Date }

/** The pairs told apart of some nouns that are both still there, the latest first. */
export async function listToldApart(nouns: readonly ToldApartNoun[], limit: number): Promise<ToldApartPair[]> {
  const { prisma } = database()
  const rows = await prisma.toldApart.findMany({
    where: { noun: { in: [...nouns] } },
    orderBy: [{ at: 'desc' }, { id: 'desc' }],
    take: limit,
  })
  const id = { in: rows.flatMap(({ firstId, secondId }) => [firstId, secondId]) }
  const names = new Map<string, string>()
  for (const chart of await prisma.chart.findMany({ where: { id, goneAt: null }, select: { id: true, title: true } }))
    names.set(chart.id, chart.title)
  const named = { where: { id }, select: { id: true, name: true } } as const
  for (const row of [
    ...(await prisma.designer.findMany(named)),
    ...(await prisma.maker.findMany(named)),
    ...(await prisma.threadLine.findMany(named)),
  ])
    names.set(row.id, row.name)
  const threads = await prisma.thread.findMany({
    where: { id, goneAt: null },
    select: { id: true, code: true, line: { select: { name: true, maker: { select: { name: true } } } } },
  })
  for (const thread of threads)
    names.set(thread.id, [thread.line.maker.name, thread.line.name, thread.code].filter(Boolean).join(' '))
  return rows.flatMap(({ firstId, secondId, at }) => {
    const [firstName, secondName] = [names.get(firstId), names.get(secondId)]
    return firstName === undefined || secondName === undefined ? [] : [{ firstId, firstName, secondId, secondName, at }]
  })
}
