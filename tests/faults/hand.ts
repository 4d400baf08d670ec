import { database } from '#lib/db/client'
import { type DeedName, deeds, type Given } from './deeds'
import { readShape } from './shape'

/** What a hand is told once: what to do, and how it ends. */
export type Told = {
  deed: DeedName
  given: Given
  /** So many writes, each told with the shape it left the collection in; so many and no more said; or on until it is killed from outside, or at a statement. */
  until:
    | { kind: 'writes'; count: number }
    | { kind: 'acts'; count: number }
    /** From outside, or by itself at a statement; after so many writes it rests, for nobody knows what comes then. */
    | { kind: 'killed'; most: number }
    | { kind: 'statement'; number: number; most: number }
}
export type Said =
  | 'ready'
  /** A write begins, or is over. */
  | 'begun'
  | 'over'
  | { revision: number; shape: string }
  /** How many statements it all took. */
  | { statements: number }

const say = (said: Said) => process.send?.(said)

/** A process of its own, bundled, so that starting it costs little: does one deed over and over. */
process.once('message', async ({ deed, given, until }: Told) => {
  const { prisma } = database()
  let statements = 0
  const heard = prisma as unknown as { $on(event: 'query', listener: () => void): void }
  heard.$on('query', () => {
    statements += 1
    if (until.kind === 'statement' && statements === until.number) process.kill(process.pid, 'SIGKILL')
  })
  let writes = 0
  say('begun')
  for await (const _ of deeds[deed](given)) {
    say('over')
    if (until.kind === 'writes') {
      const { number: revision } = await prisma.revision.findUniqueOrThrow({ where: { id: 'main' } })
      say({ revision, shape: await readShape(database()) })
    }
    writes += 1
    if ('count' in until && writes >= until.count) break
    if ('most' in until && writes >= until.most) await new Promise(() => setInterval(() => {}, 60_000))
    say('begun')
  }
  say({ statements })
  await prisma.$disconnect()
  process.disconnect()
})
// The first question opens the database and compiles the client, which is no part of any deed.
await database().prisma.revision.count()
say('ready')
