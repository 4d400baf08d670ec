import path from 'node:path'
import type { PlacedWord, TextPage } from '#lib/chart/page-text/page-text'
import { drawnGlyphs } from './drawn-glyphs'
import { mendWords } from './mend-words'
import type { Grey } from './picture/grey'
import { secondLook } from './second-look'
import type { Straight } from './straighten'

/** Pieces of ink beyond this are a chart's squares, or a photograph, and no page of text. */
const mostBlobs = 12_000

/** Reads letters from straightened pictures; started with the first, and to be ended. */
export type LetterReader = { read: (straight: Straight) => Promise<TextPage>; end: () => Promise<void> }

type Engine = Pick<import('tesseract.js').Worker, 'recognize' | 'terminate'>

/** @param start  Another engine, for trials. */
export function letterReader(root: string, start: (root: string) => Promise<Engine> = startEngine): LetterReader {
  let engine: Promise<Engine> | null = null
  const started = () => {
    engine ??= start(root)
    return engine
  }
  return {
    read: async (straight) => {
      const { width, height } = straight.grey
      if (straight.blobCount > mostBlobs) return { widthPt: width, heightPt: height, words: [], rules: straight.rules }
      return { widthPt: width, heightPt: height, words: await wordsOf(await started(), straight, root), rules: straight.rules }
    },
    end: async () => {
      await (await engine)?.terminate()
    },
  }
}

async function startEngine(root: string): Promise<Engine> {
  const { createWorker, OEM } = await import('tesseract.js')
  const model = path.join(root, 'node_modules', '@tesseract.js-data', 'eng', '4.0.0_best_int')
  return createWorker('eng', OEM.LSTM_ONLY, { langPath: model, cacheMethod: 'none', gzip: true, errorHandler: () => {} })
}

/** As an uncompressed picture of the plainest format there is. */
export const greyMap = ({ width, height, data }: Grey): Buffer =>
  Buffer.concat([Buffer.from(`P5\n${width} ${height}\n255\n`, 'latin1'), data])

async function wordsOf(engine: Engine, straight: Straight, root: string): Promise<PlacedWord[]> {
  // All words of the picture, taken as one block of lines; then line by line what that was unsure of.
  const words = await readWords(engine, straight.grey, { tessedit_pageseg_mode: '6' })
  const looked = await secondLook(words, straight, (picture, signs) =>
    readWords(engine, picture, { tessedit_pageseg_mode: '7', tessedit_char_whitelist: signs ?? '' }),
  )
  return evenHeights(mendWords(looked, straight, drawnGlyphs(root)), straight.capPx)
}

async function readWords(engine: Engine, picture: Grey, options: Record<string, string>): Promise<PlacedWord[]> {
  const { data } = await engine.recognize(greyMap(picture), options as object, { text: false, blocks: true })
  const words: PlacedWord[] = []
  for (const block of data.blocks ?? []) {
    for (const paragraph of block.paragraphs) {
      for (const line of paragraph.lines) {
        for (const { text, confidence, bbox } of line.words) {
          if (text.trim() === '' || isNoise(text.trim(), confidence)) continue
          words.push({
            text,
            certainty: Math.min(1, Math.max(0, confidence / 100)),
            box: { left: bbox.x0, right: bbox.x1, top: bbox.y0, bottom: bbox.y1 },
          })
        }
      }
    }
  }
  return words
}

/** Marks made of the paper's grain, a fold or a shadow: no word, and next to no certainty. */
const isNoise = (text: string, percent: number): boolean => {
  const said = text.replace(/[^A-Za-z0-9]/g, '').length
  return percent < (said === 0 ? 50 : said < 3 ? 25 : said < 5 ? 12 : 3)
}

/** Letters that stand so far apart (of capitals' height, each) in all words alike are set on a typewriter, its spaces as wide as its letters. */
const typedWide = 0.82
/** Of half the words, they differ by no more. */
const typedSpread = 0.06

/** Boxes as high as the type, about the words' own middles, as those of words that came with a file are: `are` and `Agk` alike. */
function evenHeights(words: readonly PlacedWord[], capPx: number): PlacedWord[] {
  const advances = words
    .filter(({ text }) => /^[a-z]{4,}$/.test(text.slice(1)))
    .map(({ text, box }) => (box.right - box.left) / (text.length * capPx))
    .sort((a, b) => a - b)
  // Gaps are measured by the type's height: it has to be that of a face with such spaces.
  const [lower = 0, middle = 0, upper = 0] = [0.25, 0.5, 0.75].map((part) => advances[Math.floor(advances.length * part)])
  const isTyped = middle > typedWide && upper - lower < middle * typedSpread
  const share = isTyped ? 2.1 : 1.35
  return words.map((word) => {
    const { left, right, top, bottom } = word.box
    const high = Math.max(capPx, bottom - top > capPx * 1.9 ? (bottom - top) * 0.8 : capPx)
    // Where the capitals' middle would be: a word of small letters reaches less far up, one with a tail further down.
    const hasTail = /[gjpqy,;]/.test(word.text)
    const isLow = !/[A-Z0-9bdfhklt#%&()/]/.test(word.text)
    const baseline = hasTail ? bottom - (bottom - top) * (isLow ? 0.3 : 0.22) : bottom
    const centre = /[A-Za-z0-9]/.test(word.text) ? baseline - high * 0.5 : (top + bottom) / 2
    return { ...word, box: { left, right, top: centre - (high * share) / 2, bottom: centre + (high * share) / 2 } }
  })
}
