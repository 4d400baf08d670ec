import { numberText } from '#language/figures'
import type { FieldStanding } from '#lib/chart/reading-fields'
import type { FileUnfit } from '#lib/db/file/prepare-file'
import type { CorrectRefusal } from '#lib/db/reading/correct-reading'
import type { StagedReading } from '#lib/db/reading/reading-store'
import type { LineLacking, SaveReadingRefusal } from '#lib/db/reading/save-reading'
import type { ReadAgainRefusal, TextUnfit } from '#lib/db/reading/start-reading'
import type { UndoReadingRefusal } from '#lib/db/reading/undo-saved-reading'
import type { ReadingProgress } from '#lib/reader/page-reading'
import { counted, listed } from '#words/amounts'
import { describeChartRefusal } from '../_charts/words'
import { describeFileUnfit, describeKeepFileRefusal } from '../_files/words'

/** How a field stands, in a word. */
export const standingWords: Record<FieldStanding, string> = {
  sure: 'sure',
  look: 'look at it',
  choose: 'choose one',
  new: 'would be new',
  lacking: 'not enough for a thread',
  empty: 'none',
}

export const megabytes = (bytes: number): string => `${numberText(bytes / (1024 * 1024), { maximumFractionDigits: 1 })} MB`

export function describeTextUnfit(refusal: TextUnfit): string {
  switch (refusal.kind) {
    case 'text-empty':
      return 'Paste the text of the key first.'
    case 'text-too-long':
      return `That is ${numberText(refusal.characters)} characters; up to ${numberText(refusal.mostCharacters)} are read at once. Paste the key alone.`
  }
}

/** Why a file was not taken to be read, with its name. */
export const describeUnfitFile = (name: string, refusal: FileUnfit): string => `${name}: ${describeFileUnfit(refusal)}`

type Refused = Extract<StagedReading['state'], { kind: 'refused' }>['refusal']

/** Why a reading came to nothing. */
export function describeReadingRefusal(refusal: Refused): string {
  switch (refusal.kind) {
    case 'file-too-large':
      return `The file has ${megabytes(refusal.bytes)}; up to ${megabytes(refusal.mostBytes)} can be read.`
    case 'not-a-pdf':
      return 'It is not a PDF inside, whatever its name says.'
    case 'pdf-locked':
      return 'The PDF is locked with a password. Save it once without the password, or paste the text of its key.'
    case 'pdf-unreadable':
      return 'The PDF is damaged: it cannot be opened. Fetch it once more from where it came from.'
    case 'too-many-pages':
      return `The file has ${refusal.pages} pages; up to ${refusal.mostPages} are read. Save the pages with the key as a file of their own.`
    case 'photo-heic':
      return 'The photo is in the phone’s own format (HEIC), which is not read here. Take it as JPEG: in the phone’s camera settings, “most compatible”.'
    case 'not-a-photo':
      return 'It is not a picture that can be read. JPEG, PNG and WebP can.'
    case 'photo-unreadable':
      return 'The picture is damaged: it cannot be opened.'
    case 'took-too-long':
      return `It was not read within ${refusal.seconds} seconds. Fewer pages, or a smaller picture, go quicker.`
    case 'reader-broke':
      return 'The file could not be read: something in it is not as it should be. Nothing else was touched.'
    case 'stopped':
      return 'It was stopped before it was read.'
    case 'no-text':
      return 'There is no text to be found in it.'
    case 'text-too-long':
      return `It has ${numberText(refusal.lines)} lines, more than any key. Save the pages with the key as a file of their own.`
  }
}

export const cutShortWords = 'The reading was cut short when the program stopped. The file is here still.'

/** How far a reading is. */
export function progressWords(progress: ReadingProgress): { label: string; note: string; done: number; of: number | undefined } {
  const onPage = (label: string) => {
    const { page, pages } = progress as { page: number; pages: number }
    return { label, note: `Page ${page} of ${pages}`, done: page - 1, of: pages }
  }
  switch (progress.step) {
    case 'waiting':
      return { label: 'Waiting', note: 'Another file is being read first', done: 0, of: undefined }
    case 'opening':
      return { label: 'Opening the file', note: 'One moment', done: 0, of: undefined }
    case 'words':
      return onPage('Taking the words off the page')
    case 'drawing':
      return onPage('Drawing the page')
    case 'straightening':
      return onPage('Straightening the page')
    case 'reading':
      return onPage('Reading the letters')
    case 'laying-out':
      return onPage('Finding lines and columns')
    case 'cover':
      return { label: 'Drawing the cover', note: 'Nearly there', done: 0, of: undefined }
  }
}

export function describeCorrectRefusal(refusal: CorrectRefusal | ReadAgainRefusal): string {
  switch (refusal.kind) {
    case 'no-such-reading':
      return 'This reading is not there any more: it is kept for a day. Read the key again.'
    case 'changed-meanwhile':
      return 'Somebody else corrected this reading meanwhile. It is shown as it is now; make your change again if it is still wanted.'
    case 'not-under-review':
      return 'This reading is not under review any more: somebody saved it.'
    case 'no-such-line':
      return 'That line is not there any more.'
    case 'nothing-to-undo':
      return 'There is nothing to take back.'
    case 'reading-now':
      return 'It is being read already.'
  }
}

export function describeSaveRefusal(refusal: SaveReadingRefusal): string {
  switch (refusal.kind) {
    case 'no-such-reading':
      return 'This reading is not there any more: it is kept for a day. Nothing was saved.'
    case 'changed-meanwhile':
      return 'Somebody else corrected this reading since you opened it. Nothing was saved: open it again, look, and save then.'
    case 'not-under-review':
      return 'Somebody saved this reading already. Nothing was saved a second time.'
    case 'nothing-to-save':
      return 'There is nothing to save: choose at least one list, or what it is to be saved as.'
    case 'lines-lack':
      return `${counted(refusal.lines.length, 'line')} cannot be saved yet: ${listed(lackingWords(refusal.lines))}. Mend them, or tick “leave them out for now”.`
    case 'kept-already':
    case 'kept-elsewhere':
      return describeKeepFileRefusal(refusal)
    default:
      return describeChartRefusal(refusal)
  }
}

/** "line 3 names no code", for the first few. */
function lackingWords(lines: readonly LineLacking[]): string[] {
  const said = lines.slice(0, 4).map(({ why }) => `line ${why.line + 1} ${lackWords(why)}`)
  return lines.length > 4 ? [...said, `${lines.length - 4} more`] : said
}

export function lackWords(why: LineLacking['why']): string {
  switch (why.kind) {
    case 'no-thread':
      return 'names no thread'
    case 'no-maker':
      return 'does not say whose thread it is'
    case 'no-code':
      return 'has no code'
    case 'which-thread':
      return `may be one of ${why.threadIds.length} threads`
    case 'strands-out-of-range':
      return `has ${why.strands} strands`
    case 'not-to-be-added':
      return 'has a new thread that is not ticked'
  }
}

export function describeUndoRefusal(refusal: UndoReadingRefusal): string {
  switch (refusal.kind) {
    case 'no-such-change':
      return 'Nothing is known of this any more.'
    case 'already-undone':
      return 'It was taken back already.'
    case 'changed-since':
      return 'It was changed since it was saved, so it is left as it is. The chart can be taken out of the larder, and a list removed, by hand.'
    case 'in-work':
      return describeChartRefusal(refusal)
  }
}
