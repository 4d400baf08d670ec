import { readFile } from 'node:fs/promises'
import path from 'node:path'
import { prepareZXingModule, readBarcodes } from 'zxing-wasm/reader'
import type { ReadPage } from './read-pdf'

/** As a printer of 300 dots to the inch would. */
const dotsPerMm = 300 / 25.4

type Area = { x: number; y: number; width: number; height: number }

let isReady: Promise<unknown> | null = null

// Of itself it would fetch its module from the network.
async function prepare(): Promise<void> {
  const file = path.resolve('node_modules/zxing-wasm/dist/reader/zxing_reader.wasm')
  isReady ??= readFile(file).then((wasm) =>
    prepareZXingModule({ overrides: { wasmBinary: new Uint8Array(wasm).buffer }, fireImmediately: true }),
  )
  await isReady
}

/** What another library reads off a picture of dark squares on white. */
export async function readCodes(
  dark: readonly Area[],
  of: { width: number; height: number },
  perMm = dotsPerMm,
): Promise<string[]> {
  await prepare()
  const [width, height] = [Math.ceil(of.width * perMm), Math.ceil(of.height * perMm)]
  const data = new Uint8ClampedArray(width * height * 4).fill(255)
  for (const area of dark) {
    const [left, right] = [area.x, area.x + area.width].map((mm) => Math.round(mm * perMm)) as [number, number]
    const [top, foot] = [area.y, area.y + area.height].map((mm) => Math.round(mm * perMm)) as [number, number]
    for (let y = Math.max(0, top); y < Math.min(height, foot); y++) {
      for (let x = Math.max(0, left); x < Math.min(width, right); x++) data.fill(0, (y * width + x) * 4, (y * width + x) * 4 + 3)
    }
  }
  const read = await readBarcodes({ data, width, height, colorSpace: 'srgb' } as ImageData, {
    formats: ['QRCode'],
    maxNumberOfSymbols: 1,
  })
  return read.map(({ text }) => text)
}

/** The code within one label of a printed page, from what is filled in there. */
export function readCodeIn(page: ReadPage, label: Area): Promise<string[]> {
  const inside = page.fills.filter(
    ({ x, y }) => x >= label.x && x < label.x + label.width && y >= label.y && y < label.y + label.height,
  )
  return readCodes(
    inside.map((fill) => ({ ...fill, x: fill.x - label.x, y: fill.y - label.y })),
    label,
  )
}
