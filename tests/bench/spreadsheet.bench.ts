import { buyPutUpsAt, missingAt, rankAt } from '#lib/coverage/answer-words'
import { CoverageEngine } from '#lib/coverage/engine'
import { freeStock } from '#lib/stock/free-stock'
import { seededRandom } from '#seed/random'
import { madeCollection } from './made-collection'
import { engineThreadsOf, listsOf } from './made-coverage'
import type { Bench, Measurement } from './measurement'
import { type SheetAnswer, StockSheets } from './stock-sheets'
import { comparedTimes, timeByTurns } from './timing'

const changedBatches = 60

/** @throws Error at the first list the two do not say the same of */
function checkSame(engine: CoverageEngine, answers: readonly SheetAnswer[]): void {
  const { words, index } = engine
  const rowOf = new Map(index.packed.listIds.map((listId, row) => [listId, row]))
  for (const { listId, ...theirs } of answers) {
    const row = rowOf.get(listId) as number
    const { start, end } = index.needsOf(row)
    const missing = missingAt(words, row)
    const ours = { ready: end - start - missing, missing, putUps: buyPutUpsAt(words, row), rank: rankAt(words, row) }
    if (JSON.stringify(ours) !== JSON.stringify(theirs)) {
      throw new Error(
        `spreadsheet: list ${listId}: ${JSON.stringify(ours)} by the engine, ${JSON.stringify(theirs)} by the sheet`,
      )
    }
  }
}

async function run(): Promise<Measurement[]> {
  const { answers, ownerIds } = await madeCollection('home')
  const threads = engineThreadsOf(answers)
  const lists = listsOf(answers.needs)
  const stock = threads.map(({ threadId }) => answers.freeOf(threadId, ownerIds))
  const build = () => CoverageEngine.of({ threads, stock, lists })
  const engine = build()
  const sheets = new StockSheets(answers, lists, ownerIds)
  const open = sheets.open()
  checkSame(engine, sheets.answers(open))

  const random = seededRandom('spreadsheet bench')
  const chosen = random.sample(sheets.batchRows, changedBatches)
  const changes = chosen.flatMap((one) => [
    { ...one, wholePutUps: one.wholePutUps + 1 },
    { ...one, wholePutUps: one.wholePutUps },
  ])
  const take = ({ threadId, batchId, wholePutUps }: (typeof changes)[number]) => {
    const batches = answers.world.stock.batches.get(threadId) ?? []
    const changed = batches.map((batch) => (batch.id === batchId ? { ...batch, wholePutUps } : batch))
    const promises = answers.world.stock.promises.get(threadId) ?? []
    engine.setThreadStock(threadId, freeStock({ threadId, batches: changed, promises, ownerIds }))
  }
  const sheet = open.getSheetId('Batches') as number
  const type = ({ row, wholePutUps }: (typeof changes)[number]) =>
    open.setCellContents({ sheet, row: row - 1, col: 3 }, wholePutUps)
  let [ourTurn, theirTurn] = [0, 0]
  const changed = (turn: number) => changes[turn % changes.length] as (typeof changes)[number]
  const one = timeByTurns(
    { ours: () => take(changed(ourTurn++)), against: () => void type(changed(theirTurn++)) },
    { rounds: changes.length, warmUps: 20 },
  )
  for (const change of changes.filter((_, at) => at % 2 === 0)) {
    take(change)
    type(change)
  }
  checkSame(engine, sheets.answers(open))
  open.destroy()
  const built = timeByTurns({ ours: () => void build(), against: () => sheets.open().destroy() }, { rounds: 7, warmUps: 2 })
  return [
    comparedTimes('one batch’s put-ups change, every list right again', one, { samples: changes.length, timesFaster: null }),
    comparedTimes('everything worked out from nothing', built, { samples: 7, timesFaster: null }),
  ]
}

export const spreadsheet: Bench = {
  name: 'spreadsheet',
  about: [
    'The home-size collection (500 charts, 400 threads) as a spreadsheet, in a spreadsheet engine of its own: sheets of batches, lots, stock, needs and lists. Formulas say what each batch, lot and thread has free (SUMIF, MAXIFS), whether each need is ready and what it leaves to buy, and sum that for each list. It is helped where a person would have it harder: needs are worked out beforehand, point straight at their thread’s row, and lie list by list, so that a list sums one stretch. Typing in one cell works out again all that hangs on it. All lists’ answers are held to be the same, before the changes and after.',
  ],
  run,
}
