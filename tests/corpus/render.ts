import { createRequire } from 'node:module'
import path from 'node:path'
import { getDocument } from '#tests/pdfjs'

const standardFonts = `${path.join(path.dirname(createRequire(import.meta.url).resolve('pdfjs-dist/package.json')), 'standard_fonts')}/`

type CanvasFactory = { create(width: number, height: number): { canvas: HTMLCanvasElement; context: CanvasRenderingContext2D } }

export type Picture = {
  width: number
  height: number /** Red, green, blue, alpha, a byte each, row by row. */
  rgba: Uint8ClampedArray<ArrayBufferLike>
}

/** One page of a PDF as a picture, on white. */
export async function renderPage(
  pdf: Uint8Array,
  { page: number = 1, dotsPerInch }: { page?: number; dotsPerInch: number },
): Promise<Picture> {
  const task = getDocument({
    data: pdf.slice(),
    standardFontDataUrl: standardFonts,
    isEvalSupported: false,
    useSystemFonts: false,
    verbosity: 0,
  })
  const document = await task.promise
  try {
    const page = await document.getPage(number)
    const viewport = page.getViewport({ scale: dotsPerInch / 72 })
    const [width, height] = [Math.round(viewport.width), Math.round(viewport.height)]
    // Its own canvas: it draws paths of that alone.
    const { canvas, context } = (document.canvasFactory as CanvasFactory).create(width, height)
    context.fillStyle = '#fff'
    context.fillRect(0, 0, width, height)
    await page.render({ canvas, canvasContext: context, viewport }).promise
    return { width, height, rgba: context.getImageData(0, 0, width, height).data }
  } finally {
    await task.destroy()
  }
}
