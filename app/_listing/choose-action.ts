'use server'

import { redirect } from 'next/navigation'
import { z } from 'zod'
import { keepChosen } from '#lib/db/listing/keep-chosen'
import { allChosen, readSelection, type Selection } from '#lib/listing/selection'
import { bulkAddress } from './bulk-address'

const fieldsSchema = z.object({
  room: z.enum(['charts', 'threads', 'cloth', 'notions', 'projects']),
  filter: z.string().max(4_000),
  /** As scripts keep it; without them the ticks of the page come by themselves. */
  chosen: z.string().max(2_000_000).catch(''),
  scope: z.enum(['ticked', 'found']).catch('ticked'),
})

const ticksSchema = z.array(z.string().min(1).max(64)).max(1_000)

/** Go on with what was chosen of a list, to where one says what is to be done with it. */
export async function chooseAction(form: FormData): Promise<void> {
  const { room, filter, chosen, scope } = fieldsSchema.parse({
    ...{ room: form.get('room'), filter: form.get('filter') },
    ...{ chosen: form.get('chosen') ?? '', scope: form.get('scope') ?? 'ticked' },
  })
  const ticked: Selection = { kind: 'these', ids: new Set(ticksSchema.catch([]).parse(form.getAll('t'))) }
  const selection = scope === 'found' ? allChosen : ((chosen === '' ? null : readSelection(chosen)) ?? ticked)
  const { chosenId } = await keepChosen({ room, filter, selection })
  redirect(`${bulkAddress[room]}?chosen=${chosenId}`)
}
