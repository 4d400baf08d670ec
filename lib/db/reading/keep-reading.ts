import 'server-only'
import { randomUUID } from 'node:crypto'
import { startReview } from '#lib/chart/key-text/teach'
import type { SourceLine, TextPage } from '#lib/chart/page-text/page-text'
import { log } from '#lib/log/log'
import type { PageReading, ReadingRefusal } from '#lib/reader/page-reading'
import type { Result } from '#lib/result'
import { readVocabulary } from './read-vocabulary'
import {
  changeReading,
  keepStagedCover,
  keepStagedPages,
  keepStagedStraight,
  type ShownPage,
  type StagedReading,
} from './reading-store'

const mostLines = 5_000

/** What a text that was read becomes: a review, or why there is none. */
export async function reviewOf(lines: SourceLine[]): Promise<Pick<StagedReading, 'state' | 'review'>> {
  if (!lines.some(({ cells }) => cells.some(({ text }) => text.trim() !== '')))
    return { state: { kind: 'refused', refusal: { kind: 'no-text' } }, review: null }
  if (lines.length > mostLines)
    return { state: { kind: 'refused', refusal: { kind: 'text-too-long', lines: lines.length } }, review: null }
  return { state: { kind: 'read' }, review: startReview(lines, await readVocabulary()) }
}

/** Keep what a reading found beside its file, or why it found nothing; not where somebody has begun another of it since. */
export async function keepReading(id: string, jobId: string, found: Result<PageReading, ReadingRefusal>): Promise<void> {
  try {
    if (!found.ok) return await keepRefused(id, jobId, found.error)
    await keepFound(id, jobId, found.value)
  } catch (error) {
    log.error('a reading could not be kept', { id: randomUUID(), error })
    await keepRefused(id, jobId, { kind: 'reader-broke' })
  }
}

async function keepFound(id: string, jobId: string, found: PageReading): Promise<void> {
  const { pages, lines, cover, straightened, pageCount, wasPhotographed } = found
  await keepStagedPages(id, pages.map(shownPage))
  if (cover) await keepStagedCover(id, cover)
  if (straightened) await keepStagedStraight(id, straightened)
  const read = await reviewOf(lines)
  await changeReading(id, async (staged) => {
    if (staged.state.kind !== 'reading' || staged.state.jobId !== jobId) return { next: null, value: null }
    return { next: { ...staged, ...read, pageCount, wasPhotographed, hasCover: cover !== null }, value: null }
  })
}

async function keepRefused(id: string, jobId: string, refusal: ReadingRefusal): Promise<void> {
  await changeReading(id, async (staged) => {
    const isMine = staged.state.kind === 'reading' && staged.state.jobId === jobId
    return { next: isMine ? { ...staged, state: { kind: 'refused', refusal } } : null, value: null }
  })
}

const shownPage = ({ widthPt, heightPt, words }: TextPage): ShownPage => ({
  widthPt,
  heightPt,
  words: words.map(({ text, box }) => ({ text, box })),
})
