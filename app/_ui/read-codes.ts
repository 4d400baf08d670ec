/** Bars on goods, those a shop prints itself, and the square codes of our labels. */
export type CodeKind = 'bars' | 'bars and squares'

/** What is read off one picture of the camera; empty when there is nothing to read. */
type ReadCode = (video: HTMLVideoElement) => Promise<string>

type Detector = { detect: (source: HTMLVideoElement) => Promise<{ rawValue: string }[]> }
type DetectorMaker = {
  new (options?: { formats?: string[] }): Detector
  getSupportedFormats?: () => Promise<string[]>
}

const bars = ['ean_13', 'ean_8', 'upc_a', 'upc_e', 'code_128', 'code_39']
const ownServerPath = '/scan/reader.wasm'
/** Wide enough for a label filling a third of the picture; wider only takes longer. */
const mostPixelsWide = 800

/** The browser's own reader where it knows these kinds; else one that our own server hands out. */
export async function openReader(kind: CodeKind): Promise<ReadCode> {
  const formats = kind === 'bars' ? bars : ['qr_code', ...bars]
  const Maker = (globalThis as { BarcodeDetector?: DetectorMaker }).BarcodeDetector
  const known = (await Maker?.getSupportedFormats?.().catch(() => [])) ?? []
  if (Maker && formats.every((format) => known.includes(format))) {
    const detector = new Maker({ formats })
    return async (video) => (await detector.detect(video))[0]?.rawValue ?? ''
  }
  const { prepareZXingModule, readBarcodes } = await import('zxing-wasm/reader')
  // Of itself it would fetch its module from elsewhere.
  await prepareZXingModule({ overrides: { locateFile: () => ownServerPath }, fireImmediately: true })
  const canvas = document.createElement('canvas')
  const context = canvas.getContext('2d', { willReadFrequently: true })
  return async (video) => {
    if (!context || video.videoWidth === 0) return ''
    const scale = Math.min(1, mostPixelsWide / video.videoWidth)
    canvas.width = Math.round(video.videoWidth * scale)
    canvas.height = Math.round(video.videoHeight * scale)
    context.drawImage(video, 0, 0, canvas.width, canvas.height)
    const read = await readBarcodes(context.getImageData(0, 0, canvas.width, canvas.height), {
      formats: kind === 'bars' ? [...zxingBars] : ['QRCode', ...zxingBars],
      maxNumberOfSymbols: 1,
    })
    return read[0]?.text ?? ''
  }
}

const zxingBars = ['EAN13', 'EAN8', 'UPCA', 'UPCE', 'Code128', 'Code39'] as const
