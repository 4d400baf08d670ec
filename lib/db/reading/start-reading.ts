import 'server-only'
import { randomUUID } from 'node:crypto'
import { splitText } from '#lib/chart/key-text/split-text'
import { log } from '#lib/log/log'
import { ok, type Result, refused } from '#lib/result'
import type { PreparedFile } from '../file/prepare-file'
import { newId } from '../new-id'
import { reviewOf } from './keep-reading'
import { findReading, readingEnded, startReading, stopReading } from './reading-jobs'
import {
  changeReading,
  findStagedReading,
  listStagedReadings,
  type ReadingSource,
  type StagedReading,
  stageReading,
} from './reading-store'

/** A pasted key is a page or two; more is a book, or a slip. */
export const mostTextCharacters = 300_000

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
  const jobId = randomUUID()
  // Said before it is begun: wherever it is read, it is kept by this.
  const changed = await changeReading<ReadingSource | null>(id, async (staged) => {
    if (staged.state.kind !== 'waiting' || staged.source.kind === 'text') return { next: null, value: null }
    return { next: { ...staged, state: { kind: 'reading', jobId } }, value: staged.source }
  })
  if (!changed?.value || changed.value.kind === 'text') return true
  const started = await startReading({ readingId: id, kind: changed.value.kind }, jobId)
  if (!started.ok) {
    await changeReading(id, async (staged) => {
      const isMine = staged.state.kind === 'reading' && staged.state.jobId === jobId
      return { next: isMine ? { ...staged, state: { kind: 'waiting' } } : null, value: null }
    })
    return false
  }
  void readingEnded(jobId)
    .then(readWaiting)
    .catch((error) => log.error('what waits to be read could not be begun', { error }))
  return true
}

export type ReadAgainRefusal = { kind: 'no-such-reading' } | { kind: 'reading-now' }

/** Read a file again that was stopped, cut short or refused. What was corrected before is lost. */
export async function readAgain(id: string, ownerIds: readonly string[]): Promise<Result<null, ReadAgainRefusal>> {
  if (!(await findStagedReading(id, ownerIds))) return refused({ kind: 'no-such-reading' })
  const changed = await changeReading<Result<null, ReadAgainRefusal>>(id, async (staged) => {
    const { state } = staged
    const isCutShort = state.kind === 'reading' && (await findReading(state.jobId)) === null
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
