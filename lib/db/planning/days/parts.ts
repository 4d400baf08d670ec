import 'server-only'
import { database } from '../../client'

/** A part of a stitch-along. Days are yyyy-mm-dd. */
export type Part = {
  id: string
  version: number
  position: number
  name: string
  comesOn: string | null
  dueOn: string | null
  stitches: number | null
  doneOn: string | null
}

const partColumns = {
  ...{ id: true, version: true, position: true, name: true, comesOn: true, dueOn: true, stitches: true, doneOn: true },
} as const

/** A project's parts in their order. */
export const listParts = (projectId: string): Promise<Part[]> =>
  database().prisma.stitchAlongPart.findMany({ where: { projectId }, select: partColumns, orderBy: { position: 'asc' } })
