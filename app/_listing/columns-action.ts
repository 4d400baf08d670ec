'use server'

import { revalidatePath } from 'next/cache'
import { cookies } from 'next/headers'
import { z } from 'zod'
import { columnsText, withMoved, withTicked } from '#lib/listing/columns'
import { columnsCookie, listRooms } from './columns-of'

const yearSeconds = 365 * 24 * 3600

const keys = z
  .string()
  .max(1_000)
  .transform((text) => text.split('.').filter((key) => /^[a-z]{1,20}$/.test(key)))

const fieldsSchema = z.object({
  room: z.enum(listRooms),
  /** Those shown, in their order, and all there are. */
  shown: keys,
  every: keys,
  fixed: z.string().max(20),
  isUsual: z.literal('1').nullable().catch(null),
  /** "place -1": one step forwards. */
  move: z
    .string()
    .regex(/^[a-z]{1,20} -?1$/)
    .nullable()
    .catch(null),
})

/** Keep which columns of a list are shown on this device, and in what order. */
export async function chooseColumnsAction(form: FormData): Promise<void> {
  const { room, shown, every, fixed, isUsual, move } = fieldsSchema.parse({
    ...{ room: form.get('room'), shown: form.get('shown'), every: form.get('every'), fixed: form.get('fixed') },
    ...{ isUsual: form.get('usual'), move: form.get('move') },
  })
  const jar = await cookies()
  if (isUsual !== null) jar.delete(columnsCookie(room))
  else {
    const ticked = new Set(form.getAll('c').map(String))
    const kept = withTicked(shown, ticked, { every, usual: [], fixed })
    const [key, step] = move?.split(' ') ?? []
    const columns = key === undefined ? kept : withMoved(kept, key, step === '-1' ? -1 : 1)
    jar.set(columnsCookie(room), columnsText(columns), { path: '/', maxAge: yearSeconds, sameSite: 'lax', httpOnly: true })
  }
  revalidatePath(`/${room}`)
}
