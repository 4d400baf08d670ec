import type { Answers } from '#lib/db/answers/answers'
import { type ChoiceAsked, type ChoiceQuestion, type NeverChosen, readChoice } from '#lib/db/planning/together/read-choice'
import { findDesignsCalled } from './found-designs'
import { type ChoosePageQuery, mostPutUps, type PageSource } from './schema'

/** What a page that asks shows: what is chosen from, and what cannot be. */
export type AskedPage = {
  query: ChoosePageQuery
  /** Designs found by the title typed; one alone was added. */
  found: string[]
  also: string[]
  usual: ChoiceQuestion
  candidates: ChoiceQuestion['candidates']
  never: NeverChosen[]
  pieces: ChoiceQuestion['pieces']
}

type Asked = Omit<ChoosePageQuery, 'from'> & { from: ChoosePageQuery['from'] | null }
type Shared = Pick<ChoiceAsked, 'ownerIds' | 'pieceIds' | 'isClothAside' | 'today'>

/**
 * Where nothing is said, the wishes are chosen from if they are enough, else what the screen chooses from otherwise; designs that were added by title
 * come to them.
 *
 * @param wantsWish  Whether the wishes are enough to choose from.
 * @param otherwise  Where they are not.
 */
export async function readAskedPage(
  answers: Answers,
  asked: Asked,
  shared: Shared,
  { wantsWish, otherwise }: { wantsWish: (question: ChoiceQuestion) => boolean; otherwise: PageSource },
): Promise<AskedPage> {
  // What may be bought is said in the form: everything is shown that buying could bring.
  const buying = { kind: 'put-ups', most: mostPutUps } as const
  const plain = { ...shared, buying, values: new Map<string, number>(), pins: new Map() }
  const wishes = asked.from === null ? await readChoice(answers, { ...plain, source: 'wished', designIds: null }) : null
  const from = asked.from ?? (wishes && wantsWish(wishes) ? 'wished' : otherwise)
  const found = asked.q === '' ? [] : findDesignsCalled(answers, asked.q)
  const also = [...new Set([...asked.also, ...(found.length === 1 ? found : [])])]
  const usual = wishes && from === 'wished' ? wishes : await readChoice(answers, { ...plain, source: from, designIds: null })
  const added = also.length === 0 ? null : await readChoice(answers, { ...plain, source: 'ticked', designIds: also })
  const known = new Set(usual.candidates.map(({ designId }) => designId))
  return {
    ...{ query: { ...asked, from }, found, also, usual },
    candidates: [...usual.candidates, ...(added?.candidates.filter(({ designId }) => !known.has(designId)) ?? [])],
    never: [...(added?.never ?? []), ...usual.never.filter(({ designId }) => !also.includes(designId))],
    pieces: [...new Map([...usual.pieces, ...(added?.pieces ?? [])].map((piece) => [piece.id, piece])).values()],
  }
}
