import type { Lesson } from '#lib/chart/key-text/lesson'
import type { KeyReading } from '#lib/chart/key-text/reading'
import type { PageBox } from '#lib/chart/page-text/page-text'
import { linesOf } from '#lib/chart/reading-fields'
import { getAnswers } from '#lib/db/answers/get-answers'
import { readStagedPages, type ShownPage, type StagedReading } from '#lib/db/reading/reading-store'
import type { Thread, ThreadLine } from '#lib/thread/thread'
import type { Dye, Hex } from '#trade/winding'
import { hexesOf } from '#words/colour'

export type ThreadShown = { maker: string; line: string; code: string; name: string | null; hexes: Hex[]; dye: Dye }

/** A reading as it stands under review. */
export type ReviewShown = {
  id: string
  version: number
  canUndo: boolean
  reading: KeyReading
  lessons: Lesson[]
  dismissed: number[]
  /** By id: the threads of the collection that its lines may mean. */
  threads: Record<string, ThreadShown>
}

export const threadShown = ({ code, name, lab }: Thread, { makerName, name: line, dyeing }: ThreadLine): ThreadShown => ({
  ...{ maker: makerName, line, code, name, hexes: hexesOf(lab), dye: dyeing === 'solid' ? 'solid' : 'overdyed' },
})

/** What it was read from; never changes. */
export type SourceShown = {
  lines: { text: string; cells: string[]; page: number; box: PageBox | null }[]
  pages: ShownPage[]
  /** Whether the first page can be shown as a picture. */
  hasCover: boolean
}

/** @throws {TypeError} if it is not read yet. */
export async function shownReview(staged: StagedReading): Promise<ReviewShown> {
  const { id, version, review, before } = staged
  if (!review) throw new TypeError('shownReview: not read yet')
  const { reading, lessons, dismissed } = review
  const { world } = await getAnswers()
  const threads: Record<string, ThreadShown> = {}
  for (const threadId of meantIds(reading)) {
    const thread = world.threads.get(threadId)
    const line = thread && world.lines.get(thread.lineId)
    if (!line) continue
    threads[threadId] = threadShown(thread, line)
  }
  return { id, version, canUndo: before.length > 0, reading, lessons, dismissed, threads }
}

function meantIds(reading: KeyReading): Set<string> {
  const matches = linesOf(reading).flatMap(({ line }) => line.threads.map(({ match }) => match))
  return new Set(
    matches.flatMap((match) => (match.kind === 'known' ? [match.threadId] : match.kind === 'several' ? match.threadIds : [])),
  )
}

export async function shownSource(staged: StagedReading): Promise<SourceShown> {
  const lines = staged.review?.lines ?? []
  return {
    lines: lines.map(({ cells, page }) => ({
      ...{ page, cells: cells.map(({ text }) => text), text: cells.map(({ text }) => text).join('   ') },
      box: unionOf(cells.flatMap(({ box }) => box ?? [])),
    })),
    pages: await readStagedPages(staged.id),
    hasCover: staged.hasCover,
  }
}

function unionOf(boxes: readonly PageBox[]): PageBox | null {
  if (boxes.length === 0) return null
  return {
    left: Math.min(...boxes.map(({ left }) => left)),
    top: Math.min(...boxes.map(({ top }) => top)),
    right: Math.max(...boxes.map(({ right }) => right)),
    bottom: Math.max(...boxes.map(({ bottom }) => bottom)),
  }
}
