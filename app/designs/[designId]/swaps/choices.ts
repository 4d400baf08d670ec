import { z } from 'zod'
import { hexToLab } from '#lib/colour/convert'
import type { Lab } from '#lib/colour/lab'

const text = z.string().min(1).max(200).optional().catch(undefined)
const many = z
  .union([z.string(), z.array(z.string())])
  .optional()
  .transform((value) => [value ?? []].flat().slice(0, 200))

/** What the page's address says: the list, the cloth, the project, and what was chosen by hand. */
const addressSchema = z.object({
  list: text,
  piece: text,
  cloth: text,
  project: text,
  same: text,
  pick: many,
  buy: many,
  merge: many,
})

/** Between two ids in the address; no id holds one. */
const between = '~'

export type SwapAddress = {
  list: string | undefined
  piece: string | undefined
  /** The cloth's colour by hand, as typed. */
  cloth: string | undefined
  project: string | undefined
  keepsDyeing: boolean
  /** By charted thread: its stand-in, or null for buying it as charted. */
  picks: ReadonlyMap<string, string | null>
  merges: readonly (readonly [string, string])[]
}

const pairs = (values: readonly string[]): [string, string][] =>
  values.flatMap((value) => {
    const [one, other, ...more] = value.split(between)
    return one && other && more.length === 0 ? [[one, other] as [string, string]] : []
  })

export function readAddress(searchParams: Record<string, unknown>): SwapAddress {
  const { pick, buy, merge, same, ...rest } = addressSchema.parse(searchParams)
  return {
    ...rest,
    list: rest.list,
    piece: rest.piece,
    cloth: rest.cloth,
    project: rest.project,
    keepsDyeing: same !== undefined,
    picks: new Map<string, string | null>([
      ...buy.map((threadId) => [threadId, null] as const),
      ...pairs(pick).map(([threadId, standInId]) => [threadId, standInId] as const),
    ]),
    merges: pairs(merge),
  }
}

/** The choices as name and value pairs, for an address or a form's hidden fields. */
export function addressPairs(address: SwapAddress): [string, string][] {
  const { list, piece, cloth, project, keepsDyeing, picks, merges } = address
  const said: [string, string | undefined][] = [
    ['list', list],
    ['piece', piece],
    ['cloth', cloth],
    ['project', project],
    ['same', keepsDyeing ? '1' : undefined],
  ]
  return [
    ...said.flatMap(([name, value]) => (value === undefined ? [] : [[name, value] as [string, string]])),
    ...[...picks].map(([threadId, standInId]): [string, string] =>
      standInId === null ? ['buy', threadId] : ['pick', `${threadId}${between}${standInId}`],
    ),
    ...merges.map(([one, other]): [string, string] => ['merge', `${one}${between}${other}`]),
  ]
}

export function swapsHref(designId: string, address: SwapAddress): string {
  const query = new URLSearchParams(addressPairs(address)).toString()
  return `/designs/${designId}/swaps${query === '' ? '' : `?${query}`}`
}

/** The same choices with one thread chosen otherwise: a stand-in, null for buying it, undefined for leaving it to the assignment. */
export function withPick(address: SwapAddress, threadId: string, standInId: string | null | undefined): SwapAddress {
  const picks = new Map(address.picks)
  picks.delete(threadId)
  if (standInId !== undefined) picks.set(threadId, standInId)
  return { ...address, picks }
}

export const withMerge = (address: SwapAddress, one: string, other: string): SwapAddress => ({
  ...address,
  merges: [...address.merges, [one, other]],
})

export const withoutMerges = (address: SwapAddress): SwapAddress => ({ ...address, merges: [] })

/** The colour typed by hand; null when there is none or it does not read. */
export const clothByHand = (address: SwapAddress): Lab | null => (address.cloth ? hexToLab(address.cloth.trim()) : null)
