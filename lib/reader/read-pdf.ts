import path from 'node:path'
import { pathToFileURL } from 'node:url'
import { fileTypeFromBuffer } from 'file-type'
import sharp from 'sharp'
import type { TextPage } from '#lib/chart/page-text/page-text'
import { ok, type Result, refused } from '#lib/result'
import type { PageReading, ReadingRefusal } from './page-reading'
import type { ReaderDesk } from './parts-clock'
import { pageFromText, type TextRun } from './pdf-text'
import { coverOf } from './read-picture'
import { letterReader } from './recognise'
import { straighten } from './straighten'

const mostPages = 200
/** Fewer letters than this on a page say nothing of a key: a page number, a name. The page is then read as a picture. */
const fewLetters = 24
const drawnDpi = 220
const mostDrawnPixels = 12_000_000
/** An image within a page that claims more is left out of its drawing. */
const mostImagePixels = 60_000_000

/** Read a PDF page by page: by the words in it, or, where a page holds next to none, as a picture of it. */
export async function readPdf(
  bytes: Uint8Array,
  desk: ReaderDesk,
): Promise<Result<Pick<PageReading, 'pages' | 'cover' | 'wasPhotographed'>, ReadingRefusal>> {
  const { clock, tell } = desk
  tell({ step: 'opening' })
  // Some writers put a few lines before the mark; none a kilobyte.
  if (!Buffer.from(bytes.subarray(0, 1_024)).includes('%PDF-')) {
    return refused({ kind: 'not-a-pdf', found: (await fileTypeFromBuffer(bytes))?.mime ?? null })
  }
  const opened = await clock.time('opening', () => openPdf(bytes, desk.root))
  if (!opened.ok) return opened
  const pdf = opened.value
  if (pdf.numPages > mostPages) return refused({ kind: 'too-many-pages', pages: pdf.numPages, mostPages })
  const letters = letterReader(desk.root)
  const pages: TextPage[] = []
  let cover: Uint8Array | null = null
  let wasPhotographed = false
  let broken = 0
  for (let number = 1; number <= pdf.numPages; number++) {
    const at = { page: number, pages: pdf.numPages }
    tell({ step: 'words', ...at })
    let page: Awaited<ReturnType<typeof pdf.getPage>>
    let text: TextPage
    try {
      page = await clock.time('words', () => pdf.getPage(number))
      text = await clock.time('words', () => textPageOf(page))
    } catch {
      // A page that is broken is a blank one; the others may be whole.
      broken += 1
      pages.push({ widthPt: 612, heightPt: 792, words: [] })
      continue
    }
    if (number === 1) {
      tell({ step: 'cover' })
      cover = await clock.time('cover', async () => {
        const drawn = await draw(pdf, page, 1_400 / Math.max(text.widthPt, text.heightPt))
        return drawn && coverOf(drawn)
      })
    }
    const letterCount = text.words.reduce((sum, word) => sum + word.text.replace(/\s/g, '').length, 0)
    if (letterCount < fewLetters) {
      tell({ step: 'drawing', ...at })
      const drawn = await clock.time('drawing', () => draw(pdf, page, drawnDpi / 72))
      if (drawn && !(await isBlank(drawn))) {
        tell({ step: 'straightening', ...at })
        const straight = await clock.time('straightening', () => straighten(drawn))
        tell({ step: 'reading', ...at })
        const isWorthIt = straight !== null && straight.blobCount >= fewLetters
        const read = isWorthIt ? await clock.time('reading', () => letters.read(straight)) : null
        if (read && read.words.length > text.words.length) {
          text = read
          wasPhotographed = true
        }
      }
    }
    pages.push(text)
    page.cleanup()
  }
  await letters.end()
  if (broken === pages.length) return refused({ kind: 'pdf-unreadable' })
  return ok({ pages, cover, wasPhotographed })
}

/** Nothing is drawn on it: the least word makes more of a difference. */
async function isBlank(drawn: Buffer): Promise<boolean> {
  const { channels } = await sharp(drawn).stats()
  return channels.every(({ stdev }) => stdev < 0.5)
}

async function openPdf(bytes: Uint8Array, root: string) {
  const pdfjs = await import('pdfjs-dist/legacy/build/pdf.mjs')
  const folder = path.join(root, 'node_modules', 'pdfjs-dist')
  pdfjs.GlobalWorkerOptions.workerSrc = pathToFileURL(path.join(folder, 'legacy', 'build', 'pdf.worker.mjs')).href
  const local = (name: string) => `${path.join(folder, name)}${path.sep}`
  const task = pdfjs.getDocument({
    data: new Uint8Array(bytes),
    // No script of the file's own, no font or map from anywhere but the package.
    ...{ isEvalSupported: false, enableXfa: false, useSystemFonts: false, disableFontFace: true, verbosity: 0 },
    ...{ standardFontDataUrl: local('standard_fonts'), cMapUrl: local('cmaps'), cMapPacked: true },
    ...{ wasmUrl: local('wasm'), iccUrl: local('iccs') },
    ...{ maxImageSize: mostImagePixels, canvasMaxAreaInBytes: mostDrawnPixels * 8 },
  })
  try {
    return ok(await task.promise)
  } catch (error) {
    const isLocked = (error as Error).name === 'PasswordException'
    return refused({ kind: isLocked ? ('pdf-locked' as const) : ('pdf-unreadable' as const) })
  }
}

type Pdf = Awaited<ReturnType<typeof openPdf>> extends Result<infer Value, unknown> ? Value : never
type Page = Awaited<ReturnType<Pdf['getPage']>>

async function textPageOf(page: Page): Promise<TextPage> {
  const { width, height, transform } = page.getViewport({ scale: 1 })
  const { items } = await page.getTextContent({ includeMarkedContent: false })
  const runs = items.flatMap((item): TextRun[] =>
    'str' in item ? [{ text: item.str, transform: item.transform as TextRun['transform'], width: item.width }] : [],
  )
  return pageFromText(runs, { width, height, transform: transform as TextRun['transform'] })
}

type Canvas = { width: number; height: number; toBuffer: (type: 'image/png') => Buffer }
type CanvasFactory = {
  create: (width: number, height: number) => { canvas: Canvas; context: CanvasRenderingContext2D }
  destroy: (made: unknown) => void
}

/** A page drawn on white, as PNG; null where it cannot be drawn. */
async function draw(pdf: Pdf, page: Page, scale: number): Promise<Buffer | null> {
  const { width, height } = page.getViewport({ scale: 1 })
  const fit = Math.min(scale, Math.sqrt(mostDrawnPixels / (width * height)))
  const viewport = page.getViewport({ scale: fit })
  if (!(viewport.width >= 1 && viewport.height >= 1)) return null
  // The library's own: a canvas of another copy of the drawing package cannot be drawn onto its.
  const factory = pdf.canvasFactory as CanvasFactory
  try {
    const made = factory.create(Math.ceil(viewport.width), Math.ceil(viewport.height))
    const canvas = made.canvas as unknown as HTMLCanvasElement
    await page.render({ canvas, canvasContext: made.context, viewport, background: '#ffffff' }).promise
    const png = made.canvas.toBuffer('image/png')
    factory.destroy(made)
    // A drawing may come with a clear ground.
    return await sharp(png).flatten({ background: '#ffffff' }).png({ compressionLevel: 1 }).toBuffer()
  } catch {
    return null
  }
}
