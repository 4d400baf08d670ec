import { spawnSync } from 'node:child_process'
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import path from 'node:path'
import type { NeedIndex } from '#lib/coverage/need-index'
import { isOut } from '#lib/stock/batch'
import type { ArchiveWorld } from './archive-world'

/** Answers in columns of three: missing threads, put-ups to buy, the status's rank. */
export type PlainAnswers = { lists: Uint32Array; designs: Uint32Array }

const compilers = ['cc', 'gcc', 'clang']
/** Of so many passes after a first one the quickest counts, so that reading the file and cold memory are not held against it. */
const passes = 3

/** The same pass in C, compiled here and run as a process of its own. */
export class ArchiveInC {
  readonly #folder: string
  readonly #lists: number

  private constructor(folder: string, lists: number) {
    this.#folder = folder
    this.#lists = lists
  }

  /** @returns null where no C compiler is found. @throws Error when there is one and it does not compile. */
  static make(world: ArchiveWorld, index: NeedIndex, ownerIds: readonly string[]): ArchiveInC | null {
    const compiler = compilers.find((name) => spawnSync(name, ['--version']).status === 0)
    if (!compiler) return null
    const folder = mkdtempSync(path.join(tmpdir(), 'larder-bench-'))
    const source = path.join(import.meta.dirname, 'archive-pass.c')
    const { status, stderr } = spawnSync(compiler, ['-O3', '-march=native', '-o', path.join(folder, 'archive-pass'), source])
    if (status !== 0) throw new Error(`ArchiveInC: ${stderr}`)
    writeFileSync(path.join(folder, 'columns'), columnsOf(world, index, ownerIds))
    return new ArchiveInC(folder, index.packed.listIds.length)
  }

  /** @returns how many ms the quickest pass took */
  pass(): number {
    const words = ['columns', 'answers', String(passes)]
    const { status, stdout, stderr } = spawnSync(path.join(this.#folder, 'archive-pass'), words, {
      cwd: this.#folder,
      encoding: 'utf8',
    })
    if (status !== 0) throw new Error(`ArchiveInC: ${stderr}`)
    return Math.min(...stdout.trim().split('\n').map(Number))
  }

  /** What the last pass answered. */
  answers(): PlainAnswers {
    const bytes = new Uint8Array(readFileSync(path.join(this.#folder, 'answers')))
    const all = new Uint32Array(bytes.buffer)
    return { lists: all.subarray(0, this.#lists * 3), designs: all.subarray(this.#lists * 3) }
  }

  drop(): void {
    rmSync(this.#folder, { recursive: true, force: true })
  }
}

/** All columns one after another, in the order `archive-pass.c` reads them. */
function columnsOf(world: ArchiveWorld, index: NeedIndex, ownerIds: readonly string[]): Buffer {
  const { listIds, offsets, needThread, need } = index.packed
  const batches = world.threads.map(({ threadId }) => world.batches.get(threadId) ?? [])
  const all = batches.flat()
  const marks = [...new Set(all.map(({ lot }) => lot))]
  const promises = all.map(({ id, threadId }) => (world.promises.get(threadId) ?? []).filter(({ batchId }) => batchId === id))
  const promised = promises.flat().map(({ strandTenths }) => strandTenths)
  const firstList: number[] = []
  for (const [list, design] of world.designOfList.entries()) firstList[design] ??= list
  const columns: (Uint8Array | Uint16Array | Uint32Array | Int32Array)[] = [
    Uint32Array.of(listIds.length, need.length, batches.length, all.length, promised.length, firstList.length),
    offsets,
    needThread,
    need,
    Uint8Array.from(listIds, (_, list) => Number(index.isIncomplete(list))),
    Uint32Array.from([...firstList, listIds.length]),
    Uint32Array.from(world.threads, ({ line }) => line.putUpStrandTenths),
    Uint8Array.from(world.threads, ({ line }) => Number(line.lotsMatter)),
    startsOf(batches.map(({ length }) => length)),
    Int32Array.from(all, ({ lot }) => (lot === null ? -1 : marks.indexOf(lot))),
    Uint8Array.from(all, ({ ownerId }) => Number(ownerIds.includes(ownerId))),
    Uint32Array.from(all, ({ putUpStrandTenths }) => putUpStrandTenths),
    Uint32Array.from(all, ({ wholePutUps }) => wholePutUps),
    Uint32Array.from(all, ({ partStrandTenths }) => partStrandTenths),
    Uint8Array.from(all, ({ partCertainty }) => Number(partCertainty === 'some')),
    Uint8Array.from(all, (batch) => Number(isOut(batch))),
    startsOf(promises.map(({ length }) => length)),
    Uint32Array.from(promised),
  ]
  return Buffer.concat(columns.map(({ buffer, byteOffset, byteLength }) => Buffer.from(buffer, byteOffset, byteLength)))
}

/** Where each of some stretches begins when they lie one after another, and where the last ends. */
function startsOf(lengths: readonly number[]): Uint32Array {
  const starts = new Uint32Array(lengths.length + 1)
  for (const [at, length] of lengths.entries()) starts[at + 1] = (starts[at] as number) + length
  return starts
}
