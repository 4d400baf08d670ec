import 'server-only'
import { createHash } from 'node:crypto'
import pg from 'pg'
import { type RateLimiterAbstract, RateLimiterMemory, RateLimiterPostgres, RateLimiterRes } from 'rate-limiter-flexible'
import { addressKey, triesByAddress, triesByName, triesWithinSeconds } from '#lib/access/sign-in'
import { textKey } from '#lib/quantity/text-key'
import { beforeShutdown } from '../before-shutdown'
import { database } from '../client'

type Limits = { url: string; byName: RateLimiterAbstract; byAddress: RateLimiterAbstract }

const shared = globalThis as unknown as { larderSignInLimits?: Promise<Limits> }

/** Counted in this process on SQLite, which has one; in a table of their own where several processes serve one PostgreSQL. */
async function openLimits(url: string, engine: 'sqlite' | 'postgresql'): Promise<Limits> {
  const name = { keyPrefix: 'name', points: triesByName, duration: triesWithinSeconds }
  const address = { keyPrefix: 'address', points: triesByAddress, duration: triesWithinSeconds }
  if (engine === 'sqlite') return { url, byName: new RateLimiterMemory(name), byAddress: new RateLimiterMemory(address) }
  const pool = new pg.Pool({ connectionString: url, max: 2, idleTimeoutMillis: 10_000, allowExitOnIdle: true })
  // A connection lost while it lay idle is opened anew when it is wanted.
  pool.on('error', () => {})
  beforeShutdown('limits of signing in', () => pool.end())
  const open = (options: typeof name) =>
    new Promise<RateLimiterAbstract>((resolve, reject) => {
      const limiter: RateLimiterPostgres = new RateLimiterPostgres(
        {
          ...options,
          storeClient: pool,
          storeType: 'pool',
          tableName: 'sign_in_tries',
          insuranceLimiter: new RateLimiterMemory(options),
        },
        (error?: Error) => (error ? reject(error) : resolve(limiter)),
      )
    })
  return { url, byName: await open(name), byAddress: await open(address) }
}

async function limits(): Promise<Limits> {
  const { url, engine } = database()
  let opened = await shared.larderSignInLimits?.catch(() => undefined)
  if (opened?.url !== url) {
    shared.larderSignInLimits = openLimits(url, engine)
    opened = await shared.larderSignInLimits
  }
  return opened as Limits
}

/** Names are typed by anybody and may be of any length: a digest stands for each. */
const nameKeyOf = (name: string): string => createHash('sha256').update(textKey(name)).digest('base64url')

/** How long a limiter has one wait; 0 where it lets one through. Anything but a limit is the world broken, and thrown. */
async function take(limiter: RateLimiterAbstract, key: string): Promise<{ waitSeconds: number; isFirstRefusal: boolean }> {
  try {
    await limiter.consume(key)
    return { waitSeconds: 0, isFirstRefusal: false }
  } catch (limited) {
    if (!(limited instanceof RateLimiterRes)) throw limited
    return {
      waitSeconds: Math.max(1, Math.ceil(limited.msBeforeNext / 1000)),
      isFirstRefusal: limited.consumedPoints === limiter.points + 1,
    }
  }
}

export type Try = { waitSeconds: number; isFirstRefusal: boolean }

/** Count a try to sign in, before anything is looked at, so that many at once are no way round. */
export async function countTry(name: string, address: string): Promise<Try> {
  const { byName, byAddress } = await limits()
  const fromAddress = await take(byAddress, addressKey(address))
  if (fromAddress.waitSeconds > 0) return fromAddress
  return take(byName, nameKeyOf(name))
}

/** Count a try that names nobody: a passkey. */
export async function countAddressTry(address: string): Promise<Try> {
  return take((await limits()).byAddress, addressKey(address))
}

/** It was the right one: the tries before it were mistyped. */
export async function forgetTries(name: string): Promise<void> {
  await (await limits()).byName.delete(nameKeyOf(name))
}
