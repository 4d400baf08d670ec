import type { ThreadNeed } from '#lib/coverage/need'

/** A design one buys for, and the thread lists it could be worked from, the one nearest to stitching first. */
export type ListsOfDesign = { key: string; lists: readonly { listId: string; needs: readonly ThreadNeed[] }[] }

/** What buying one thread comes to: what is to be least first, then what decides between equals. */
export type BuyingCost = readonly [first: number, second: number]

export type LeastBuying = {
  /** By design. */
  listIdOf: Map<string, string>
  /** Every way was weighed; else it is the best found by changing one or several lists at a time. */
  isProven: boolean
}

/** So many ways of designs that share threads are gone through one by one: ten of two lists each. */
const mostWays = 1_024
/** Beyond, lists are changed two at a time among so many designs. */
const mostInPairs = 20

const compare = (a: BuyingCost, b: BuyingCost): number => a[0] - b[0] || a[1] - b[1]

/**
 * Choose for every design the one list, whole, such that all of them together take the least buying. Designs weigh on each other only by
 * threads they share, so those that share any, at whatever remove, are weighed together and the others apart. Of ways alike, the one whose
 * lists are nearer to stitching, the first designs' before the later ones'.
 *
 * Source: the project's trade notes, 5 (11) and A16: a list is chosen whole, never line by line.
 *
 * @param input.costOf  What buying this thread comes to where these designs need so much of it. Asked once for each different answer.
 * @throws {RangeError} if a design has no list.
 */
export function chooseLeastBuying(input: {
  designs: readonly ListsOfDesign[]
  costOf: (threadId: string, needs: readonly { key: string; need: ThreadNeed }[]) => BuyingCost
}): LeastBuying {
  const { designs, costOf } = input
  for (const { key, lists } of designs) if (lists.length === 0) throw new RangeError(`chooseLeastBuying: ${key} has no list`)
  const listIdOf = new Map<string, string>()
  let isProven = true
  for (const group of groupsThatShare(designs)) {
    const weigh = weigherOf(group, costOf)
    const ways = group.reduce((product, { lists }) => Math.min(mostWays + 1, product * lists.length), 1)
    const best = ways <= mostWays ? bestOfAll(group, weigh) : bestFound(group, weigh)
    if (ways > mostWays) isProven = false
    for (const [at, { key, lists }] of group.entries())
      listIdOf.set(key, (lists[best[at] as number] as { listId: string }).listId)
  }
  return { listIdOf, isProven }
}

/** Designs in groups that share no thread with one another, each in the order handed in. */
function groupsThatShare(designs: readonly ListsOfDesign[]): ListsOfDesign[][] {
  const root = designs.map((_, at) => at)
  const find = (at: number): number => {
    let top = at
    while (root[top] !== top) top = root[top] as number
    return top
  }
  const firstWith = new Map<string, number>()
  for (const [at, { lists }] of designs.entries())
    for (const { threadId } of lists.flatMap(({ needs }) => needs)) {
      const other = firstWith.get(threadId)
      if (other === undefined) firstWith.set(threadId, at)
      else root[find(at)] = find(other)
    }
  const groups = new Map<number, ListsOfDesign[]>()
  for (const [at, design] of designs.entries()) groups.set(find(at), [...(groups.get(find(at)) ?? []), design])
  return [...groups.values()]
}

type Weigh = (choice: readonly number[]) => BuyingCost

/** The cost of a way through a group, thread by thread; what a thread costs is remembered by which lists need it. */
function weigherOf(group: readonly ListsOfDesign[], costOf: Parameters<typeof chooseLeastBuying>[0]['costOf']): Weigh {
  const needsOf = group.map(({ lists }) => lists.map(({ needs }) => new Map(needs.map((need) => [need.threadId, need]))))
  const threadIds = [...new Set(needsOf.flatMap((lists) => lists.flatMap((needs) => [...needs.keys()])))]
  const usersOf = new Map(
    threadIds.map((threadId) => [
      threadId,
      group.flatMap((_, at) => (needsOf[at]?.some((needs) => needs.has(threadId)) ? [at] : [])),
    ]),
  )
  const known = new Map(threadIds.map((threadId) => [threadId, new Map<string | number, BuyingCost>()]))
  /** Which list each user of a thread is by, as one figure where a double holds it. */
  const signatureOf = (users: readonly number[], choice: readonly number[]): string | number => {
    let [figure, size] = [0, 1]
    for (const at of users) {
      figure += (choice[at] as number) * size
      size *= (group[at] as ListsOfDesign).lists.length
    }
    return size <= Number.MAX_SAFE_INTEGER ? figure : users.map((at) => choice[at]).join(' ')
  }
  return (choice) => {
    let [first, second] = [0, 0]
    for (const threadId of threadIds) {
      const users = usersOf.get(threadId) as number[]
      const costs = known.get(threadId) as Map<string | number, BuyingCost>
      const signature = signatureOf(users, choice)
      let cost = costs.get(signature)
      if (cost === undefined) {
        const needs = users.flatMap((at) => {
          const need = needsOf[at]?.[choice[at] as number]?.get(threadId)
          return need ? [{ key: (group[at] as ListsOfDesign).key, need }] : []
        })
        cost = needs.length === 0 ? [0, 0] : costOf(threadId, needs)
        costs.set(signature, cost)
      }
      first += cost[0]
      second += cost[1]
    }
    return [first, second]
  }
}

/** In the order of an odometer whose first design turns slowest, the nearest list first: of ways alike the first met stands. */
function bestOfAll(group: readonly ListsOfDesign[], weigh: Weigh): number[] {
  const choice = group.map(() => 0)
  let best = { choice: [...choice], cost: weigh(choice) }
  for (;;) {
    let at = group.length - 1
    while (at >= 0 && choice[at] === (group[at] as ListsOfDesign).lists.length - 1) choice[at--] = 0
    if (at < 0) return best.choice
    choice[at] = (choice[at] as number) + 1
    const cost = weigh(choice)
    if (compare(cost, best.cost) < 0) best = { choice: [...choice], cost }
  }
}

/**
 * From the nearest lists on, the best change of one design's list, of two, or of all that could share some thread, until none helps.
 */
function bestFound(group: readonly ListsOfDesign[], weigh: Weigh): number[] {
  const threadIds = [
    ...new Set(group.flatMap(({ lists }) => lists.flatMap(({ needs }) => needs.map(({ threadId }) => threadId)))),
  ]
  let now = { choice: group.map(() => 0), cost: weigh(group.map(() => 0)) }
  for (;;) {
    let better: typeof now | null = null
    const look = (choice: number[]) => {
      const cost = weigh(choice)
      if (compare(cost, (better ?? now).cost) < 0) better = { choice, cost }
    }
    const others = (at: number) =>
      (group[at] as ListsOfDesign).lists.flatMap((_, list) => (list === now.choice[at] ? [] : [list]))
    for (const threadId of threadIds)
      look(now.choice.map((chosen, at) => listWith(group[at] as ListsOfDesign, threadId) ?? chosen))
    for (const at of group.keys())
      for (const list of others(at)) {
        const one = withAt(now.choice, at, list)
        look(one)
        if (better === null && group.length <= mostInPairs)
          for (let other = at + 1; other < group.length; other++) for (const next of others(other)) look(withAt(one, other, next))
      }
    if (better === null) return now.choice
    now = better
  }
}

/** Which list of a design needs the thread: the nearest that does, or none. */
function listWith({ lists }: ListsOfDesign, threadId: string): number | null {
  const at = lists.findIndex(({ needs }) => needs.some((need) => need.threadId === threadId))
  return at < 0 ? null : at
}

const withAt = (choice: readonly number[], at: number, list: number): number[] =>
  choice.map((one, index) => (index === at ? list : one))
