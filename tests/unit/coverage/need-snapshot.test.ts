import { describe, expect, it } from 'vitest'
import { CoverageEngine, type EngineThread } from '#lib/coverage/engine'
import type { ListNeeds } from '#lib/coverage/need-columns'
import { type NeedIndex, NeedIndexBuilder } from '#lib/coverage/need-index'
import { decodeNeeds, encodeNeeds } from '#lib/coverage/need-snapshot'
import { seededRandom } from '#seed/random'
import { held } from './held'

const random = seededRandom('need snapshot')
const threadIds = Array.from({ length: 300 }, (_, i) => `thread ${i}`)
const aList = (listId: string, designId: string, threadCount: number): ListNeeds => ({
  listId,
  designId,
  isIncomplete: random.int(0, 9) === 0,
  needs: random.sample(threadIds, threadCount).map((threadId) => ({ threadId, strandTenths: random.int(1, 2_000_000) })),
})
const lists = [
  ...Array.from({ length: 200 }, (_, i) => aList(`list "${i}"\n`, `design ${Math.floor(i / 1.3)}`, random.int(0, 30))),
  aList('a wide one', 'design 7', 280),
]

function anIndex(): NeedIndex {
  const builder = new NeedIndexBuilder(threadIds)
  for (const list of lists) builder.add(list)
  return builder.finish()
}

const stamp = { revision: 41, of: 'this collection' }
const fileOf = (index: NeedIndex): Uint8Array<ArrayBuffer> => new Uint8Array(Buffer.concat(encodeNeeds(index, stamp)))
const isThis = ({ of }: { of: string }) => of === 'this collection'

const threads = threadIds.map(
  (threadId, i): EngineThread => ({ threadId, lotsMatter: i % 5 === 0, putUpStrandTenths: 480_000, standInThreadIds: [] }),
)
const stock = threadIds.map((threadId, i) => held(threadId, i % 4))
const answersOf = (index: NeedIndex) => {
  const engine = new CoverageEngine({ index, threads, stock })
  return [...new Set(lists.map(({ designId }) => designId))].map((designId) => engine.answerFor(designId))
}

describe('a snapshot of the needs', () => {
  it('says what the index said, after changes too', () => {
    const index = anIndex()
    index.setList(aList('list "3"\n', 'design 2', 12))
    index.removeList('design 5', 'list "6"\n')
    const found = decodeNeeds(fileOf(index), isThis)
    expect(found?.stamp).toEqual(stamp)
    expect(answersOf(found?.index as NeedIndex)).toEqual(answersOf(index))
  })

  it('can be changed like any other index once it is read', () => {
    const [read, index] = [decodeNeeds(fileOf(anIndex()), isThis)?.index as NeedIndex, anIndex()]
    for (let i = 0; i < 120; i++) {
      const list = aList(`new ${i}`, `design ${i}`, 9)
      read.setList(list)
      index.setList(list)
    }
    expect(answersOf(read)).toEqual(answersOf(index))
  })

  it('is not taken when it is of something else', () => {
    expect(decodeNeeds(fileOf(anIndex()), ({ of }) => of === 'another')).toBeNull()
  })

  it('is not taken when any byte of it is another, or its end is missing', () => {
    const whole = fileOf(anIndex())
    for (let i = 0; i < 400; i++) {
      const damaged = whole.slice()
      const at = random.int(0, whole.length - 5)
      damaged[at] = (damaged[at] as number) ^ (1 << random.int(0, 7))
      expect(decodeNeeds(damaged, isThis), `a bit at ${at}`).toBeNull()
    }
    for (const length of [0, 7, 16, 100, whole.length - 8, whole.length - 1]) {
      expect(decodeNeeds(whole.slice(0, length), isThis), `${length} bytes`).toBeNull()
    }
  })
})

describe('how many designs use a thread', () => {
  it('is counted by design, not by list, after changes too', () => {
    const index = anIndex()
    const added = aList('list "3"\n', 'design 2', 12)
    index.setList(added)
    index.removeList('design 4', 'list "6"\n')
    const now = lists.filter(({ listId }) => listId !== 'list "6"\n' && listId !== added.listId)
    for (const threadId of threadIds) {
      const using = [...now, added].filter(({ needs }) => needs.some((need) => need.threadId === threadId))
      expect(index.designCountOf(threadId)).toBe(new Set(using.map(({ designId }) => designId)).size)
    }
    expect(index.designCountOf('none that is known')).toBe(0)
  })
})
