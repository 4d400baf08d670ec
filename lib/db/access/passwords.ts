import 'server-only'
import { randomUUID } from 'node:crypto'
import { hash, verify } from '@node-rs/argon2'
import { sameText } from '#lib/access/password'

/** OWASP Password Storage Cheat Sheet, Argon2id: 19 MiB, two passes, one thread. Algorithm 2 is Argon2id. */
const figures = { algorithm: 2, memoryCost: 19_456, timeCost: 2, parallelism: 1 }

/** Each takes 19 MiB and a core for some 30 ms: more than two at a time would keep everybody else waiting. */
const mostAtOnce = 2
let running = 0
const waiting: (() => void)[] = []

async function inTurn<T>(work: () => Promise<T>): Promise<T> {
  if (running >= mostAtOnce) await new Promise<void>((resolve) => waiting.push(resolve))
  else running++
  try {
    return await work()
  } finally {
    const next = waiting.shift()
    if (next) next()
    else running--
  }
}

/** An Argon2id text with its salt and figures, to be kept. */
export const hashPassword = (password: string): Promise<string> => inTurn(() => hash(sameText(password), figures))

let nobodys: Promise<string> | undefined

/**
 * Whether it is the password. An account that does not exist, or has none, takes as long to answer: pass null.
 */
export async function isPassword(kept: string | null, password: string): Promise<boolean> {
  nobodys ??= hashPassword(randomUUID())
  const against = kept ?? (await nobodys)
  const isRight = await inTurn(() => verify(against, sameText(password)))
  return kept !== null && isRight
}
