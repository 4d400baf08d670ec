import 'server-only'
import type { Transaction } from '../client'

/** What a file can be kept with. */
export const filedNouns = ['chart', 'cloth', 'notion', 'project'] as const
export type FiledNoun = (typeof filedNouns)[number]
export type FiledThing = { noun: FiledNoun; id: string }

/** The column of a file's row that names the thing. */
export const thingColumn = {
  chart: 'chartId',
  cloth: 'clothPieceId',
  notion: 'notionId',
  project: 'projectId',
} as const satisfies Record<FiledNoun, string>

/** Whose the thing is; null when it is not there, or gone. */
export async function ownerOfThing(tx: Transaction, { noun, id }: FiledThing): Promise<string | null> {
  const one = { where: { id, goneAt: null }, select: { ownerId: true } }
  switch (noun) {
    case 'chart':
      return (await tx.chart.findFirst(one))?.ownerId ?? null
    case 'cloth':
      return (await tx.clothPiece.findFirst(one))?.ownerId ?? null
    case 'notion':
      return (await tx.notion.findFirst(one))?.ownerId ?? null
    case 'project':
      return (await tx.project.findFirst(one))?.ownerId ?? null
  }
}
