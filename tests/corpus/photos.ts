import { heldOutPhoto } from './held-out/photos'
import { trainPhoto } from './train/photos'
import { type CorpusFile, type Half, photosInHalf } from './truth'

/**
 * Thirty photographs (JPEG) of keys with what they say, one at a time; about a second each to make. Write those of the train half out with
 * `npx tsx --conditions=react-server tests/corpus/dump.ts train <folder> photos`.
 *
 * @param which  some of them by number, 0 to 29; all when left out
 */
export async function* makePhotos(
  half: Half,
  which: readonly number[] = Array.from({ length: photosInHalf }, (_, at) => at),
): AsyncGenerator<CorpusFile> {
  for (const at of which) yield await (half === 'train' ? trainPhoto(at) : heldOutPhoto(at))
}
