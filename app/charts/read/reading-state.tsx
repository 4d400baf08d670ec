import { say } from '#language/say'
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
      return { mark: 'waiting', word: say('Waiting'), note: say('another file is being read first') }
    case 'reading': {
      const job = await findReading(state.jobId)
      if (!job) return { mark: 'refused', word: say('Cut short'), note: cutShortWords() }
      const { label, note } = progressWords(job.progress)
      return { mark: 'waiting', word: label, note }
    }
    case 'refused':
      return { mark: 'refused', word: say('Not read'), note: describeReadingRefusal(state.refusal) }
    case 'read': {
      if (!review) return { mark: 'look', word: say('Read') }
      const { lines, toLookAt, newThreads } = sumReading(review.reading, review.dismissed)
      const note = [
        counted(lines, 'line'),
        toLookAt > 0 && say('{toLookAt} to look at', { toLookAt }),
        newThreads > 0 && counted(newThreads, 'new thread'),
      ].filter(Boolean)
      return {
        mark: toLookAt > 0 ? 'look' : 'ready',
        word: toLookAt > 0 ? say('To be looked over') : say('Ready to save'),
        note: note.join(', '),
      }
    }
    case 'saved':
      return { mark: 'saved', word: say('Saved'), note: counted(state.lineCount, 'line') }
  }
}
