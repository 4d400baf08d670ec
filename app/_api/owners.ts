import { listOwners } from '#lib/db/owner/owners'
import { Problem } from './problem'

/** The owners whose goods are asked about: those named, else the collection's first. Owners are never mixed unasked. */
export async function chosenOwners(asked: readonly string[] | undefined): Promise<string[] | Problem> {
  const owners = await listOwners()
  if (!asked || asked.length === 0) return owners.slice(0, 1).map(({ id }) => id)
  const unknown = asked.find((id) => !owners.some((owner) => owner.id === id))
  if (unknown === undefined) return [...new Set(asked)]
  const errors = [{ parameter: 'owner', message: 'There is no such owner.', accepted: owners.map(({ id }) => id).join(', ') }]
  return new Problem('bad-parameter', `owner: there is no owner with the id ${JSON.stringify(unknown.slice(0, 100))}.`, {
    errors,
  })
}
