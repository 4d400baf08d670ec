import { askApi, designCalled, ownerCalled } from './api-steps'
import { shop } from './sample-files'
import type { House } from './visitor'

/** A way a line is sold, a list to shop by and one that is done with. @returns their addresses */
export async function openShopping(house: House): Promise<string[]> {
  const [{ designId }, ownerId] = await Promise.all([designCalled(house, 'Rook Hill in Snow'), ownerCalled(house, shop)])
  const keep = (title: string) =>
    askApi<{ listId: string; lines: { thread: { threadId: string } | null }[] }>(house, '/buy/lists', {
      title,
      ownerId,
      designs: [designId],
      withPerhaps: true,
      lines: [{ text: 'needles 26', putUps: 2 }],
    })
  const [saturday, done] = [await keep('Saturday'), await keep('Last week')]
  await askApi(house, `/buy/lists/${done.listId}/close`, { status: 'done' })
  const threadId = saturday.lines.find(({ thread }) => thread !== null)?.thread?.threadId
  const { lineId } = await askApi<{ lineId: string }>(house, `/threads/${threadId}`)
  const { offer } = await askApi<{ offer: { offerId: string } }>(house, `/lines/${lineId}/offers`, {
    ...{ supplier: 'Marl Street', putUpStrandTenths: 480_000, packPutUps: 12, priceMinor: 1_500 },
  })
  return [`/buy/lists/${saturday.listId}`, `/buy/lists/${done.listId}`, `/threads/lines/${lineId}/offers/${offer.offerId}`]
}
