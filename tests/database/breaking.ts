import type { Database } from '#lib/db/client'

/** What a write that was broken off throws. */
export class LampWentOut extends Error {
  constructor() {
    super('the lamp went out')
  }
}

const writes = new Set(['create', 'createMany', 'update', 'updateMany', 'upsert', 'delete', 'deleteMany'])

/**
 * The same database, of which every write breaks off in the middle: at its so manyth statement that changes a row, the raising of the
 * revision being the first. A write that needs fewer goes through.
 */
export function breakingOff(database: Database, atStatement: number): Database {
  const prisma = new Proxy(database.prisma, {
    get(client, name) {
      if (name !== '$transaction') return Reflect.get(client, name)
      return (work: (tx: object) => Promise<unknown>, options: object) => {
        let statements = 0
        const count = () => {
          statements += 1
          if (statements === atStatement) throw new LampWentOut()
        }
        return client.$transaction((tx) => work(counted(tx, count)), options)
      }
    },
  })
  return { ...database, prisma }
}

/** A transaction that reports each statement that changes a row before it is sent. */
function counted(tx: object, count: () => void): object {
  const counting =
    (call: (...given: unknown[]) => unknown) =>
    (...given: unknown[]) => {
      count()
      return call(...given)
    }
  return new Proxy(tx, {
    get(target, name) {
      const value = Reflect.get(target, name)
      if (typeof value === 'function')
        return String(name).startsWith('$execute') ? counting(value.bind(target)) : value.bind(target)
      if (typeof value !== 'object' || value === null) return value
      return new Proxy(value, {
        get(model, verb) {
          const method = Reflect.get(model, verb)
          if (typeof method !== 'function') return method
          return writes.has(String(verb)) ? counting(method.bind(model)) : method.bind(model)
        },
      })
    },
  })
}
