import { heldOutPdf } from './held-out/pdfs'
import { trainPdf } from './train/pdfs'
import { type CorpusFile, type Half, pdfsInHalf } from './truth'

/**
 * Thirty PDFs with what they say, one at a time. Write those of the train half out with
 * `npx tsx --conditions=react-server tests/corpus/dump.ts train <folder> pdfs`.
 *
 * @param which  some of them by number, 0 to 29; all when left out
 */
export async function* makePdfs(
  half: Half,
  which: readonly number[] = Array.from({ length: pdfsInHalf }, (_, at) => at),
): AsyncGenerator<CorpusFile> {
  for (const at of which) yield await (half === 'train' ? trainPdf(at) : heldOutPdf(at))
}
