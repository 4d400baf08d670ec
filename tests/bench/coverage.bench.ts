import { CoverageEngine, type EngineListAnswer } from '#lib/coverage/engine'
import type { ListNeeds } from '#lib/coverage/need-columns'
import type { FreeStock } from '#lib/stock/free-stock'
import { seededRandom } from '#seed/random'
import { CoverageInSql, type SqlAnswer } from './coverage-in-sql'
import { madeCollection } from './made-collection'
import { engineThreadsOf, listsOf } from './made-coverage'
import type { Bench, Measurement } from './measurement'
import { comparedTimes, timeByTurns } from './timing'

const rounds = 21
const changedThreads = 200

const compared = [
  'status',
  'threadCount',
  'readyCount',
  'elsewhereCount',
  'unknownCount',
  'lotsCount',
  'shortCount',
  'shortPutUps',
  'lotPutUps',
] as const satisfies readonly (keyof SqlAnswer & keyof EngineListAnswer)[]

/** @throws Error at the first list the two do not say the same of */
function checkSame(engine: CoverageEngine, lists: readonly ListNeeds[], inSql: CoverageInSql): void {
  const bySql = new Map(inSql.answers().map((answer) => [answer.listId, answer]))
  for (const { listId, designId } of lists) {
    const ours = engine.answerFor(designId)?.lists.find((answer) => answer.listId === listId)
    const theirs = bySql.get(listId)
    if (ours?.threadCount === 0 && !theirs) continue
    for (const name of compared) {
      if (!ours || !theirs || ours[name] !== theirs[name]) {
        throw new Error(`coverage: list ${listId}: ${name} is ${ours?.[name]} by the engine, ${theirs?.[name]} by SQL`)
      }
    }
  }
}

/** @throws Error at the first design whose best list the two do not say the same of */
function checkSameDesigns(engine: CoverageEngine, designIds: Iterable<string>, inSql: CoverageInSql): void {
  const designOf = new Map(inSql.designAnswers().map((answer) => [answer.listId, answer]))
  let checked = 0
  for (const designId of designIds) {
    const best = engine.answerFor(designId)?.best
    if (!best || best.threadCount === 0) continue
    const theirs = designOf.get(best.listId)
    for (const name of compared) {
      if (!theirs || theirs[name] !== best[name]) {
        throw new Error(`coverage: design ${designId}: ${name} is ${best[name]} by the engine, ${theirs?.[name]} by SQL`)
      }
    }
    checked++
  }
  if (checked !== designOf.size) throw new Error(`coverage: ${checked} designs by the engine, ${designOf.size} by SQL`)
}

async function measure(size: 'home' | 'shop'): Promise<Measurement[]> {
  const { answers, ownerIds } = await madeCollection(size)
  const { world, needs } = answers
  if (world.standIns.size > 0) throw new Error('coverage: the SQL statement knows no stand-ins, and the collection has some')
  const threads = engineThreadsOf(answers)
  const lists = listsOf(needs)
  const stock = threads.map(({ threadId }) => answers.freeOf(threadId, ownerIds))
  const build = () => CoverageEngine.of({ threads, stock, lists })

  const inSql = new CoverageInSql(answers, lists, ownerIds)
  try {
    const engine = new CoverageEngine({ index: needs, threads, stock })
    checkSame(engine, lists, inSql)
    checkSameDesigns(engine, world.designs.keys(), inSql)
    const random = seededRandom('coverage bench')
    const used = stock.filter(({ threadId }) => engine.designsUsing(threadId).length > 0)
    const changes = random.sample(used, changedThreads).flatMap((free) => [halved(free), free])

    const answerAll = () => engine.setStock(stock)
    const all = timeByTurns({ ours: answerAll, against: () => inSql.answerAll() }, { rounds, warmUps: 5 })
    const fromBatches = () => engine.setStock(threads.map(({ threadId }) => answers.freeOf(threadId, ownerIds)))
    const designs = timeByTurns({ ours: fromBatches, against: () => inSql.answerDesigns() }, { rounds, warmUps: 5 })
    const summed = timeByTurns({ ours: answerAll, against: () => inSql.sumAll() }, { rounds, warmUps: 2 })
    let [ourTurn, sqlTurn] = [0, 0]
    const changed = (turn: number) => changes[turn % changes.length] as FreeStock
    const one = timeByTurns(
      {
        ours: () => engine.setStock([changed(ourTurn++)]),
        against: () => inSql.answerUsersOf(changed(sqlTurn++)),
      },
      { rounds: changes.length, warmUps: changes.length },
    )
    checkSame(engine, lists, inSql)
    const oneAgainstAll = timeByTurns(
      {
        ours: () => engine.setStock([changed(ourTurn++)]),
        against: () => inSql.answerAll(),
      },
      { rounds, warmUps: 3 },
    )
    const built = timeByTurns({ ours: () => void build(), against: () => inSql.answerAll() }, { rounds: 11, warmUps: 3 })
    const count = lists.length.toLocaleString('en')
    return [
      comparedTimes(`${size}: every design answered, best list chosen, from batches and promises as they are stored`, designs, {
        samples: rounds,
        timesFaster: 20,
      }),
      comparedTimes(`${size}: all ${count} lists answered; SQL is given the stock figures ready`, all, {
        samples: rounds,
        timesFaster: null,
      }),
      comparedTimes(`${size}: the same, SQL handing out only the sums over all lists`, summed, {
        samples: rounds,
        timesFaster: null,
      }),
      comparedTimes(`${size}: one thread’s stock changes, every list right again; SQL answers every list`, oneAgainstAll, {
        samples: rounds,
        timesFaster: 20,
      }),
      comparedTimes(`${size}: one thread’s stock changes, every list right again; SQL answers its lists by index`, one, {
        samples: changes.length,
        timesFaster: null,
      }),
      comparedTimes(`${size}: needs indexed and the engine built from nothing; SQL answers every list`, built, {
        samples: 11,
        timesFaster: null,
      }),
    ]
  } finally {
    inSql.close()
  }
}

const run = async (): Promise<Measurement[]> => [...(await measure('home')), ...(await measure('shop'))]

/** The same stock with half of every lot gone. */
function halved(free: FreeStock): FreeStock {
  const half = (strandTenths: number) => Math.floor(strandTenths / 2)
  const lots = free.lots.map((lot) => ({
    ...lot,
    ownedStrandTenths: half(lot.ownedStrandTenths),
    freeStrandTenths: half(lot.freeStrandTenths),
  }))
  const sum = (name: 'ownedStrandTenths' | 'freeStrandTenths') => lots.reduce((total, lot) => total + lot[name], 0)
  return { ...free, lots, ownedStrandTenths: sum('ownedStrandTenths'), freeStrandTenths: sum('freeStrandTenths') }
}

export const coverage: Bench = {
  name: 'coverage',
  about: [
    'Coverage of every thread list of the home-size (500 charts) and the shop-size (20,000 charts) collection for one owner, by the engine and by one SQL statement in SQLite. Before timing, both are held to the same status, counts and put-ups to buy for every list, and again after the changes.',
    'In the first row of each size both do the whole of it on what the project stores: free stock by lot from batches and promises, the status of every need, the counts of every list, the best list of every design; keys are texts, as in the project’s own tables. In the others the statement is helped as far as it goes: stock figures ready in a table (keeping them so is not timed), whole numbers for keys, no choosing of the best list, which the engine still does. Throughout it has an in-memory database, the needs worked out into a table and clustered by list, indexes for every join, ANALYZE, a prepared statement, the fastest of four ways of writing it, rows read out as arrays. The made-up collection has no stand-ins, so neither side assigns any.',
  ],
  run,
}
