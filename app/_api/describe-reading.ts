import { lineText } from '#lib/chart/page-text/page-text'
import { sumReading } from '#lib/chart/reading-fields'
import { findStagedReading, type StagedReading } from '#lib/db/reading/reading-store'
import { findReading } from '#lib/reader/reading-jobs'
import { cutShortWords, describeReadingRefusal, progressWords } from '../_reading/words'
import { notFound, type Problem } from './problem'
import type { ReadingAnswer } from './readings'

/** A reading without what it was read from. */
export function describeReadingHead(staged: StagedReading): Omit<ReadingAnswer, 'lines' | 'reading'> {
  const { id, version, name, source, state, designId, pageCount, wasPhotographed, review } = staged
  const { lines, toLookAt } = review ? sumReading(review.reading, review.dismissed) : { lines: 0, toLookAt: 0 }
  return {
    ...{ readingId: id, version, name, source: source.kind, state: state.kind, says: saysOf(staged), designId, pageCount },
    ...{ wasPhotographed, lineCount: lines, toLookAt },
    saved: state.kind === 'saved' ? (({ kind: _kind, ...saved }) => saved)(state) : null,
  }
}

export const describeReading = (staged: StagedReading): ReadingAnswer => ({
  ...describeReadingHead(staged),
  lines: staged.review?.lines.map(lineText) ?? [],
  reading: staged.review ? ({ ...staged.review.reading } as ReadingAnswer['reading']) : null,
})

function saysOf({ state }: StagedReading): string | null {
  switch (state.kind) {
    case 'waiting':
      return progressWords({ step: 'waiting' }).label
    case 'reading': {
      const job = findReading(state.jobId)
      if (!job) return cutShortWords
      const { label, note } = progressWords(job.progress)
      return `${label}. ${note}`
    }
    case 'refused':
      return describeReadingRefusal(state.refusal)
    case 'read':
    case 'saved':
      return null
  }
}

/** The reading as it stands, or the problem that it is not there. */
export async function readingNow(readingId: string, ownerIds: readonly string[]): Promise<ReadingAnswer | Problem> {
  const staged = await findStagedReading(readingId, ownerIds)
  return staged ? describeReading(staged) : notFound('reading', readingId)
}
