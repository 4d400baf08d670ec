import 'server-only'
import type { Transaction } from '../client'
import { who } from './asking'

/** The name that stands beside what is done now: the account's, whatever was said; without accounts, what was said. */
export function doerName<Said extends string | null>(said: Said): Said | string {
  const asks = who()
  return asks.kind === 'account' ? asks.name : said
}

type Line = { who?: string | null }
const named = <L extends Line>(line: L, name: string): L => ({ ...line, who: line.who ?? name })

/**
 * A transaction in which no line of the journal goes without its doer's name. A line that has one keeps it: what is carried out now may
 * have been ticked by somebody else.
 */
export function withDoer(tx: Transaction, name: string): Transaction {
  const movement = new Proxy(tx.movement, {
    get(target, key) {
      const found = Reflect.get(target, key, target)
      if (key !== 'create' && key !== 'createMany') return typeof found === 'function' ? found.bind(target) : found
      return (asked: { data: Line | Line[] }) =>
        found.call(target, {
          ...asked,
          data: Array.isArray(asked.data) ? asked.data.map((line) => named(line, name)) : named(asked.data, name),
        })
    },
  })
  return new Proxy(tx, {
    get(target, key) {
      if (key === 'movement') return movement
      const found = Reflect.get(target, key, target)
      return typeof found === 'function' ? found.bind(target) : found
    },
  })
}
