import path from 'node:path'
import type { PlacedWord, TextPage } from '#lib/chart/page-text/page-text'
import { drawnGlyphs } from './drawn-glyphs'
import { mendWords } from './mend-words'
import type { Grey } from './picture/grey'
import type { Straight } from './straighten'

/** Pieces of ink beyond this are a chart's squares, or a photograph, and no page of text. */
const mostBlobs = 12_000

/** Reads letters from straightened pictures; started with the first, and to be ended. */
export type LetterReader = { read: (straight: Straight) => Promise<TextPage>; end: () => Promise<void> }

type Engine = import('tesseract.js').Worker

export function letterReader(root: string): LetterReader {
  let engine: Promise<Engine> | null = null
  const started = () => {
    engine ??= startEngine(root)
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
  const words = await readLines(engine, straight.grey)
  return evenHeights(mendWords(words, straight, drawnGlyphs(root)), straight.capPx)
}

/** All words of a picture, taken as one block of lines. */
async function readLines(engine: Engine, picture: Grey): Promise<PlacedWord[]> {
  const options = { tessedit_pageseg_mode: '6' } as object
  const { data } = await engine.recognize(greyMap(picture), options, { text: false, blocks: true })
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

/** Boxes as high as the type, about the words' own middles, as those of words that came with a file are: `are` and `Agk` alike. */
function evenHeights(words: readonly PlacedWord[], capPx: number): PlacedWord[] {
  return words.map((word) => {
    const { left, right, top, bottom } = word.box
    const high = Math.max(capPx, bottom - top > capPx * 1.9 ? (bottom - top) * 0.8 : capPx) * 1.35
    // Where the capitals' middle would be: a word of small letters reaches less far up, one with a tail further down.
    const hasTail = /[gjpqy,;]/.test(word.text)
    const isLow = !/[A-Z0-9bdfhklt#%&()/]/.test(word.text)
    const baseline = hasTail ? bottom - (bottom - top) * (isLow ? 0.3 : 0.22) : bottom
    const middle = /[A-Za-z0-9]/.test(word.text) ? baseline - high * 0.37 : (top + bottom) / 2
    return { ...word, box: { left, right, top: middle - high / 2, bottom: middle + high / 2 } }
  })
}
