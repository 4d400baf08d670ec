import PDFDocument from 'pdfkit'

/** A page of a leaflet with the key as a table, its words in places. */
export async function leaflet(title: string): Promise<Buffer> {
  const page = new PDFDocument({ size: 'A5' })
  const chunks: Buffer[] = []
  page.on('data', (chunk) => chunks.push(chunk))
  const ended = new Promise((resolve) => page.on('end', resolve))
  page.fontSize(18).text(title, 40, 40).fontSize(10)
  page.text('Stitch count: 60 x 48', 40, 66).text('Larkholm Stranded Cotton', 40, 88)
  const lefts = [40, 90, 140, 250, 310]
  const rows = [
    ['Symbol', 'No.', 'Colour', 'Strands', 'Stitches'],
    ['A', '0311', 'Deep Mussel', '2', '640'],
    ['B', '0742', 'Dark Harbour Blue', '2', '320'],
    ['C', '0087', 'Damson', '2', '110'],
  ]
  for (const [row, cells] of rows.entries())
    for (const [at, cell] of cells.entries()) page.text(cell, lefts[at], 110 + row * 20, { lineBreak: false })
  page.end()
  await ended
  return Buffer.concat(chunks)
}
