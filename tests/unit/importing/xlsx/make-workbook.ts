import yazl from 'yazl'

/** A zip of texts, packed as hard as can be. */
export async function zipOf(parts: Record<string, string | Buffer>): Promise<Uint8Array> {
  const zip = new yazl.ZipFile()
  for (const [name, content] of Object.entries(parts))
    zip.addBuffer(Buffer.from(content), name, { compressionLevel: content.length === 0 ? 0 : 9 })
  zip.end()
  const pieces: Buffer[] = []
  for await (const piece of zip.outputStream) pieces.push(piece as Buffer)
  return new Uint8Array(Buffer.concat(pieces))
}

type Made = { sheet: string; shared?: string; styles?: string; workbookPr?: string; more?: Record<string, string> }

/** The least a workbook of one sheet takes (ECMA-376, part 1, 8.2 to 8.4), by hand. `sheet` is what stands inside its `worksheet`. */
export const workbookOf = ({ sheet, shared, styles, workbookPr = '', more = {} }: Made): Promise<Uint8Array> => {
  const main = 'http://schemas.openxmlformats.org/spreadsheetml/2006/main'
  const office = 'http://schemas.openxmlformats.org/officeDocument/2006/relationships'
  const relations = (inside: string) =>
    `<?xml version="1.0"?><Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships">${inside}</Relationships>`
  const relation = (id: string, type: string, target: string) =>
    `<Relationship Id="${id}" Type="${office}/${type}" Target="${target}"/>`
  return zipOf({
    '[Content_Types].xml': '<Types/>',
    '_rels/.rels': relations(relation('a', 'officeDocument', 'xl/workbook.xml')),
    'xl/workbook.xml': `<workbook xmlns="${main}" xmlns:r="${office}">${workbookPr}<sheets><sheet name="One" sheetId="1" r:id="s"/></sheets></workbook>`,
    'xl/_rels/workbook.xml.rels': relations(
      relation('s', 'worksheet', 'worksheets/sheet1.xml') +
        (shared === undefined ? '' : relation('t', 'sharedStrings', 'sharedStrings.xml')) +
        (styles === undefined ? '' : relation('y', 'styles', 'styles.xml')),
    ),
    'xl/worksheets/sheet1.xml': `<?xml version="1.0" encoding="UTF-8"?>\n<worksheet xmlns="${main}">${sheet}</worksheet>`,
    ...(shared !== undefined && { 'xl/sharedStrings.xml': `<sst xmlns="${main}">${shared}</sst>` }),
    ...(styles !== undefined && { 'xl/styles.xml': `<styleSheet xmlns="${main}">${styles}</styleSheet>` }),
    ...more,
  })
}
