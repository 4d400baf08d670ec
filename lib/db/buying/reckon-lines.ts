import 'server-only'
import type { Answers } from '../answers/answers'
import { type BuyListRow, readBuyList } from '../order/read-buy-list'
import { readWants } from '../order/read-wants'
import type { ListFor } from './keep-list'
import type { NewLine } from './new-lines'

/** Lines for what one row says to buy: one for each length and pack of the mix; none when nothing is to be bought. */
export function linesOfRow({ line, mix }: Pick<BuyListRow, 'line' | 'mix'>): NewLine[] {
  if (line.putUps === 0) return []
  const of = {
    threadId: line.threadId,
    isOneLot: line.sameLot !== null,
    matchLot: line.sameLot?.lot ?? null,
  }
  const rest = { text: null, note: null }
  if (!mix) {
    const thread = { ...of, putUpWord: null, putUpStrandTenths: line.putUpStrandTenths, packPutUps: 1 }
    return [{ ...rest, thread, putUps: line.putUps, supplier: null, priceMinor: null }]
  }
  return mix.parts.map(({ offer: { putUpWord, putUpStrandTenths, packPutUps, supplier, priceMinor }, packs }) => ({
    ...rest,
    thread: { ...of, putUpWord, putUpStrandTenths, packPutUps },
    ...{ putUps: packs * packPutUps, supplier, priceMinor },
  }))
}

/**
 * What a list to shop by says for these designs and projects, as it is reckoned now: what must be bought and is not on a list or on order
 * yet.
 *
 * @param asked.withPerhaps  also what need only be bought if something at hand will not do
 */
export async function reckonLines(
  answers: Answers,
  asked: {
    designIds: readonly string[]
    listIds: readonly string[]
    projectIds: readonly string[]
    ownerIds: readonly string[]
    withPerhaps: boolean
  },
): Promise<{ wantedFor: ListFor[]; titles: string[]; lines: NewLine[] }> {
  const wanted = await readWants(answers, { ...asked, isLeastBuying: true })
  const rows = await readBuyList(
    answers,
    wanted.map(({ want }) => want),
    asked.ownerIds,
  )
  return {
    wantedFor: wanted.map(({ designId, project, listId, lists }) => ({
      ...{ designId, projectId: project?.id ?? null },
      listName: lists.find(({ id }) => id === listId)?.name || null,
    })),
    titles: wanted.map(({ title }) => title),
    lines: rows.filter(({ line }) => line.standing === 'buy' || asked.withPerhaps).flatMap(linesOfRow),
  }
}
