import { parseWholeNumber } from '#lib/quantity/number'
import { type Outcome, outcomes } from './what-if-outcome'

/** As many threads, and as many bags, as one question supposes. */
export const mostSupposed = 100
export const mostPutUpsSupposed = 10_000

export type SupposedPurchase = { threadId: string; putUps: number; lot: string | null }

/** A question as it stands in its address. */
export type WhatIfQuery = {
  buy: SupposedPurchase[]
  /** Ids of projects whose bags are supposed unpacked. */
  unpack: string[]
  /** Words a thread to be added is looked for by. */
  q: string
  /** The one kind of outcome that is shown in full; null for the first of each. */
  show: Outcome | null
  page: number
  /** Where what was typed as a number of put-ups is none: not supposed. */
  wrong: { threadId: string; text: string; lot: string | null }[]
}

type Params = Record<string, string | string[] | undefined>

const longestId = 100
const longestText = 200
const list = (value: string | string[] | undefined): string[] => (value === undefined ? [] : [value].flat())
const first = (value: string | string[] | undefined): string => (list(value)[0] ?? '').trim().slice(0, longestText)
const isId = (text: string): boolean => text !== '' && text.length <= longestId

/**
 * Read a question from an address: `buy.<thread>=2`, `lot.<thread>=18`, `unpack=<project>`. A thread whose number was emptied, or made
 * nought, is no longer among them.
 */
export function parseWhatIfQuery(params: Params): WhatIfQuery {
  const buy: SupposedPurchase[] = []
  const wrong: WhatIfQuery['wrong'] = []
  for (const [name, value] of Object.entries(params)) {
    if (!name.startsWith('buy.')) continue
    const threadId = name.slice('buy.'.length)
    const text = first(value)
    if (!isId(threadId) || text === '' || buy.length >= mostSupposed) continue
    const putUps = parseWholeNumber(text)
    const lot = first(params[`lot.${threadId}`]) || null
    if (putUps === null || putUps > mostPutUpsSupposed) wrong.push({ threadId, text, lot })
    else if (putUps > 0) buy.push({ threadId, putUps, lot })
  }
  const page = parseWholeNumber(first(params.page))
  return {
    buy,
    wrong,
    unpack: [...new Set(list(params.unpack).filter(isId))].slice(0, mostSupposed),
    q: first(params.q),
    show: outcomes.find((outcome) => outcome === first(params.show)) ?? null,
    page: page === null ? 1 : Math.max(1, page),
  }
}

/** The address of a question. */
export function whatIfHref({ buy, unpack, q, show, page }: Pick<WhatIfQuery, 'buy' | 'unpack'> & Partial<WhatIfQuery>): string {
  const query = new URLSearchParams()
  for (const { threadId, putUps, lot } of buy) {
    query.set(`buy.${threadId}`, String(putUps))
    if (lot !== null) query.set(`lot.${threadId}`, lot)
  }
  for (const projectId of unpack) query.append('unpack', projectId)
  if (q) query.set('q', q)
  if (show) query.set('show', show)
  if (page !== undefined && page > 1) query.set('page', String(page))
  const search = query.toString()
  return search === '' ? '/what-if' : `/what-if?${search}`
}
