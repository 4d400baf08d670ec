import { filterCloth } from '#lib/cloth/filter-cloth'
import { listCloth } from '#lib/db/cloth/queries'
import { readChosen } from '#lib/db/listing/keep-chosen'
import { listNotions } from '#lib/db/notion/queries'
import { isChosen } from '#lib/listing/selection'
import { toBuy } from '#lib/notion/to-buy'
import type { LengthUnit } from '#lib/quantity/cloth-length'
import { pieceTitle } from '#words/cloth'
import { notionTitle } from '#words/notion'
import { clothQuerySchema, filterOf } from './cloth-query'
import { type NotionsQuery, notionsQuerySchema } from './notions-query'
import { searchOfUrl } from './search-of-url'

export type ChosenThing = { id: string; title: string; homeLabel: string | null }
export type ChosenThings = { things: ChosenThing[]; filter: string }

/** What was chosen of the list of cloth or of notions, as it stands now; null where that is no longer kept. */
export async function chosenThings(
  room: 'cloth' | 'notions',
  chosenId: string,
  { ownerIds, unit }: { ownerIds: readonly string[]; unit: LengthUnit },
): Promise<ChosenThings | null> {
  const kept = await readChosen(chosenId)
  if (kept?.room !== room) return null
  const search = searchOfUrl(`/${room}?${kept.filter}`)
  const all =
    room === 'cloth'
      ? filterCloth(await listCloth(ownerIds), filterOf(clothQuerySchema.parse(search), unit).filter).shown.map((piece) => ({
          ...{ id: piece.id, title: pieceTitle(piece), homeLabel: piece.home?.label ?? null },
        }))
      : (await listNotions(ownerIds)).filter(notionMatches(notionsQuerySchema.parse(search))).map((notion) => ({
          ...{ id: notion.id, title: notionTitle(notion), homeLabel: notion.home?.label ?? null },
        }))
  return { things: all.filter(({ id }) => isChosen(kept.selection, id)), filter: kept.filter }
}

/** Whether a notion is among those the choices above the list ask for. */
export const notionMatches =
  (query: NotionsQuery) =>
  (notion: Awaited<ReturnType<typeof listNotions>>[number]): boolean =>
    (query.kind === null || notion.kind === query.kind) &&
    (query.place === null || notion.current?.id === query.place) &&
    (query.low === null || toBuy(notion) !== null) &&
    (query.used === null || notion.usedBy !== null)
