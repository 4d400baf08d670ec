import { HyperFormula, type RawCellContent } from 'hyperformula'
import type { ListNeeds } from '#lib/coverage/need-columns'
import type { Answers } from '#lib/db/answers/answers'
import { isOut } from '#lib/stock/batch'

/** What a sheet says of one list. */
export type SheetAnswer = { listId: string; ready: number; missing: number; putUps: number; rank: number }

type Rows = RawCellContent[][]

/** One column of a sheet from the first row to the last, not moving when copied. */
const column = (sheet: string, letter: string, rows: number) => `${sheet}!$${letter}$1:$${letter}$${Math.max(1, rows)}`

/** The sheets' cells: what is typed, and formulas. */
export class StockSheets {
  readonly batches: Rows = []
  readonly lots: Rows = []
  readonly stock: Rows = []
  readonly needs: Rows = []
  readonly lists: Rows = []
  /** The row of each batch, and how many whole put-ups it holds. */
  readonly batchRows: { threadId: string; batchId: string; row: number; wholePutUps: number }[] = []
  readonly #listIds: string[] = []

  constructor(answers: Answers, lists: readonly ListNeeds[], ownerIds: readonly string[]) {
    const { lineOfThread, lines } = answers.world
    const stockRows = new Map<string, number>([...lineOfThread.keys()].map((threadId, at) => [threadId, at + 1]))
    const lotRows = new Map<string, boolean>()
    for (const [threadId, stockRow] of stockRows) {
      for (const batch of answers.batchesOf(threadId, ownerIds)) {
        const { id, lot, putUpStrandTenths, wholePutUps, partStrandTenths, partCertainty } = batch
        const row = this.batches.length + 1
        const lotName = lot === null ? `unmarked ${id}` : `${stockRow} lot ${lot}`
        const promised = answers.world.stock.promises
          .get(threadId)
          ?.filter(({ batchId }) => batchId === id)
          .reduce((sum, { strandTenths }) => sum + strandTenths, 0)
        this.batches.push([
          ...[stockRow, lotName, putUpStrandTenths, wholePutUps, partStrandTenths],
          ...[Number(partCertainty === 'some'), Number(isOut(batch)), promised ?? 0],
          ...[`=C${row}*D${row}+E${row}`, `=IF(G${row}=1,0,MAX(0,I${row}-H${row}))`, `=IF(AND(F${row}=1,G${row}=0),1,0)`],
        ])
        this.batchRows.push({ threadId, batchId: id, row, wholePutUps })
        if (!lotRows.has(lotName)) this.lots.push([stockRow, lotName, Number(lot !== null)])
        lotRows.set(lotName, true)
      }
    }
    const ofBatches = (letter: string) => column('Batches', letter, this.batches.length)
    const ofLots = (letter: string) => column('Lots', letter, this.lots.length)
    for (const [at, cells] of this.lots.entries()) {
      for (const letter of ['I', 'J']) cells.push(`=SUMIF(${ofBatches('B')},B${at + 1},${ofBatches(letter)})`)
    }
    for (const [threadId, row] of stockRows) {
      const line = lines.get(lineOfThread.get(threadId) ?? '')
      if (!line) throw new RangeError(`StockSheets: no line of ${threadId}`)
      const summed = (letter: string) => `SUMIF(${ofBatches('A')},A${row},${ofBatches(letter)})`
      const most = (letter: string) => `MAXIFS(${ofLots(letter)},${ofLots('A')},A${row})`
      this.stock.push([
        ...[row, Number(line.lotsMatter), line.putUpStrandTenths, `=${summed('J')}`, `=${summed('I')}`, `=${most('E')}`],
        ...[`=MAXIFS(${ofLots('E')},${ofLots('A')},A${row},${ofLots('C')},1)`, `=${most('D')}`, `=IF(${summed('K')}>0,1,0)`],
      ])
    }
    for (const { listId, needs } of lists) {
      const first = this.needs.length + 1
      for (const { threadId, strandTenths } of needs) {
        this.needs.push(needCells(this.needs.length + 1, stockRows.get(threadId) as number, strandTenths))
      }
      const last = this.needs.length
      const row = this.#listIds.push(listId)
      this.lists.push([
        ...[needs.length, `=COUNTIF(Needs!D${first}:D${last},">=6")`, `=A${row}-B${row}`],
        ...[`=SUM(Needs!E${first}:E${last})`, `=MIN(Needs!D${first}:D${last})`],
      ])
    }
  }

  /** Open them, which works every formula out. */
  open(): HyperFormula {
    const { batches, lots, stock, needs, lists } = this
    return HyperFormula.buildFromSheets(
      { Batches: batches, Lots: lots, Stock: stock, Needs: needs, Lists: lists },
      { licenseKey: 'gpl-v3' },
    )
  }

  answers(open: HyperFormula): SheetAnswer[] {
    const values = open.getSheetValues(open.getSheetId('Lists') as number) as number[][]
    return this.#listIds.map((listId, at) => {
      const [, ready, missing, putUps, rank] = values[at] as [number, number, number, number, number]
      return { listId, ready, missing, putUps, rank }
    })
  }
}

/** Thread's row, need, rank of its status, put-ups to buy. */
function needCells(row: number, stockRow: number, strandTenths: number): RawCellContent[] {
  const of = (letter: string) => `Stock!${letter}${stockRow}`
  const [need, lotsMatter, putUp] = [`C${row}`, `${of('B')}=1`, of('C')]
  const rank = `IF(${of('F')}>=${need},7,IF(AND(${of('B')}=0,${of('D')}>=${need}),IF(${need}<=${putUp},7,6),IF(${of('I')}=1,4,IF(IF(${lotsMatter},${of('H')},${of('E')})>=${need},3,IF(AND(${lotsMatter},${of('E')}>=${need}),2,IF(${of('D')}>0,1,0))))))`
  const held = `IF(${lotsMatter},IF(D${row}=2,0,${of('G')}),${of('D')})`
  return ['', stockRow, strandTenths, `=${rank}`, `=IF(D${row}>2,0,ROUNDUP((${need}-${held})/${putUp},0))`]
}
