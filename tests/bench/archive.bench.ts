import { type AnswerWords, buyPutUpsAt, missingAt, rankAt } from '#lib/coverage/answer-words'
import type { CoverageEngine } from '#lib/coverage/engine'
import { statusRanks } from '#lib/coverage/line-status'
import type { NeedIndex } from '#lib/coverage/need-index'
import type { Batch } from '#lib/stock/batch'
import { engineOf } from './archive-engine'
import { ArchiveInC, type PlainAnswers } from './archive-in-c'
import { ArchiveInSql } from './archive-in-sql'
import { ArchiveWorld, archiveSize, ownerIds } from './archive-world'
import type { Bench, Measurement } from './measurement'
import { bytesInUse, measuredBytes } from './memory'
import { comparedTimes, timeByTurns, timeMs } from './timing'

const rounds = 7
const sweeps = 15
/** One of two, so that whose a batch is makes a difference. */
const asked = [ownerIds[0]]

type Figures = { missing: number; putUps: number; rank: number }

const figuresAt = (words: AnswerWords, row: number): Figures => ({
  missing: missingAt(words, row),
  putUps: buyPutUpsAt(words, row),
  rank: rankAt(words, row),
})

function check(what: string, ours: Figures, theirs: Figures): void {
  if (ours.missing === theirs.missing && ours.putUps === theirs.putUps && ours.rank === theirs.rank) return
  throw new Error(`archive: ${what}: ${JSON.stringify(ours)} by the engine, ${JSON.stringify(theirs)} otherwise`)
}

/** @throws Error at the first list the two do not say the same of */
function checkSql(
  engine: CoverageEngine,
  rows: readonly [listNo: number, missing: number, putUps: number, rank: number][],
): void {
  const { words, index } = engine
  const byList = new Map(rows.map(([listNo, ...answer]) => [listNo, answer]))
  for (let row = 0; row < index.packed.listIds.length; row++) {
    const [missing, putUps, worst] = byList.get(row) ?? [0, 0, statusRanks.enough as number]
    const rank = index.isIncomplete(row) ? Math.min(statusRanks.unknown as number, worst) : worst
    check(`list ${row} by SQL`, figuresAt(words, row), { missing, putUps, rank })
  }
}

/** @throws Error at the first list or design the two do not say the same of */
function checkC(world: ArchiveWorld, engine: CoverageEngine, { lists, designs }: PlainAnswers): void {
  const { words, index } = engine
  const at = (column: Uint32Array, row: number): Figures => {
    const [missing, putUps, rank] = column.subarray(row * 3, row * 3 + 3)
    return { missing: missing as number, putUps: putUps as number, rank: rank as number }
  }
  for (let row = 0; row < world.listCount; row++) check(`list ${row} in C`, figuresAt(words, row), at(lists, row))
  for (const [design, id] of world.designIds.entries()) {
    check(`design ${design} in C`, figuresAt(words, index.answerRowOf(id)), at(designs, design))
  }
}

/** For every thread its batches with a put-up more, and as they are. */
function changesOf(world: ArchiveWorld): { threadId: string; more: Batch[]; now: Batch[] }[] {
  return world.threads.map(({ threadId, line }) => {
    const now = world.batches.get(threadId) ?? []
    const held = now.find(({ ownerId }) => asked.includes(ownerId as (typeof asked)[number]))
    if (held)
      return { threadId, now, more: now.map((one) => (one === held ? { ...one, wholePutUps: one.wholePutUps + 1 } : one)) }
    const fresh: Batch = {
      ...{ id: `fresh ${threadId}`, threadId, ownerId: ownerIds[0], lot: line.lotsMatter ? '1' : null, putUpWord: null },
      ...{ putUpStrandTenths: line.putUpStrandTenths, wholePutUps: 1, partStrandTenths: 0, partCertainty: 'none' },
      ...{ homePlaceId: 'drawer', currentPlaceId: 'drawer' },
    }
    return { threadId, now, more: [...now, fresh] }
  })
}

const copiesOf = (ids: readonly string[]): string[] => ids.map((id) => Buffer.from(id).toString('latin1'))

function measureMemory(world: ArchiveWorld): { index: NeedIndex; engine: CoverageEngine; rows: Measurement[] } {
  const keyLines = world.keyLineCount
  const before = bytesInUse()
  const index = world.buildIndex()
  const engine = engineOf(world, index, asked)
  const one = (bytesInUse() - before) / keyLines
  const other = engineOf(world, index, ownerIds)
  other.answerAll()
  const two = (bytesInUse() - before) / keyLines
  const beforeIds = bytesInUse()
  const ids = copiesOf([...world.listIds, ...world.designIds])
  const ofIds = (bytesInUse() - beforeIds) / keyLines
  if (ids.length === 0 || other.index !== index) throw new Error('archive: nothing was made')
  return {
    index,
    engine,
    rows: [
      measuredBytes('memory of a key line: its need, indexed, and one owner’s answers', one, {
        words: 'under 16',
        isMet: one < 16,
      }),
      measuredBytes('the same with a second engine, for both owners together', two),
      measuredBytes('beside them: the ids of lists and designs, as texts', ofIds),
    ],
  }
}

async function run(): Promise<Measurement[]> {
  console.log('Making the archive-size collection …')
  const world = new ArchiveWorld(archiveSize)
  const { index, engine, rows: memory } = measureMemory(world)
  const stock = world.threads.map(({ threadId }) => world.stockOf(threadId, asked))
  const fromFigures = () => engine.setStock(stock)
  const fromBatches = () => engine.setStock(world.threads.map(({ threadId }) => world.stockOf(threadId, asked)))

  const inSql = new ArchiveInSql(world, index, asked)
  const inC = ArchiveInC.make(world, index, asked)
  try {
    checkSql(engine, inSql.answersReady())
    checkSql(engine, inSql.answersFromBatches())
    const ready = timeByTurns({ ours: fromFigures, against: () => void inSql.answersReady() }, { rounds, warmUps: 2 })
    const summed = timeByTurns({ ours: fromFigures, against: () => inSql.sumsReady() }, { rounds, warmUps: 1 })
    const whole = timeByTurns({ ours: fromBatches, against: () => void inSql.answersFromBatches() }, { rounds, warmUps: 1 })
    const rows = [
      comparedTimes('every answer from batches and promises, against SQL', whole, { samples: rounds, timesFaster: 100 }),
      comparedTimes('every answer, SQL and the engine given the stock figures ready', ready, {
        samples: rounds,
        timesFaster: 100,
      }),
      comparedTimes('the same, SQL handing out only the sums over all lists', summed, { samples: rounds, timesFaster: null }),
    ]
    if (inC) {
      const plain = timeByTurns({ ours: fromBatches, against: { countedMs: () => inC.pass() } }, { rounds: 15, warmUps: 3 })
      checkC(world, engine, inC.answers())
      rows.push(comparedTimes('every answer from batches and promises, against C', plain, { samples: 15, timesFaster: 0.5 }))
    } else console.log('No C compiler (cc, gcc, clang) was found: the pass in C is left out.')

    const changes = changesOf(world)
    const take = (threadId: string, batches: Batch[]) => {
      world.batches.set(threadId, batches)
      engine.setThreadStock(threadId, world.stockOf(threadId, asked))
    }
    const sweep = {
      countedMs: () =>
        timeMs(() => {
          for (const { threadId, more, now } of changes) {
            take(threadId, more)
            take(threadId, now)
          }
        }) /
        (2 * changes.length),
    }
    const one = timeByTurns({ ours: sweep, against: fromBatches }, { rounds: sweeps, warmUps: 3 })
    for (const { threadId, more } of changes) take(threadId, more)
    checkSame(engine, engineOf(world, index, asked))
    for (const { threadId, now } of changes) take(threadId, now)
    checkSame(engine, engineOf(world, index, asked))
    rows.push(
      comparedTimes('one thread’s stock changes, every answer right again, mean over all threads; against all anew', one, {
        samples: sweeps,
        timesFaster: 1_000,
      }),
    )
    return [...rows, ...memory]
  } finally {
    inSql.close()
    inC?.drop()
  }
}

/** Every answer, and of designs too, as by an engine made anew. */
function checkSame(engine: CoverageEngine, anew: CoverageEngine): void {
  for (let row = 0; row < engine.index.rowCount; row++) {
    check(`row ${row} anew`, figuresAt(engine.words, row), figuresAt(anew.words, row))
  }
}

export const archive: Bench = {
  name: 'archive',
  about: [
    'A library’s collection, made up from one fixed seed: 200,000 designs, a fifth of them with two lists, 6,000,000 key lines (outlines that repeat a colour and blends among them), 3,000 threads of seven lines, lots mattering on a fifth of them, batches of two owners, some out, some promised to projects, part skeins, some of a length nobody knows. Asked for one of the owners: of every list how many threads are missing, how many put-ups are to be bought, its status; the engine says for every design which list is the best too.',
    'SQL is one statement in SQLite, in memory, prepared: needs worked out into a table clustered by list, and indexed by thread and need as well; whole numbers for keys; ANALYZE; the quickest of four ways of writing it, found on a tenth of the lists; rows read out as arrays. It says nothing of lists with all threads enough, and chooses no best list. Where stock figures are given ready, they are how far each thread’s stock goes for each status, and neither keeping them so nor making the tables and indexes is timed. C is one plain pass over the same columns, row by row (cc -O3 -march=native), the best list chosen too; of three passes in a process of its own the quickest counts, and reading the columns is not timed. All are held to the same answers, list by list.',
    'A change of one thread is a put-up more, and back, from its batches and promises on; afterwards every answer is held against an engine made anew. Memory is what the JavaScript heap and its array buffers hold more after collecting garbage; the ids of lists and designs are counted apart, since the catalogue holds the same texts.',
  ],
  run,
}
