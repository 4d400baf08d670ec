import { writeFileSync } from 'node:fs'
import { labelCode, quietSquares } from '#lib/printing/label-code'

const [width, height] = [640, 480]
const pixelsToSquare = 9
const [paper, ink, noColour] = [235, 16, 128]
const frames = 8

/** A film for the browser's pretended camera: a label's code held still before it, in the plain format of pictures one after the other. */
export function filmCode(text: string, file: string) {
  const code = labelCode(text, 'M')
  const side = (code.squares + 2 * quietSquares) * pixelsToSquare
  const [left, top] = [Math.floor((width - side) / 2), Math.floor((height - side) / 2)]
  const luma = Buffer.alloc(width * height, paper)
  for (const { x, y, across, down } of boxesOf(code.runs)) {
    const [fromX, fromY] = [left + (x + quietSquares) * pixelsToSquare, top + (y + quietSquares) * pixelsToSquare]
    for (let row = fromY; row < fromY + down * pixelsToSquare; row++)
      luma.fill(ink, row * width + fromX, row * width + fromX + across * pixelsToSquare)
  }
  const picture = Buffer.concat([Buffer.from('FRAME\n'), luma, Buffer.alloc((width * height) / 2, noColour)])
  const head = Buffer.from(`YUV4MPEG2 W${width} H${height} F8:1 Ip A1:1 C420jpeg\n`)
  writeFileSync(file, Buffer.concat([head, ...new Array<Buffer>(frames).fill(picture)]))
}

/** What Chromium is told so that it takes the film for its camera. */
export const filmArguments = (file: string): string[] => [
  '--use-fake-ui-for-media-stream',
  '--use-fake-device-for-media-stream',
  `--use-file-for-fake-video-capture=${file}`,
]

function* boxesOf(runs: readonly number[]): Generator<{ x: number; y: number; across: number; down: number }> {
  for (let at = 0; at < runs.length; at += 4) {
    const [x, y, across, down] = runs.slice(at, at + 4) as [number, number, number, number]
    yield { x, y, across, down }
  }
}
