import { listDoublesOperation } from '#api/doubles'
import { endpoint, serve } from '#api/serve'
import {
  listChartDoubles,
  listDesignerDoubles,
  listMakerDoubles,
  listThreadDoubles,
  type NamePair,
  type ThreadCard,
} from '#lib/db/merging/suggested'
import { listOwners } from '#lib/db/owner/owners'

const mostPairs = 200

const ofNames = (pairs: readonly NamePair[]) =>
  pairs.map(({ first, second, reason }) => ({
    ...{ firstId: first.id, firstName: first.name, secondId: second.id, secondName: second.name },
    ...{ reasons: [reason], doubts: [] },
  }))

const nameOf = ({ makerName, lineName, code }: ThreadCard) => [makerName, lineName, code].filter(Boolean).join(' ')

async function pairsOf(noun: 'chart' | 'designer' | 'thread' | 'maker' | 'line') {
  switch (noun) {
    case 'chart': {
      const owners = await listOwners()
      return (await listChartDoubles(owners.map(({ id }) => id))).map(({ pair, first, second }) => ({
        ...{ firstId: first.id, firstName: first.title, secondId: second.id, secondName: second.title },
        ...{ reasons: pair.reasons.map(({ kind }) => kind), doubts: pair.doubts },
      }))
    }
    case 'designer':
      return ofNames(await listDesignerDoubles())
    case 'thread':
      return (await listThreadDoubles()).map(({ first, second, reasons }) => ({
        ...{ firstId: first.id, firstName: nameOf(first), secondId: second.id, secondName: nameOf(second) },
        ...{ reasons, doubts: [] },
      }))
    case 'maker':
      return ofNames((await listMakerDoubles()).makers)
    case 'line':
      return ofNames((await listMakerDoubles()).lines)
  }
}

const list = serve(listDoublesOperation, async ({ query }) => {
  const pairs = await pairsOf(query.noun)
  return { pairs: pairs.slice(0, mostPairs), found: pairs.length }
})

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ GET: list })
