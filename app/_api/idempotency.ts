import { createHash } from 'node:crypto'
import { Problem } from './problem'

/** The oldest key makes room; kept for as long as the process runs. */
const keysKept = 1_000

type Kept = { fingerprint: string; response: Promise<{ status: number; headers: [string, string][]; body: string }> }

// Routes are bundled apart; a key must be known to all of them.
const shared = globalThis as unknown as { larderIdempotency?: Map<string, Kept> }

const isKey = (key: string): boolean => /^[\x21-\x7e]{1,200}$/.test(key)

/**
 * Do something once for a key: a repeat, also one that comes while the first is still at work, is answered as the first was. What went
 * wrong through a fault of the program is not kept, so that it can be tried again.
 */
export async function answerOnce(
  asked: { key: string; path: string; body: string },
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
  const name = `${asked.path} ${asked.key}`
  const fingerprint = createHash('sha256').update(asked.body).digest('base64')
  const before = known.get(name)
  if (before && before.fingerprint !== fingerprint)
    return new Problem('key-reused', `The key ${JSON.stringify(asked.key)} came with another body before.`).toResponse()

  const response =
    before?.response ??
    work().then(async (fresh) => ({ status: fresh.status, headers: [...fresh.headers], body: await fresh.text() }))
  if (!before) {
    known.set(name, { fingerprint, response })
    if (known.size > keysKept) known.delete(known.keys().next().value as string)
    response.then(
      ({ status }) => status >= 500 && known.delete(name),
      () => known.delete(name),
    )
  }
  const { status, headers, body } = await response
  return new Response(body, { status, headers: before ? [...headers, ['idempotent-replay', 'true']] : headers })
}
