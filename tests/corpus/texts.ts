import { heldOutTexts } from './held-out/texts'
import { trainTexts } from './train/texts'
import { widerTexts } from './train/wider-texts'
import { type CorpusText, type Half, textsInHalf } from './truth'

/**
 * Key texts with what they say, the same on every machine: two hundred to write the reader by, and a hundred held out that it was not written by. Write them out with
 * `npx tsx --conditions=react-server tests/corpus/dump.ts train <folder>`.
 */
export const makeTexts = (half: Half): CorpusText[] =>
  half === 'train' ? [...trainTexts(textsInHalf), ...widerTexts(textsInHalf)] : heldOutTexts(textsInHalf)
