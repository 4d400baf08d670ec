import { makePdfs } from './pdfs'
import { makePhotos } from './photos'
import { readFile, readText } from './read'
import { type Score, scoreReading } from './score'
import { makeTexts } from './texts'
import type { Half } from './truth'

export const corpusKinds = ['texts', 'pdfs', 'photos'] as const
export type CorpusKind = (typeof corpusKinds)[number]

export type Held = { name: string; template: string; score: Score; refusal: string | null }

/**
 * Read the documents of one half and hold each reading against the truth.
 *
 * @param which  some of the files by number; all when left out. Texts are always read all.
 */
export async function holdAgainstTruth(kind: CorpusKind, half: Half, which?: readonly number[]): Promise<Held[]> {
  if (kind === 'texts') {
    return makeTexts(half).map((made) => ({
      name: made.name,
      template: made.template,
      score: scoreReading(made.designs, readText(made)),
      refusal: null,
    }))
  }
  const held: Held[] = []
  for await (const made of kind === 'pdfs' ? makePdfs(half, which) : makePhotos(half, which)) {
    const { reading, refusal } = await readFile(kind === 'pdfs' ? 'pdf' : 'picture', made)
    held.push({ name: made.name, template: made.template, score: scoreReading(made.designs, reading), refusal })
  }
  return held
}
