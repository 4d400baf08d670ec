import { numberText } from '#language/figures'
import { say, sayings } from '#language/say'
import type { FieldStanding } from '#lib/chart/reading-fields'
import type { FileUnfit } from '#lib/db/file/prepare-file'
import type { CorrectRefusal } from '#lib/db/reading/correct-reading'
import type { StagedReading } from '#lib/db/reading/reading-store'
import type { LineLacking, SaveReadingRefusal } from '#lib/db/reading/save-reading'
import type { ReadAgainRefusal, TextUnfit } from '#lib/db/reading/start-reading'
import type { UndoReadingRefusal } from '#lib/db/reading/undo-saved-reading'
import type { ReadingProgress } from '#lib/reader/page-reading'
import { listed } from '#words/amounts'
import { describeChartRefusal } from '../_charts/words'
import { describeFileUnfit, describeKeepFileRefusal } from '../_files/words'

/** How a field stands, in a word. */
export const standingWords: Record<FieldStanding, string> = sayings({
  sure: 'sure',
  look: 'look at it',
  choose: 'choose one',
  new: 'would be new',
  lacking: 'not enough for a thread',
  empty: 'none',
})

export const megabytes = (bytes: number): string => `${numberText(bytes / (1024 * 1024), { maximumFractionDigits: 1 })} MB`

export function describeTextUnfit(refusal: TextUnfit): string {
  switch (refusal.kind) {
    case 'text-empty':
      return say('Paste the text of the key first.')
    case 'text-too-long':
      return say(
        'That is {characters, number} characters; up to {mostCharacters, number} are read at once. Paste the key alone.',
        { characters: refusal.characters, mostCharacters: refusal.mostCharacters },
      )
  }
}

/** Why a file was not taken to be read, with its name. */
export const describeUnfitFile = (name: string, refusal: FileUnfit): string => `${name}: ${describeFileUnfit(refusal)}`

type Refused = Extract<StagedReading['state'], { kind: 'refused' }>['refusal']

/** Why a reading came to nothing. */
export function describeReadingRefusal(refusal: Refused): string {
  switch (refusal.kind) {
    case 'file-too-large':
      return say('The file has {megabytes}; up to {megabytes2} can be read.', {
        megabytes: megabytes(refusal.bytes),
        megabytes2: megabytes(refusal.mostBytes),
      })
    case 'not-a-pdf':
      return say('It is not a PDF inside, whatever its name says.')
    case 'pdf-locked':
      return say('The PDF is locked with a password. Save it once without the password, or paste the text of its key.')
    case 'pdf-unreadable':
      return say('The PDF is damaged: it cannot be opened. Fetch it once more from where it came from.')
    case 'too-many-pages':
      return say('The file has {pages} pages; up to {mostPages} are read. Save the pages with the key as a file of their own.', {
        pages: refusal.pages,
        mostPages: refusal.mostPages,
      })
    case 'photo-heic':
      return say(
        'The photo is in the phone’s own format (HEIC), which is not read here. Take it as JPEG: in the phone’s camera settings, “most compatible”.',
      )
    case 'not-a-photo':
      return say('It is not a picture that can be read. JPEG, PNG and WebP can.')
    case 'photo-unreadable':
      return say('The picture is damaged: it cannot be opened.')
    case 'took-too-long':
      return say('It was not read within {seconds} seconds. Fewer pages, or a smaller picture, go quicker.', {
        seconds: refusal.seconds,
      })
    case 'reader-broke':
      return say('The file could not be read: something in it is not as it should be. Nothing else was touched.')
    case 'stopped':
      return say('It was stopped before it was read.')
    case 'no-text':
      return say('There is no text to be found in it.')
    case 'text-too-long':
      return say('It has {lines, number} lines, more than any key. Save the pages with the key as a file of their own.', {
        lines: refusal.lines,
      })
  }
}

export const cutShortWords = () => say('The reading was cut short when the program stopped. The file is here still.')

/** How far a reading is. */
export function progressWords(progress: ReadingProgress): { label: string; note: string; done: number; of: number | undefined } {
  const onPage = (label: string) => {
    const { page, pages } = progress as { page: number; pages: number }
    return { label, note: say('Page {page} of {pages}', { page, pages }), done: page - 1, of: pages }
  }
  switch (progress.step) {
    case 'waiting':
      return { label: say('Waiting'), note: say('Another file is being read first'), done: 0, of: undefined }
    case 'opening':
      return { label: say('Opening the file'), note: say('One moment'), done: 0, of: undefined }
    case 'words':
      return onPage(say('Taking the words off the page'))
    case 'drawing':
      return onPage(say('Drawing the page'))
    case 'straightening':
      return onPage(say('Straightening the page'))
    case 'reading':
      return onPage(say('Reading the letters'))
    case 'laying-out':
      return onPage(say('Finding lines and columns'))
    case 'cover':
      return { label: say('Drawing the cover'), note: say('Nearly there'), done: 0, of: undefined }
  }
}

export function describeCorrectRefusal(refusal: CorrectRefusal | ReadAgainRefusal): string {
  switch (refusal.kind) {
    case 'no-such-reading':
      return say('This reading is not there any more: it is kept for a day. Read the key again.')
    case 'changed-meanwhile':
      return say(
        'Somebody else corrected this reading meanwhile. It is shown as it is now; make your change again if it is still wanted.',
      )
    case 'not-under-review':
      return say('This reading is not under review any more: somebody saved it.')
    case 'no-such-line':
      return say('That line is not there any more.')
    case 'nothing-to-undo':
      return say('There is nothing to take back.')
    case 'reading-now':
      return say('It is being read already.')
  }
}

export function describeSaveRefusal(refusal: SaveReadingRefusal): string {
  switch (refusal.kind) {
    case 'no-such-reading':
      return say('This reading is not there any more: it is kept for a day. Nothing was saved.')
    case 'changed-meanwhile':
      return say(
        'Somebody else corrected this reading since you opened it. Nothing was saved: open it again, look, and save then.',
      )
    case 'not-under-review':
      return say('Somebody saved this reading already. Nothing was saved a second time.')
    case 'nothing-to-save':
      return say('There is nothing to save: choose at least one list, or what it is to be saved as.')
    case 'lines-lack':
      return say(
        '{lines, plural, one {# line} other {# lines}} cannot be saved yet: {lacking}. Mend them, or tick “leave them out for now”.',
        { lines: refusal.lines.length, lacking: listed(lackingWords(refusal.lines)) },
      )
    case 'kept-already':
    case 'kept-elsewhere':
      return describeKeepFileRefusal(refusal)
    default:
      return describeChartRefusal(refusal)
  }
}

/** "line 3 names no code", for the first few. */
function lackingWords(lines: readonly LineLacking[]): string[] {
  const said = lines.slice(0, 4).map(({ why }) => say('line {line} {lack}', { line: why.line + 1, lack: lackWords(why) }))
  return lines.length > 4 ? [...said, say('{lines} more', { lines: lines.length - 4 })] : said
}

export function lackWords(why: LineLacking['why']): string {
  switch (why.kind) {
    case 'no-thread':
      return say('names no thread')
    case 'no-maker':
      return say('does not say whose thread it is')
    case 'no-code':
      return say('has no code')
    case 'which-thread':
      return say('may be one of {threadIds} threads', { threadIds: why.threadIds.length })
    case 'strands-out-of-range':
      return say('has {strands} strands', { strands: why.strands })
    case 'not-to-be-added':
      return say('has a new thread that is not ticked')
  }
}

export function describeUndoRefusal(refusal: UndoReadingRefusal): string {
  switch (refusal.kind) {
    case 'no-such-change':
      return say('Nothing is known of this any more.')
    case 'already-undone':
      return say('It was taken back already.')
    case 'changed-since':
      return say(
        'It was changed since it was saved, so it is left as it is. The chart can be taken out of the larder, and a list removed, by hand.',
      )
    case 'in-work':
      return describeChartRefusal(refusal)
  }
}
