import path from 'node:path'
import Libsql from 'libsql'
import type { Cell } from '#lib/db/read-snapshot'
import { type ArchiveWorld, grounds } from './archive-world'

const cellsInInsert = 800

/** Rows of one table, put in some hundred cells at a time. */
class Rows {
  readonly #one
  readonly #many
  readonly #width: number
  readonly #rowsInInsert: number
  #cells: Cell[] = []

  constructor(connection: Libsql.Database, table: string, columns: readonly string[]) {
    this.#width = columns.length
    this.#rowsInInsert = Math.floor(cellsInInsert / this.#width)
    const into = `INSERT INTO "${table}" (${columns.map((column) => `"${column}"`).join(', ')}) VALUES`
    const row = `(${columns.map(() => '?').join(', ')})`
    this.#one = connection.prepare(`${into} ${row}`)
    this.#many = connection.prepare(`${into} ${Array(this.#rowsInInsert).fill(row).join(', ')}`)
  }

  add(...cells: Cell[]): void {
    this.#cells.push(...cells)
    if (this.#cells.length < this.#rowsInInsert * this.#width) return
    this.#many.run(...this.#cells)
    this.#cells = []
  }

  finish(): void {
    for (let at = 0; at < this.#cells.length; at += this.#width) this.#one.run(...this.#cells.slice(at, at + this.#width))
    this.#cells = []
  }
}

/** Put the world's threads, designs and key lines into an empty database of the project's own schema, past all its writing. */
export function fillDatabase(url: string, world: ArchiveWorld): void {
  const connection = new Libsql(path.resolve(url.replace(/^file:/, '')))
  try {
    connection.exec('PRAGMA synchronous = OFF; PRAGMA foreign_keys = OFF; PRAGMA cache_size = -400000; BEGIN')
    const table = (name: string, columns: string) => new Rows(connection, name, columns.split(' '))
    const tables = {
      owner: table('Owner', 'id name nameKey'),
      maker: table('Maker', 'id name nameKey'),
      line: table('ThreadLine', 'id makerId name nameKey strands putUpStrandTenths lotsMatter working'),
      thread: table('Thread', 'id lineId code'),
      chart: table('Chart', 'id title titleKey ownerId'),
      design: table('Design', 'id chartId title titleKey advisedThreads advisedPerUm advisedOver'),
      list: table('ThreadList', 'id designId name nameKey position isIncomplete'),
      keyLine: table('KeyLine', 'id threadListId position hasTally full backstitch'),
      keyLineThread: table('KeyLineThread', 'id keyLineId position threadId strands'),
    }
    tables.owner.add('owner', 'Owner', 'owner')
    tables.maker.add('maker', 'Maker', 'maker')
    for (const { id, strands, putUpStrandTenths, lotsMatter, working } of world.lines) {
      tables.line.add(id, 'maker', id, id, strands, putUpStrandTenths, Number(lotsMatter), working)
    }
    for (const [number, { threadId, line }] of world.threads.entries()) tables.thread.add(threadId, line.id, String(number))
    let keyLine = 0
    world.eachList((drawn) => {
      const designId = world.designIds[drawn.design] as string
      if (!drawn.isSecond) {
        const { threads, over } = grounds[drawn.ground] as (typeof grounds)[number]
        tables.chart.add(designId, designId, designId, 'owner')
        tables.design.add(designId, designId, designId, designId, threads, 25_400, over)
      }
      const [listId, name] = [world.listIds[drawn.list] as string, drawn.isSecond ? 'second' : 'printed']
      tables.list.add(listId, designId, name, name, Number(drawn.isSecond), Number(drawn.isIncomplete))
      for (let at = 0; at < drawn.keyLines; at++) {
        const id = (keyLine++).toString(36).padStart(6, '0')
        tables.keyLine.add(id, listId, at, 1, drawn.full[at] as number, drawn.backstitch[at] as number)
        for (const [position, thread] of [drawn.thread[at] as number, drawn.blend[at] as number].entries()) {
          if (thread < 0) continue
          const { threadId } = world.threads[thread] as (typeof world.threads)[number]
          tables.keyLineThread.add(`${id}${position}`, id, position, threadId, drawn.strands[at] as number)
        }
      }
    })
    for (const rows of Object.values(tables)) rows.finish()
    connection.exec('COMMIT; ANALYZE')
  } finally {
    connection.close()
  }
}
