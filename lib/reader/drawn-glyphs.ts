import path from 'node:path'
import { type Canvas, createCanvas, GlobalFonts } from '@napi-rs/canvas'
import { blobsOf } from './picture/blobs'
import type { Grey } from './picture/grey'
import { type KnownGlyph, shapeIn } from './picture/known-glyphs'

/** Faces a key is likely to be set in, or in one much like them; they come with packages the program has anyway. */
const faces = [
  ['LarderGlyphsA', 'pdfjs-dist', 'standard_fonts', 'LiberationSans-Regular.ttf'],
  ['LarderGlyphsB', 'pdfjs-dist', 'standard_fonts', 'LiberationSans-Bold.ttf'],
  ['LarderGlyphsC', '@expo-google-fonts', 'noto-sans', '400Regular', 'NotoSans_400Regular.ttf'],
  ['LarderGlyphsD', '@expo-google-fonts', 'noto-sans', '700Bold', 'NotoSans_700Bold.ttf'],
] as const

const letters = [...'ABCDEFGHIJKLMNOPQRSTUVWXYZabdefghijklmnqrtuy0123456789+=/\\#%&@*?!<>$']
const side = 96

type Context = ReturnType<Canvas['getContext']>

/** Signs keys use that fonts of text often lack, drawn: each within a unit square. */
const signs: [string, (context: Context) => void][] = [
  ['●', (c) => filled(c, () => c.arc(0.5, 0.5, 0.5, 0, 7))],
  ['○', (c) => outlined(c, () => c.arc(0.5, 0.5, 0.45, 0, 7))],
  ['■', (c) => filled(c, () => c.rect(0, 0, 1, 1))],
  ['□', (c) => outlined(c, () => c.rect(0.05, 0.05, 0.9, 0.9))],
  ['▲', (c) => filled(c, () => corners(c, [0.5, 0, 1, 0.9, 0, 0.9]))],
  ['△', (c) => outlined(c, () => corners(c, [0.5, 0.08, 0.95, 0.88, 0.05, 0.88]))],
  ['▼', (c) => filled(c, () => corners(c, [0, 0, 1, 0, 0.5, 0.9]))],
  ['▽', (c) => outlined(c, () => corners(c, [0.05, 0.05, 0.95, 0.05, 0.5, 0.85]))],
  ['►', (c) => filled(c, () => corners(c, [0, 0, 0.95, 0.5, 0, 1]))],
  ['◄', (c) => filled(c, () => corners(c, [0.95, 0, 0.95, 1, 0, 0.5]))],
  ['◆', (c) => filled(c, () => corners(c, [0.5, 0, 1, 0.5, 0.5, 1, 0, 0.5]))],
  ['◇', (c) => outlined(c, () => corners(c, [0.5, 0.07, 0.93, 0.5, 0.5, 0.93, 0.07, 0.5]))],
  ['♦', (c) => filled(c, () => corners(c, [0.5, 0, 0.87, 0.5, 0.5, 1, 0.13, 0.5]))],
  ['♥', (c) => filled(c, () => heart(c, 1))],
  ['♠', (c) => filled(c, () => spade(c))],
  ['♣', (c) => filled(c, () => club(c))],
  ['★', (c) => filled(c, () => corners(c, star))],
  ['☆', (c) => outlined(c, () => corners(c, star))],
  [
    '×',
    (c) =>
      filled(c, () =>
        corners(
          c,
          [0.12, 0, 0.5, 0.38, 0.88, 0, 1, 0.12, 0.62, 0.5, 1, 0.88, 0.88, 1, 0.5, 0.62, 0.12, 1, 0, 0.88, 0.38, 0.5, 0, 0.12],
        ),
      ),
  ],
]

const star = Array.from({ length: 10 }, (_, at) => {
  const [turn, reach] = [(at * Math.PI) / 5, at % 2 === 0 ? 0.5 : 0.2]
  return [0.5 + reach * Math.sin(turn), 0.5 - reach * Math.cos(turn)]
}).flat()

function corners(context: Context, points: readonly number[]): void {
  context.moveTo(points[0] as number, points[1] as number)
  for (let at = 2; at < points.length; at += 2) context.lineTo(points[at] as number, points[at + 1] as number)
  context.closePath()
}

/** @param up  1 for a heart, -1 for one head over: the leaf of a spade */
function heart(context: Context, up: 1 | -1): void {
  const y = (at: number) => (up === 1 ? at : 0.85 - at * 0.85)
  context.moveTo(0.5, y(1))
  context.bezierCurveTo(-0.35, y(0.4), 0.15, y(-0.3), 0.5, y(0.2))
  context.bezierCurveTo(0.85, y(-0.3), 1.35, y(0.4), 0.5, y(1))
  context.closePath()
}

function spade(context: Context): void {
  heart(context, -1)
  corners(context, [0.5, 0.6, 0.68, 1, 0.32, 1])
}

function club(context: Context): void {
  for (const [x, y] of [
    [0.5, 0.25],
    [0.25, 0.6],
    [0.75, 0.6],
  ] as const) {
    context.arc(x, y, 0.25, 0, 7)
    context.closePath()
  }
  corners(context, [0.5, 0.4, 0.66, 1, 0.34, 1])
}

function filled(context: Context, path: () => void): void {
  context.beginPath()
  path()
  context.fill()
}

function outlined(context: Context, path: () => void): void {
  context.beginPath()
  context.lineWidth = 0.1
  path()
  context.stroke()
}

let drawn: KnownGlyph[] | null = null

/** Letters, figures and signs as they look, drawn once. About 300, a tenth of a second. */
export function drawnGlyphs(root: string): KnownGlyph[] {
  if (drawn) return drawn
  const made: KnownGlyph[] = []
  const canvas = createCanvas(side * 2, side * 2)
  const context = canvas.getContext('2d')
  const draw = (text: string, paint: () => void) => {
    context.setTransform(1, 0, 0, 1, 0, 0)
    context.fillStyle = '#fff'
    context.fillRect(0, 0, side * 2, side * 2)
    context.fillStyle = '#000'
    paint()
    const shape = inkOf(context)
    if (shape) made.push({ text, ...shape })
  }
  for (const [name, ...file] of faces) {
    if (!GlobalFonts.registerFromPath(path.join(root, 'node_modules', ...file), name)) continue
    for (const letter of letters) {
      draw(letter, () => {
        context.font = `${side}px ${name}`
        context.fillText(letter, side * 0.4, side * 1.4)
      })
    }
  }
  for (const [text, paint] of signs) {
    draw(text, () => {
      context.setTransform(side, 0, 0, side, side / 2, side / 2)
      paint(context)
    })
  }
  drawn = made
  return made
}

function inkOf(context: Context) {
  const { data, width, height } = context.getImageData(0, 0, side * 2, side * 2)
  const grey: Grey = { width, height, data: new Uint8Array(width * height) }
  for (let at = 0; at < grey.data.length; at++) grey.data[at] = data[at * 4] as number
  const blobs = blobsOf(grey, 128)
  if (blobs.length === 0) return null
  const box = {
    left: Math.min(...blobs.map(({ left }) => left)),
    right: Math.max(...blobs.map(({ right }) => right)),
    top: Math.min(...blobs.map(({ top }) => top)),
    bottom: Math.max(...blobs.map(({ bottom }) => bottom)),
  }
  return shapeIn(grey, box, 128)
}
