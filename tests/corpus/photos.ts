import { heldOutPhoto } from './held-out/photos'
import { trainPhoto } from './train/photos'
import { widerPhoto, widerPhotos } from './train/wider-photos'
import { type CorpusFile, type Half, photosInHalf } from './truth'

/** Of the train half thirty, and after them those of other layouts. */
const photosIn = (half: Half): number => (half === 'train' ? photosInHalf + widerPhotos : photosInHalf)

/**
 * Photographs (JPEG) of keys with what they say, one at a time; about a second each to make. Write those of the train half out with
 * `npx tsx --conditions=react-server tests/corpus/dump.ts train <folder> photos`.
 *
 * @param which  some of them by number from 0; all when left out
 */
export async function* makePhotos(
  half: Half,
  which: readonly number[] = Array.from({ length: photosIn(half) }, (_, at) => at),
): AsyncGenerator<CorpusFile> {
  for (const at of which) yield await photoOf(half, at)
}

const photoOf = (half: Half, at: number): Promise<CorpusFile> =>
  half === 'held-out' ? heldOutPhoto(at) : at < photosInHalf ? trainPhoto(at) : widerPhoto(at - photosInHalf)
