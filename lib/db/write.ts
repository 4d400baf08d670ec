import 'server-only'
import type { Result } from '#lib/result'
import { who } from './access/asking'
import { addAuditEntry } from './access/audit'
import { withDoer } from './access/doer'
import { writeOnce } from './access/once'
import { requireRight } from './access/right'
import { database } from './client'
import { type Write, writeTo } from './write-gate'

type Work<T, E> = (write: Write) => Promise<Result<T, E>>

/**
 * `writeTo` the process's own database: what screens and API use. Whoever may change nothing is stopped here, whichever way they came;
 * what carries a key is not done again; and what an account writes is written in the log of who did what, in the same transaction.
 *
 * @throws NotAllowed
 */
export function write<T, E>(work: Work<T, E>, timeoutMs?: number): Promise<Result<T, E>> {
  requireRight('change')
  return writeOnce(work, (claimed) => writeTo(database(), logged(claimed), timeoutMs))
}

function logged<T, E>(work: Work<T, E>): Work<T, E> {
  const asks = who()
  if (asks.kind !== 'account') return work
  return async (open) => {
    const touched = new Map<string, Set<string>>()
    const result = await work({
      ...open,
      tx: withDoer(open.tx, asks.name),
      touch: (noun, nounId) => {
        touched.set(noun, (touched.get(noun) ?? new Set()).add(nounId))
        open.touch(noun, nounId)
      },
    })
    if (result.ok) {
      const { tx, at, revision } = open
      const nouns = Object.fromEntries([...touched].map(([noun, ids]) => [noun, ids.size]))
      await addAuditEntry(tx, { kind: 'change', what: 'written', at, revision, detail: { nouns } })
    }
    return result
  }
}
