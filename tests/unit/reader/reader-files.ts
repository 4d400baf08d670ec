import path from 'node:path'
import { createCanvas, GlobalFonts } from '@napi-rs/canvas'
import PDFDocument from 'pdfkit'
import sharp from 'sharp'

/** Invented, as all makers here are. */
export const keyRows: readonly (readonly string[])[] = [
  ['Symbol', 'Larkholm', 'Colour', 'Strands', 'Skeins'],
  ['A', '0311', 'Pale Pine', '2', '1'],
  ['K', '0742', 'Winter Rook', '2', '2'],
  ['S', '0087', 'Old Brick', '1', '1'],
  ['T', '1204', 'Quince', '2', '3'],
  ['W', '0905', 'Plum Stone', '2', '1'],
  ['4', '2357', 'Deep Heather', '3', '2'],
  ['▲', '1691', 'Medium Slate', '2', '1'],
  ['H', '0645', 'Light Barley', '1', '4'],
]

const face = path.join('node_modules', '@expo-google-fonts', 'noto-sans', '400Regular', 'NotoSans_400Regular.ttf')
const lefts = [0, 60, 130, 270, 330]

type PdfOptions = { rows?: readonly (readonly string[])[]; pages?: number; password?: string }

/** A PDF with the key on each page. */
export async function aPdf({ rows = keyRows, pages = 1, password }: PdfOptions = {}): Promise<Uint8Array> {
  const pdf = new PDFDocument({
    size: 'A4',
    margin: 50,
    ...(password && { userPassword: password }),
    info: { CreationDate: new Date(0) },
  })
  const chunks: Buffer[] = []
  pdf.on('data', (chunk: Buffer) => chunks.push(chunk))
  const ended = new Promise((resolve) => pdf.on('end', resolve))
  for (let page = 0; page < pages; page++) {
    if (page > 0) pdf.addPage()
    pdf.font(face).fontSize(10)
    for (const [at, row] of rows.entries()) {
      for (const [column, text] of row.entries())
        pdf.text(text, 50 + (lefts[column] as number), 60 + at * 18, { lineBreak: false })
    }
  }
  pdf.end()
  await ended
  return new Uint8Array(Buffer.concat(chunks))
}

/** A page that is a picture: the PDF has no word of its own. */
export async function aScannedPdf(picture: Uint8Array): Promise<Uint8Array> {
  const pdf = new PDFDocument({ size: 'A5', margin: 0, info: { CreationDate: new Date(0) } })
  const chunks: Buffer[] = []
  pdf.on('data', (chunk: Buffer) => chunks.push(chunk))
  const ended = new Promise((resolve) => pdf.on('end', resolve))
  pdf.image(Buffer.from(picture), 0, 0, { width: pdf.page.width })
  pdf.end()
  await ended
  return new Uint8Array(Buffer.concat(chunks))
}

/** A photograph of a ruled key, so to say: turned, in uneven light, on a darker table, as JPEG. */
export async function aPhoto({ degrees = 0, shade = 0 }: { degrees?: number; shade?: number } = {}): Promise<Uint8Array> {
  GlobalFonts.registerFromPath(face, 'LarderTestFace')
  const canvas = createCanvas(1_200, 900)
  const context = canvas.getContext('2d')
  context.fillStyle = '#f3ecdc'
  context.fillRect(0, 0, 1_200, 900)
  context.fillStyle = '#2a2522'
  context.font = '30px LarderTestFace'
  const scale = 2.6
  for (const [at, row] of keyRows.entries()) {
    const y = 140 + at * 66
    for (const [column, text] of row.entries()) {
      const x = 110 + (lefts[column] as number) * scale
      if (text === '▲') {
        context.beginPath()
        context.moveTo(x + 12, y - 22)
        context.lineTo(x + 24, y)
        context.lineTo(x, y)
        context.fill()
      } else context.fillText(text, x, y)
    }
    context.fillRect(90, y + 20, 1_000, 2)
  }
  for (const x of [90, 1_090]) context.fillRect(x, 90, 2, 140 + 8 * 66 + 20 - 90)
  let picture = sharp(canvas.toBuffer('image/png'))
  if (shade > 0) {
    const light = `<svg width="1200" height="900"><defs><linearGradient id="s"><stop offset="0" stop-opacity="0"/><stop offset="1" stop-opacity="${shade}"/></linearGradient></defs><rect width="1200" height="900" fill="url(#s)"/></svg>`
    picture = sharp(
      await picture
        .composite([{ input: Buffer.from(light) }])
        .png()
        .toBuffer(),
    )
  }
  if (degrees !== 0) picture = sharp(await picture.rotate(degrees, { background: '#3c3129' }).png().toBuffer())
  return new Uint8Array(await picture.flatten({ background: '#3c3129' }).jpeg({ quality: 80 }).toBuffer())
}
