import type { EngineThread } from '#lib/coverage/engine'
import type { ListNeeds } from '#lib/coverage/need-columns'
import type { NeedIndex } from '#lib/coverage/need-index'
import type { Answers } from '#lib/db/answers/answers'

/** The lists of an index nothing was changed in yet. */
export function listsOf(index: NeedIndex): ListNeeds[] {
  const lists: ListNeeds[] = []
  for (let row = 0; row < index.rowCount; row++) {
    const listId = index.listAt(row)
    if (listId === null) continue
    const { threads, needs, start, end } = index.needsOf(row)
    lists.push({
      listId,
      designId: index.designAt(row),
      isIncomplete: index.isIncomplete(row),
      needs: Array.from({ length: end - start }, (_, at) => ({
        threadId: index.threadIds[threads[start + at] as number] as string,
        strandTenths: needs[start + at] as number,
      })),
    })
  }
  return lists
}

/** The threads of a collection without stand-ins. */
export const engineThreadsOf = ({ world }: Answers): EngineThread[] =>
  [...world.lineOfThread].map(([threadId, lineId]) => {
    const line = world.lines.get(lineId)
    if (!line) throw new RangeError(`engineThreadsOf: no line ${lineId}`)
    return { threadId, lotsMatter: line.lotsMatter, putUpStrandTenths: line.putUpStrandTenths, standInThreadIds: [] }
  })
