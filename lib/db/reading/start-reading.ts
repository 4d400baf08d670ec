import 'server-only'
import { randomUUID } from 'node:crypto'
import { splitText } from '#lib/chart/key-text/split-text'
import { startReview } from '#lib/chart/key-text/teach'
import type { SourceLine, TextPage } from '#lib/chart/page-text/page-text'
import type { PageReading, ReadingRefusal } from '#lib/reader/page-reading'
import { findReading, readingEnded, startReading, stopReading } from '#lib/reader/reading-jobs'
import { ok, type Result, refused } from '#lib/result'
import type { PreparedFile } from '../file/prepare-file'
import { newId } from '../new-id'
import { readVocabulary } from './read-vocabulary'
import {
  changeReading,
  findStagedReading,
  keepStagedCover,
  keepStagedPages,
  keepStagedStraight,
  listStagedReadings,
  readStagedBytes,
  type ShownPage,
  type StagedReading,
  stageReading,
} from './reading-store'

/** A pasted key is a page or two; more is a book, or a slip. */
export const mostTextCharacters = 300_000
const mostLines = 5_000

export type TextUnfit = { kind: 'text-empty' } | { kind: 'text-too-long'; characters: number; mostCharacters: number }

type Given = { ownerId: string; designId: string | null }

/** Read a pasted text, at once. */
export async function readText({ text, ownerId, designId }: Given & { text: string }): Promise<Result<StagedReading, TextUnfit>> {
  if (text.trim() === '') return refused({ kind: 'text-empty' })
  if (text.length > mostTextCharacters)
    return refused({ kind: 'text-too-long', characters: text.length, mostCharacters: mostTextCharacters })
  const lines = splitText(text)
  return ok(
    await stageReading(
      {
        ...{ ownerId, designId, groupId: newId(), position: 0, name: openingWords(text), source: { kind: 'text' } },
        ...{ pageCount: null, wasPhotographed: false, hasCover: false, before: [] },
        ...(await reviewOf(lines)),
      },
      null,
    ),
  )
}

/** How a text begins, to know it by in a list. */
function openingWords(text: string): string {
  const line = text.split('\n').find((one) => one.trim() !== '') ?? ''
  const words = line.replace(/\s+/gu, ' ').trim()
  return words.length <= 60 ? words : `${words.slice(0, 59)}…`
}

async function reviewOf(lines: SourceLine[]): Promise<Pick<StagedReading, 'state' | 'review'>> {
  if (!lines.some(({ cells }) => cells.some(({ text }) => text.trim() !== '')))
    return { state: { kind: 'refused', refusal: { kind: 'no-text' } }, review: null }
  if (lines.length > mostLines)
    return { state: { kind: 'refused', refusal: { kind: 'text-too-long', lines: lines.length } }, review: null }
  return { state: { kind: 'read' }, review: startReview(lines, await readVocabulary()) }
}

/** Keep files to be read, one after another in the background. */
export async function readFiles({
  files,
  ownerId,
  designId,
}: Given & { files: readonly PreparedFile[] }): Promise<StagedReading[]> {
  const groupId = newId()
  const staged: StagedReading[] = []
  for (const [position, { name, mime, bytes, sha256 }] of files.entries()) {
    const source = { kind: mime === 'application/pdf' ? 'pdf' : 'picture', mime, bytes: bytes.length, sha256 } as const
    const nothingYet = { pageCount: null, wasPhotographed: false, hasCover: false, review: null, before: [] }
    const about = { ownerId, designId, groupId, position, name, source }
    staged.push(await stageReading({ ...about, ...nothingYet, state: { kind: 'waiting' } }, bytes))
  }
  await readWaiting()
  return staged
}

/** Begin to read what waits, as many as may be read or queued at once. */
async function readWaiting(): Promise<void> {
  const waiting = (await listStagedReadings('all')).filter(({ state }) => state.kind === 'waiting')
  // Those given first, first; those given together in their order.
  waiting.sort((a, b) => a.madeAt.localeCompare(b.madeAt) || a.position - b.position)
  for (const { id } of waiting) if (!(await beginReading(id))) return
}

/** @returns whether another may be begun */
async function beginReading(id: string): Promise<boolean> {
  const changed = await changeReading<string | null>(id, async (staged) => {
    const { source } = staged
    const bytes = await readStagedBytes(id)
    if (staged.state.kind !== 'waiting' || source.kind === 'text' || bytes === null) return { next: null, value: '' }
    const job = startReading({ kind: source.kind, bytes })
    if (!job.ok) return { next: null, value: null }
    return { next: { ...staged, state: { kind: 'reading', jobId: job.value.id } }, value: job.value.id }
  })
  if (!changed || changed.value === '') return true
  if (changed.value === null) return false
  const jobId = changed.value
  void readingEnded(jobId)
    .then(() => keepReading(id, jobId))
    .catch((error) => {
      const errorId = randomUUID()
      console.error(`a reading could not be kept (${errorId})`, error)
      return keepRefused(id, jobId, { kind: 'reader-broke' })
    })
    .then(readWaiting, readWaiting)
  return true
}

async function keepReading(id: string, jobId: string): Promise<void> {
  const job = findReading(jobId)
  const answer = job?.state.kind === 'ended' ? job.state.answer : refused({ kind: 'reader-broke' } as const)
  if (!answer.ok) return keepRefused(id, jobId, answer.error)
  const { pages, lines, cover, straightened, pageCount, wasPhotographed } = answer.value satisfies PageReading
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

export type ReadAgainRefusal = { kind: 'no-such-reading' } | { kind: 'reading-now' }

/** Read a file again that was stopped, cut short or refused. What was corrected before is lost. */
export async function readAgain(id: string, ownerIds: readonly string[]): Promise<Result<null, ReadAgainRefusal>> {
  if (!(await findStagedReading(id, ownerIds))) return refused({ kind: 'no-such-reading' })
  const changed = await changeReading<Result<null, ReadAgainRefusal>>(id, async (staged) => {
    const { state } = staged
    const isCutShort = state.kind === 'reading' && findReading(state.jobId) === null
    if (staged.source.kind === 'text' || (state.kind !== 'refused' && !isCutShort))
      return { next: null, value: refused({ kind: 'reading-now' }) }
    return { next: { ...staged, state: { kind: 'waiting' }, review: null, before: [] }, value: ok(null) }
  })
  if (!changed) return refused({ kind: 'no-such-reading' })
  if (changed.value.ok) await readWaiting()
  return changed.value
}

/** End a reading that is under way, or its wait. */
export async function stopStagedReading(id: string, ownerIds: readonly string[]): Promise<void> {
  const staged = await findStagedReading(id, ownerIds)
  if (staged?.state.kind === 'reading') await stopReading(staged.state.jobId)
  if (staged?.state.kind !== 'waiting') return
  await changeReading(id, async (now) => {
    if (now.state.kind !== 'waiting') return { next: null, value: null }
    return { next: { ...now, state: { kind: 'refused', refusal: { kind: 'stopped' } } }, value: null }
  })
}
