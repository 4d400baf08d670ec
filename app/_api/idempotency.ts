import { createHash } from 'node:crypto'
import { who } from '#lib/db/access/asking'
import { type Once, onlyOnce } from '#lib/db/access/once'
import { Problem } from './problem'

/** Of requests that wrote nothing so many answers are kept, as long as the process runs; the oldest makes room. */
const answersKept = 1_000

type Answer = { status: number; headers: [string, string][]; body: string }
type Kept = { fingerprint: string; outcome: Promise<Once<Answer>> }

// Routes are bundled apart; a key must be known to all of them.
const shared = globalThis as unknown as { larderIdempotency?: Map<string, Kept> }

const isKey = (key: string): boolean => /^[\x21-\x7e]{1,200}$/.test(key)

/** A key belongs to who sends it. */
const whose = (): string => {
  const asks = who()
  return asks.kind === 'account' ? asks.accountId : asks.kind
}

/**
 * Do something once for a key: a repeat, also one that comes while the first is still at work, after the program was started anew or to
 * another process, is answered as the first was. What went wrong through a fault of the program and wrote nothing is not kept, so that it
 * can be tried again.
 */
export async function answerOnce(
  asked: { key: string; operation: string; path: string; body: string | Uint8Array },
  work: () => Promise<Response>,
): Promise<Response> {
  if (!isKey(asked.key)) {
    const errors = [
      { parameter: 'Idempotency-Key', message: 'It is not a key.', accepted: '1 to 200 printable characters without spaces' },
    ]
    return new Problem('bad-parameter', 'The Idempotency-Key header cannot be used.', { errors }).toResponse()
  }
  shared.larderIdempotency ??= new Map()
  const known = shared.larderIdempotency
  const scope = `${whose()} ${asked.operation} ${asked.path} ${asked.key}`
  const fingerprint = createHash('sha256').update(asked.body).digest('base64')
  const before = known.get(scope)
  if (before && before.fingerprint !== fingerprint) return reused(asked.key)

  const outcome =
    before?.outcome ??
    onlyOnce<Answer>(
      { scope, fingerprint },
      async () => {
        const fresh = await work()
        return { status: fresh.status, headers: [...fresh.headers], body: await fresh.text() }
      },
      { pack: (answer) => JSON.stringify(answer) },
    )
  if (!before) {
    known.set(scope, { fingerprint, outcome })
    if (known.size > answersKept) known.delete(known.keys().next().value as string)
    outcome.then(
      (once) => (once.kind !== 'done' || once.answer.status >= 500) && known.delete(scope),
      () => known.delete(scope),
    )
  }
  const once = await outcome
  switch (once.kind) {
    case 'done':
      return respond(once.answer, before !== undefined)
    case 'answered':
      return respond(JSON.parse(once.answerJson) as Answer, true)
    case 'answer-lost':
      return new Problem(
        'already-done',
        'That was already done, when this key came the first time; what was answered then is not known any more.',
      ).toResponse()
    case 'other-content':
      return reused(asked.key)
  }
}

const reused = (key: string): Response =>
  new Problem('key-reused', `The key ${JSON.stringify(key)} came with another body before.`).toResponse()

const respond = ({ status, headers, body }: Answer, isReplay: boolean): Response =>
  new Response(body, { status, headers: isReplay ? [...headers, ['idempotent-replay', 'true']] : headers })
