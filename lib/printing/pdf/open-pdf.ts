import 'server-only'
import { readFile } from 'node:fs/promises'
import path from 'node:path'
import PDFDocument from 'pdfkit'
import { tidyWords } from '../fit-words'
import type { Ink, Mark, Measure, PrintedPage, Stroke } from '../mark'

/** Paper is white: the inks of the screen's light theme as print takes them. */
const colours: Record<Ink, string> = {
  ink: '#000000',
  'ink-2': '#333333',
  edge: '#555555',
  hair: '#999999',
  madder: '#9b2a24',
  paper: '#ffffff',
}

const pointsPerMm = 72 / 25.4

/** Whole faces: of a font split by script, letters of a second script would be left out without a word. */
const faces = { regular: '400Regular/NotoSans_400Regular.ttf', bold: '700Bold/NotoSans_700Bold.ttf' } as const
const faceOf = (isBold: boolean | undefined) => (isBold ? 'bold' : 'regular')

let read: Promise<[Buffer, Buffer]> | null = null

// The path is made at run time from the folder the project is started in, so that the files are not bundled.
function readFaces(): Promise<[Buffer, Buffer]> {
  const folder = path.join(process.cwd(), 'node_modules', '@expo-google-fonts', 'noto-sans')
  read ??= Promise.all([readFile(path.join(folder, faces.regular)), readFile(path.join(folder, faces.bold))])
  return read
}

/**
 * A PDF about to be written: its faces measure words while the pages are laid out. Equal pages, titles and times make equal files.
 *
 * @returns `write` may be called once.
 */
export async function openPdf(about: { title: string; createdAt: Date }): Promise<{
  measure: Measure
  /** `pictures`: JPEG or PNG by the names the pages call them; one that is not there is left out. */
  write: (pages: readonly PrintedPage[], pictures?: ReadonlyMap<string, Uint8Array>) => Promise<Buffer>
}> {
  const [regular, bold] = await readFaces()
  const pdf = new PDFDocument({
    autoFirstPage: false,
    // Without this it would read the figures of a face that is not used.
    font: null as unknown as string,
    pdfVersion: '1.7',
    lang: 'en-GB',
    displayTitle: true,
    info: { Title: tidyWords(about.title), Creator: 'Chart Larder', Producer: 'Chart Larder', CreationDate: about.createdAt },
  })
  pdf.registerFont('regular', regular)
  pdf.registerFont('bold', bold)
  const known = new Map<string, number>()
  const measure: Measure = ({ text, size, isBold }) => {
    const key = `${faceOf(isBold)} ${text}`
    const ems = known.get(key) ?? pdf.font(faceOf(isBold)).fontSize(1).widthOfString(text)
    known.set(key, ems)
    return ems * size
  }
  return {
    measure,
    write: (pages, pictures = new Map()) =>
      new Promise((resolve, reject) => {
        const chunks: Buffer[] = []
        pdf.on('data', (chunk: Buffer) => chunks.push(chunk))
        pdf.on('end', () => resolve(Buffer.concat(chunks)))
        pdf.on('error', reject)
        for (const page of pages) {
          pdf.addPage({ size: [page.widthMm * pointsPerMm, page.heightMm * pointsPerMm], margin: 0 })
          pdf.scale(pointsPerMm)
          for (const mark of page.marks) draw(pdf, mark, { measure, pictures })
        }
        pdf.end()
      }),
  }
}

type Hand = { measure: Measure; pictures: ReadonlyMap<string, Uint8Array> }

function draw(pdf: PDFKit.PDFDocument, mark: Mark, hand: Hand): void {
  const { measure } = hand
  switch (mark.kind) {
    case 'box':
      if (mark.fill) pdf.rect(mark.x, mark.y, mark.width, mark.height).fill(colours[mark.fill])
      if (mark.stroke) {
        takeInk(pdf, mark.stroke)
        pdf.rect(mark.x, mark.y, mark.width, mark.height).stroke()
      }
      return
    case 'line':
      takeInk(pdf, mark.stroke)
      pdf.moveTo(mark.x1, mark.y1).lineTo(mark.x2, mark.y2).stroke()
      return
    case 'lines':
      takeInk(pdf, mark.stroke)
      for (const [x1, y1, x2, y2] of mark.lines) pdf.moveTo(x1, y1).lineTo(x2, y2)
      if (mark.lines.length > 0) pdf.stroke()
      return
    case 'ring':
      if (mark.fill) pdf.circle(mark.x, mark.y, mark.radius).fill(colours[mark.fill])
      takeInk(pdf, mark.stroke)
      pdf.circle(mark.x, mark.y, mark.radius).stroke()
      return
    case 'words': {
      if (mark.text === '') return
      const before = mark.anchor === 'middle' ? measure(mark) / 2 : mark.anchor === 'end' ? measure(mark) : 0
      pdf.save()
      if (mark.isStanding) pdf.rotate(-90, { origin: [mark.x, mark.y] })
      pdf
        .font(faceOf(mark.isBold))
        .fontSize(mark.size)
        .fillColor(colours[mark.ink ?? 'ink'])
        .text(mark.text, mark.x - before, mark.y, { lineBreak: false, baseline: 'alphabetic' })
      pdf.restore()
      return
    }
    case 'squares':
      // In squares, so that the figures are short; one path and one fill, so that no seams show between them.
      pdf.save()
      pdf.transform(mark.sideMm, 0, 0, mark.sideMm, mark.x, mark.y)
      pdf.fillColor(colours.ink)
      pdf.addContent(pathOfRuns(mark.runs))
      pdf.restore()
      return
    case 'picture': {
      const picture = hand.pictures.get(mark.name)
      if (picture) pdf.image(Buffer.from(picture), mark.x, mark.y, { fit: [mark.width, mark.height] })
      return
    }
    case 'window':
      pdf.save()
      pdf.rect(mark.box.x, mark.box.y, mark.box.width, mark.box.height).clip()
      for (const one of mark.marks) draw(pdf, one, hand)
      pdf.restore()
  }
}

function pathOfRuns(runs: readonly number[]): string {
  let path = ''
  for (let at = 0; at < runs.length; at += 4) path += `${runs[at]} ${runs[at + 1]} ${runs[at + 2]} ${runs[at + 3]} re `
  return `${path}f`
}

function takeInk(pdf: PDFKit.PDFDocument, { ink, width, dashes }: Stroke): void {
  pdf.strokeColor(colours[ink]).lineWidth(width)
  if (dashes) pdf.dash(dashes[0], { space: dashes[1] })
  else pdf.undash()
}
