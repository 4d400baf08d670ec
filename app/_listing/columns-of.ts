import { cookies } from 'next/headers'
import { type ColumnsKnown, readColumns } from '#lib/listing/columns'

/** Lists whose columns can be chosen. */
export const listRooms = ['charts', 'threads', 'cloth', 'notions', 'projects'] as const
export type ListRoom = (typeof listRooms)[number]

export const columnsCookie = (room: ListRoom): string => `larder-columns-${room}`

/** The columns of a list as they were chosen on this device. */
export async function columnsOf<Key extends string>(room: ListRoom, known: ColumnsKnown<Key>): Promise<Key[]> {
  const jar = await cookies()
  return readColumns(jar.get(columnsCookie(room))?.value, known)
}
