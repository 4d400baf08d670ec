'use server'

import { revalidatePath } from 'next/cache'
import { z } from 'zod'
import type { FormState } from '#forms/form-state'
import { invalid } from '#forms/invalid'
import { textFields } from '#forms/text-fields'
import { say } from '#language/say'
import { moveSavedFilter, removeSavedFilter, renameSavedFilter, saveFilter } from '#lib/db/settings/saved-filters'
import { filterRooms, longestFilter, longestFilterName } from '#lib/settings/saved-filters'
import { describeFilterRefusal } from '#words/saved-filters'

const nameSchema = z
  .string()
  .trim()
  .min(1, { error: () => say('Give it a name, such as “Christmas, stitchable now”.') })
  .max(longestFilterName, { error: () => say('A name has at most {longestFilterName} letters.', { longestFilterName }) })

const saveSchema = z.object({ room: z.enum(filterRooms), filter: z.string().max(longestFilter), name: nameSchema })

export async function saveFilterAction(_previous: FormState, form: FormData): Promise<FormState> {
  const values = textFields(form)
  const input = saveSchema.safeParse(values)
  if (!input.success) return invalid(input.error, values)
  const result = await saveFilter(input.data)
  if (!result.ok) return { status: 'refused', message: describeFilterRefusal(result.error), values }
  revalidatePath(`/${input.data.room}`)
  return { status: 'done', message: say('Kept as {name}.', { name: input.data.name }) }
}

const changeSchema = z.object({
  room: z.enum(filterRooms),
  /** The name it has. */
  named: z.string().max(longestFilterName),
  name: nameSchema,
  act: z.enum(['rename', 'remove', 'earlier', 'later']).catch('rename'),
})

export async function changeFilterAction(_previous: FormState, form: FormData): Promise<FormState> {
  const values = textFields(form)
  const input = changeSchema.safeParse(values)
  if (!input.success) return invalid(input.error, values)
  const { room, named, name, act } = input.data
  const one = { room, name: named }
  const result =
    act === 'rename'
      ? await renameSavedFilter(one, name)
      : act === 'remove'
        ? await removeSavedFilter(one)
        : await moveSavedFilter(one, act === 'earlier' ? -1 : 1)
  if (!result.ok) return { status: 'refused', message: describeFilterRefusal(result.error), values }
  revalidatePath(`/${room}`)
  return { status: 'done' }
}
