import { lineText } from '#lib/chart/page-text/page-text'
import { sumReading } from '#lib/chart/reading-fields'
import { findReading } from '#lib/db/reading/reading-jobs'
import { findStagedReading, type StagedReading } from '#lib/db/reading/reading-store'
import { cutShortWords, describeReadingRefusal, progressWords } from '../_reading/words'
import { notFound, type Problem } from './problem'
import type { ReadingAnswer } from './readings'

/** A reading without what it was read from. */
export async function describeReadingHead(staged: StagedReading): Promise<Omit<ReadingAnswer, 'lines' | 'reading'>> {
  const { id, version, name, source, state, designId, pageCount, wasPhotographed, review } = staged
  const { lines, toLookAt } = review ? sumReading(review.reading, review.dismissed) : { lines: 0, toLookAt: 0 }
  return {
    ...{ readingId: id, version, name, source: source.kind, state: state.kind, says: await saysOf(staged), designId, pageCount },
    ...{ wasPhotographed, lineCount: lines, toLookAt },
    saved: state.kind === 'saved' ? (({ kind: _kind, ...saved }) => saved)(state) : null,
  }
}

export const describeReading = async (staged: StagedReading): Promise<ReadingAnswer> => ({
  ...(await describeReadingHead(staged)),
  lines: staged.review?.lines.map(lineText) ?? [],
  reading: staged.review ? ({ ...staged.review.reading } as ReadingAnswer['reading']) : null,
})

async function saysOf({ state }: StagedReading): Promise<string | null> {
  switch (state.kind) {
    case 'waiting':
      return progressWords({ step: 'waiting' }).label
    case 'reading': {
      const job = await findReading(state.jobId)
      if (!job) return cutShortWords()
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
