import { z } from 'zod'
import { readInsured } from '#lib/db/insurance/read-insured'
import type { Owner } from '#lib/db/owner/owners'
import { type InsuranceList, insuranceList } from '#lib/insurance/insurance-list'
import type { Settings } from '#lib/settings/settings'

/** Whose goods, as it stands in an address. */
export const insuranceQuerySchema = z.object({
  owner: z
    .union([z.string(), z.array(z.string())])
    .optional()
    .transform((asked) => (asked === undefined ? [] : [asked].flat())),
})

/** Those asked for; where nobody was, the stashes at home: a shop's stock is insured with the shop. */
export function insuredOwners(owners: readonly Owner[], asked: readonly string[]): Owner[] {
  const chosen = owners.filter(({ id }) => asked.includes(id))
  return chosen.length > 0 ? chosen : owners.filter(({ kind }) => kind === 'own')
}

export async function readInsurance(owners: readonly Owner[], settings: Settings): Promise<InsuranceList> {
  const things = await readInsured(owners.map(({ id }) => id))
  return insuranceList(things, { replacement: settings.replacement, dearMinor: settings.dearMinor })
}
