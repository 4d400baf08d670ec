import { getInsuranceList } from '#api/insurance'
import { endpoint, serve } from '#api/serve'
import { listOwners } from '#lib/db/owner/owners'
import { getSettings } from '#lib/db/settings/settings'
import { insuredOwners, readInsurance } from '../../../_worth/read-insurance'

const get = serve(getInsuranceList, async ({ query }) => {
  const [owners, settings] = await Promise.all([listOwners(), getSettings()])
  const insured = insuredOwners(owners, query.owner ?? [])
  const list = await readInsurance(insured, settings)
  const dear = new Set(list.dear.map(({ key }) => key))
  return {
    owners: insured.map(({ name }) => name),
    totals: list.totals.map(({ partCount, ...total }) => ({ ...total, parts: partCount })),
    ...{ goodsMinor: list.goodsMinor, totalMinor: list.totalMinor, apartMinor: list.apartMinor },
    things: [...list.things, ...list.apart].map((thing) => ({
      ...{ noun: thing.noun, id: thing.id, class: thing.class, title: thing.title, description: thing.description },
      ...{ number: thing.number, count: thing.count, part: thing.partTenThousandths / 10_000, priceMinor: thing.oneMinor },
      ...{ valueMinor: thing.valueMinor, valuedBy: thing.valuedBy, owner: thing.ownerName, place: thing.placeLabel },
      ...{ boughtOn: thing.boughtOn, recordedOn: thing.recordedOn, recordedBy: thing.recordedBy },
      ...{ hasPhoto: thing.photoFile !== null, receipts: thing.receiptCount, irreplaceable: thing.irreplaceable },
      isDear: dear.has(thing.key),
    })),
  }
})

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ GET: get })
