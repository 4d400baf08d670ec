import { sumReading } from '#lib/chart/reading-fields'
import { findReading } from '#lib/db/reading/reading-jobs'
import type { StagedReading } from '#lib/db/reading/reading-store'
import { counted } from '#words/amounts'
import { cutShortWords, describeReadingRefusal, progressWords } from '../../_reading/words'
import { type ReadingMark, StateMark } from './state-mark'

/** How a reading stands, in a mark, a word and a note. */
export async function ReadingStateWord({ staged }: { staged: StagedReading }) {
  const { mark, word, note } = await standingOf(staged)
  return <StateMark mark={mark} word={word} note={note} />
}

async function standingOf({ state, review }: StagedReading): Promise<{ mark: ReadingMark; word: string; note?: string }> {
  switch (state.kind) {
    case 'waiting':
      return { mark: 'waiting', word: 'Waiting', note: 'another file is being read first' }
    case 'reading': {
      const job = await findReading(state.jobId)
      if (!job) return { mark: 'refused', word: 'Cut short', note: cutShortWords }
      const { label, note } = progressWords(job.progress)
      return { mark: 'waiting', word: label, note }
    }
    case 'refused':
      return { mark: 'refused', word: 'Not read', note: describeReadingRefusal(state.refusal) }
    case 'read': {
      if (!review) return { mark: 'look', word: 'Read' }
      const { lines, toLookAt, newThreads } = sumReading(review.reading, review.dismissed)
      const note = [
        counted(lines, 'line'),
        toLookAt > 0 && `${toLookAt} to look at`,
        newThreads > 0 && `${counted(newThreads, 'new thread')}`,
      ].filter(Boolean)
      return {
        mark: toLookAt > 0 ? 'look' : 'ready',
        word: toLookAt > 0 ? 'To be looked over' : 'Ready to save',
        note: note.join(', '),
      }
    }
    case 'saved':
      return { mark: 'saved', word: 'Saved', note: counted(state.lineCount, 'line') }
  }
}
