// A process of its own that asks a server as several people do, and says how long each answer took.
import http from 'node:http'
import autocannon from 'autocannon'
import { type Random, seededRandom } from '#seed/random'

export const looks = ['find', 'charts', 'design', 'place', 'coverage'] as const
export const changes = ['receive', 'use', 'move', 'tick', 'promise', 'log'] as const
export type Kind = (typeof looks)[number] | (typeof changes)[number] | 'health'

/** In a hundred: ninety look, ten change something. */
const shares: readonly (readonly [Kind, number])[] = [
  ...([
    ['find', 25],
    ['charts', 25],
    ['design', 15],
    ['place', 10],
    ['coverage', 15],
  ] as const),
  ...([
    ['receive', 2],
    ['use', 2],
    ['move', 2],
    ['tick', 2],
    ['promise', 1],
    ['log', 1],
  ] as const),
]
/** So many answers over one connection, then another: a phone is put away and taken out again. */
const answersOnConnection = 25
/** A little each time, so that nothing runs out. */
const usedStrandTenths = 1_000

export type LoadBatch = { batchId: string; threadId: string; lot: string | null; putUpStrandTenths: number; homePlaceId: string }

/** What one of them works on; no two have a thing in common, so that nobody's change is refused for another's. */
export type Person = {
  name: string
  receives: LoadBatch[]
  uses: LoadBatch[]
  moves: LoadBatch[]
  bagPlaceId: string
  projectId: string
  walkId: string
  lineIds: string[]
  promised: { batchId: string; strandTenths: number }
}

export type LoadWorld = {
  ownerId: string
  people: Person[]
  words: string[]
  chartsAsked: string[]
  designIds: string[]
  placeIds: string[]
}

export type Errand =
  | {
      kind: 'day'
      url: string
      seconds: number
      seed: string /** Which collection, of those asked about. */
      collection: string
      world: LoadWorld
    }
  | { kind: 'health'; url: string; seconds: number; connections: number }

/** What was answered. Times are in ms to the last byte. */
export type Day = {
  seconds: number
  times: [Kind, number][]
  /** Answers with another status than they should have, and connections that broke. */
  faults: string[]
  receivedStrandTenths: number
  usedStrandTenths: number
}
export type Health = { perSecond: number; times: number[] }

type Ask = { method: 'GET' | 'POST'; path: string; body?: object; wanted: number }
type Answered = { status: number; text: string; ms: number }

function ask(agent: http.Agent, url: string, { method, path, body }: Ask): Promise<Answered> {
  return new Promise((resolve, reject) => {
    const begun = performance.now()
    const request = http.request(`${url}${path}`, { agent, method, headers: body ? { 'content-type': 'application/json' } : {} })
    request.on('response', (response) => {
      let text = ''
      response.setEncoding('utf8')
      response.on('data', (part: string) => {
        text += part
      })
      response.on('error', reject)
      response.on('end', () => resolve({ status: response.statusCode ?? 0, text, ms: performance.now() - begun }))
    })
    request.on('error', reject)
    request.end(body && JSON.stringify(body))
  })
}

/** What of a collection was carried to a bag and not home again, one day and the next. */
const outOf = new Map<string, Set<string>>()

/** What one person asks next, and what they remember of it. */
class Hand {
  readonly #world: LoadWorld
  readonly #person: Person
  readonly #random: Random
  readonly #out: Set<string>
  #turn = 0
  received = 0
  used = 0

  constructor(world: LoadWorld, person: Person, random: Random, out: Set<string>) {
    this.#out = out
    this.#world = world
    this.#person = person
    this.#random = random
  }

  next(): { kind: Kind; asked: Ask; done?: () => void } {
    const kind = this.#random.weighted(shares)
    const look = (path: string) => ({ kind, asked: { method: 'GET' as const, path, wanted: 200 } })
    const change = (path: string, body: object, wanted: number, done?: () => void) => ({
      kind,
      asked: { method: 'POST' as const, path: `/api/v1${path}`, body, wanted },
      done,
    })
    const { designIds, placeIds, words, chartsAsked, ownerId } = this.#world
    const { name: who, projectId, walkId, lineIds, promised, bagPlaceId, ...own } = this.#person
    const turn = this.#turn++
    switch (kind) {
      case 'find':
        return look(`/?${new URLSearchParams({ q: this.#random.pick(words) })}`)
      case 'charts':
        return look(this.#random.pick(chartsAsked))
      case 'design':
        return look(`/designs/${this.#random.pick(designIds)}`)
      case 'place':
        return look(`/places/${this.#random.pick(placeIds)}`)
      case 'coverage':
        return look(`/api/v1/designs/${this.#random.pick(designIds)}/coverage?owner=${ownerId}`)
      case 'receive': {
        const { threadId, lot, putUpStrandTenths, homePlaceId } = this.#random.pick(own.receives)
        const body = { kind, threadId, ownerId, lot, putUpStrandTenths, wholePutUps: 1, homePlaceId, who }
        return change('/movements', body, 201, () => {
          this.received += putUpStrandTenths
        })
      }
      case 'use': {
        const { batchId } = this.#random.pick(own.uses)
        return change('/movements', { kind, batchId, strandTenths: usedStrandTenths, who }, 201, () => {
          this.used += usedStrandTenths
        })
      }
      case 'move': {
        // To the bag, and the next time home again.
        const { batchId } = this.#random.pick(own.moves)
        if (this.#out.has(batchId))
          return change('/movements', { kind: 'return', batchId, who }, 201, () => this.#out.delete(batchId))
        const body = { kind, batchId, toPlaceId: bagPlaceId, becomesHome: false, who }
        return change('/movements', body, 201, () => this.#out.add(batchId))
      }
      case 'tick': {
        const status = turn % 3 === 0 ? 'open' : 'done'
        const ticks = [{ lineId: this.#random.pick(lineIds), status, tickedAt: new Date().toISOString(), by: who }]
        return change(`/walks/${walkId}/ticks`, { ticks }, 200)
      }
      case 'promise': {
        const strandTenths = promised.strandTenths - this.#random.int(0, Math.min(900, promised.strandTenths - 1))
        return change(`/projects/${projectId}/promises`, { batchId: promised.batchId, strandTenths, who }, 200)
      }
      case 'log':
        return change(`/projects/${projectId}/work`, { stitches: this.#random.int(10, 90), minutes: 15, who }, 200)
      default:
        throw new TypeError(`Hand.next: nobody does ${kind}`)
    }
  }
}

const newAgent = () => new http.Agent({ keepAlive: true, maxSockets: 1 })

async function spendDay({ url, seconds, seed, collection, world }: Extract<Errand, { kind: 'day' }>): Promise<Day> {
  const times: [Kind, number][] = []
  const faults: string[] = []
  const begun = performance.now()
  const until = begun + seconds * 1_000
  const out = outOf.get(collection) ?? new Set()
  outOf.set(collection, out)
  const hands = world.people.map((person, at) => new Hand(world, person, seededRandom(`${seed} ${at}`), out))
  await Promise.all(
    hands.map(async (hand) => {
      let agent = newAgent()
      for (let answered = 1; performance.now() < until; answered++) {
        const { kind, asked, done } = hand.next()
        try {
          const { status, text, ms } = await ask(agent, url, asked)
          if (status === asked.wanted) {
            times.push([kind, ms])
            done?.()
          } else faults.push(`${kind} ${asked.method} ${asked.path}: ${status} ${text.slice(0, 300)}`)
        } catch (error) {
          faults.push(`${kind} ${asked.method} ${asked.path}: ${(error as Error).message}`)
        }
        if (answered % answersOnConnection === 0) {
          agent.destroy()
          agent = newAgent()
        }
      }
      agent.destroy()
    }),
  )
  const sum = (of: (hand: Hand) => number) => hands.reduce((total, hand) => total + of(hand), 0)
  return {
    seconds: (performance.now() - begun) / 1_000,
    times,
    faults,
    receivedStrandTenths: sum(({ received }) => received),
    usedStrandTenths: sum(({ used }) => used),
  }
}

async function askHealth({ url, seconds, connections }: Extract<Errand, { kind: 'health' }>): Promise<Health> {
  const path = '/api/v1/health'
  const { requests } = await autocannon({ url: `${url}${path}`, connections, duration: seconds })
  const times: number[] = []
  const until = performance.now() + seconds * 1_000
  await Promise.all(
    Array.from({ length: connections }, async () => {
      const agent = newAgent()
      while (performance.now() < until) times.push((await ask(agent, url, { method: 'GET', path, wanted: 200 })).ms)
      agent.destroy()
    }),
  )
  return { perSecond: requests.average, times }
}

process.on('message', async (errand: Errand) => {
  process.send?.(errand.kind === 'day' ? await spendDay(errand) : await askHealth(errand))
})
process.send?.('ready')
