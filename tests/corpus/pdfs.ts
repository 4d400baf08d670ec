import { heldOutPdf } from './held-out/pdfs'
import { trainPdf } from './train/pdfs'
import { widerPdf, widerPdfs } from './train/wider-pdfs'
import { type CorpusFile, type Half, pdfsInHalf } from './truth'

/** Of the train half thirty, and after them those whose heads are told by their type. */
export const pdfsIn = (half: Half): number => (half === 'train' ? pdfsInHalf + widerPdfs : pdfsInHalf)

/**
 * PDFs with what they say, one at a time. Write those of the train half out with
 * `npx tsx --conditions=react-server tests/corpus/dump.ts train <folder> pdfs`.
 *
 * @param which  some of them by number from 0; all when left out
 */
export async function* makePdfs(
  half: Half,
  which: readonly number[] = Array.from({ length: pdfsIn(half) }, (_, at) => at),
): AsyncGenerator<CorpusFile> {
  for (const at of which) yield await pdfOf(half, at)
}

const pdfOf = (half: Half, at: number): Promise<CorpusFile> =>
  half === 'held-out' ? heldOutPdf(at) : at < pdfsInHalf ? trainPdf(at) : widerPdf(at - pdfsInHalf)
