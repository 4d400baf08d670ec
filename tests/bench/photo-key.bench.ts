import path from 'node:path'
import { createCanvas, GlobalFonts } from '@napi-rs/canvas'
import sharp from 'sharp'
import type { PageReading, ReadingParts } from '#lib/reader/page-reading'
import { runReader } from '#lib/reader/run-reader'
import { bundleWorkers } from '../../prisma/bundle-workers.mjs'
import type { Bench, Measurement } from './measurement'
import { measuredBytes } from './memory'
import { spreadOf } from './timing'

const rounds = 5
const lineCount = 30
const [widthPx, heightPx] = [1_800, 2_400]
const face = path.join('node_modules', '@expo-google-fonts', 'noto-sans', '400Regular', 'NotoSans_400Regular.ttf')
const lefts = [120, 320, 520, 1_000, 1_240, 1_480]
const names = ['Pale Pine', 'Deep Moss', 'Tarn Blue', 'Heron Grey, light', 'Old Brick', 'Quince', 'Winter Rook', 'Plum Stone']

const rows = Array.from({ length: lineCount }, (_, at) => [
  String.fromCharCode(65 + (at % 26)),
  String(311 + at * 97).padStart(4, '0'),
  names[at % names.length] as string,
  String(1 + (at % 3)),
  (1_240 + at * 173).toLocaleString('en'),
  String(1 + (at % 4)),
])

/** A ruled key of thirty lines, photographed so to say: turned by three degrees, shaded to the right, blurred, on a dark table. */
async function photograph(): Promise<Uint8Array> {
  GlobalFonts.registerFromPath(face, 'LarderBenchFace')
  const canvas = createCanvas(widthPx, heightPx)
  const context = canvas.getContext('2d')
  context.fillStyle = '#f3ecdc'
  context.fillRect(0, 0, widthPx, heightPx)
  context.fillStyle = '#2a2522'
  context.font = '32px LarderBenchFace'
  for (const [at, row] of rows.entries()) {
    const y = 250 + at * 64
    for (const [column, text] of row.entries()) context.fillText(text, lefts[column] as number, y)
    context.fillRect(100, y + 20, 1_550, 2)
  }
  const light = `<svg width="${widthPx}" height="${heightPx}"><defs><linearGradient id="s"><stop offset="0" stop-opacity="0"/><stop offset="1" stop-opacity="0.35"/></linearGradient></defs><rect width="100%" height="100%" fill="url(#s)"/></svg>`
  const shaded = await sharp(canvas.toBuffer('image/png'))
    .composite([{ input: Buffer.from(light) }])
    .png()
    .toBuffer()
  const turned = await sharp(shaded).rotate(3, { background: '#3c3129' }).png().toBuffer()
  return new Uint8Array(await sharp(turned).flatten({ background: '#3c3129' }).blur(0.8).jpeg({ quality: 80 }).toBuffer())
}

/** Cells read exactly as they were drawn, of all. */
function shareRight({ lines }: PageReading): number {
  const read = new Map(lines.map(({ cells }) => [cells[1]?.text, cells.map(({ text }) => text)]))
  const right = rows.flatMap((row) => row.filter((text, column) => read.get(row[1])?.[column] === text)).length
  return right / (rows.length * lefts.length)
}

const partWords: [keyof ReadingParts, string][] = [
  ['straightening', 'of that: straightening (light, tilt, size, lines taken off)'],
  ['reading', 'of that: reading the letters, their model loaded'],
  ['layingOut', 'of that: lines and columns'],
  ['cover', 'of that: the cover image'],
]

async function run(): Promise<Measurement[]> {
  await bundleWorkers()
  const bytes = await photograph()
  const whole: number[] = []
  const parts: ReadingParts[] = []
  const shares: number[] = []
  let mostUsed = 0
  for (let round = -1; round < rounds; round++) {
    const before = process.memoryUsage().rss
    const begun = performance.now()
    const watch = setInterval(() => {
      mostUsed = Math.max(mostUsed, process.memoryUsage().rss - before)
    }, 20)
    const read = await runReader({ kind: 'picture', bytes })
    clearInterval(watch)
    const took = performance.now() - begun
    if (!read.ok) throw new Error(`photo key: ${read.error.kind}`)
    if (round < 0) continue
    whole.push(took)
    parts.push(read.value.parts)
    shares.push(shareRight(read.value))
  }
  const timed = (name: string, times: readonly number[]): Measurement => {
    const { median, least, most } = spreadOf([...times])
    return {
      ...{ name, ours: median, against: null, ratio: null, unit: 'ms', samples: times.length },
      ...{ oursRange: [least, most], againstRange: null, goal: null },
    }
  }
  return [
    timed(`a photograph of a key of ${lineCount} lines, from its bytes to its lines`, whole),
    ...partWords.map(([part, words]) =>
      timed(
        words,
        parts.map((one) => one[part]),
      ),
    ),
    {
      ...{
        name: 'cells of it read exactly',
        ours: 100 * Math.min(...shares),
        against: null,
        ratio: null,
        unit: '%',
        samples: shares.length,
      },
      ...{ oursRange: null, againstRange: null, goal: { words: 'at least 90 %', isMet: Math.min(...shares) >= 0.9 } },
    },
    measuredBytes('memory it takes beside that', mostUsed, { words: 'under 1 GB', isMet: mostUsed < 2 ** 30 }),
  ]
}

export const photoKey: Bench = {
  name: 'photo-key',
  about: [
    'A ruled key of 30 lines and six columns, drawn as a picture of 1,800 × 2,400 px, turned by three degrees, shaded and blurred, and read by `lib/reader` in a thread of its own, started anew each time: what a person waits for a photograph. The rest of the time is the start of the thread. Accuracy on photographs the reader was not made by is the `reading` group’s.',
  ],
  run,
}
