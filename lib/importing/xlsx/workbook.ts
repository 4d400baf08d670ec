import { type Result, refused } from '#lib/result'
import { builtInFormat, type NumberFormat, readNumberFormat } from './number-format'
import { openZip, type Zip } from './unzip'
import { WorkbookFault, type WorkbookRefused } from './workbook-refused'
import { attributeOf, unescapeXml, type XmlHandler, XmlRefused, XmlScanner } from './xml-scanner'

export type SheetListed = { name: string; isHidden: boolean }

/** A workbook opened, with what its sheets share; a sheet's cells are read when it is asked for. */
export type Workbook = {
  zip: Zip
  /** In the order of their tabs. */
  sheets: (SheetListed & { part: string })[]
  countsFrom1904: boolean
  sharedTexts: string[]
  /** The number format of each cell style, by the style's place. */
  formats: NumberFormat[]
  /** Macros lie in it: they are left alone. */
  hasMacros: boolean
}

const mostSheets = 200
const mostSharedTexts = 2_000_000

/** Turn a fault met while reading into a refusal; anything else is a fault of the program and goes on up. */
export async function refusingFaults<T>(work: () => Promise<T>): Promise<Result<T, WorkbookRefused>> {
  try {
    return { ok: true, value: await work() }
  } catch (fault) {
    if (fault instanceof WorkbookFault) return refused(fault.refusal)
    if (fault instanceof XmlRefused)
      return refused({ kind: fault.reason === 'broken' ? 'workbook-broken' : 'workbook-declares-entities' })
    throw fault
  }
}

/**
 * Open an Excel workbook (ECMA-376: .xlsx, .xlsm, .xltx) as far as its sheets' names and what they share.
 *
 * Nothing in it is run, worked out or fetched: macros and links to other files are passed over.
 */
export const openWorkbook = (bytes: Uint8Array): Promise<Result<Workbook, WorkbookRefused>> =>
  refusingFaults(async () => {
    const zip = await openZip(bytes)
    const root = await relationsOf(zip, '')
    const bookPart = root.find(({ type }) => type === 'officeDocument')?.target ?? 'xl/workbook.xml'
    const relations = await relationsOf(zip, bookPart)
    const targetOf = (type: string) => relations.find((one) => one.type === type)?.target
    const { sheets, countsFrom1904 } = await readBook(zip, bookPart)
    if (sheets.length > mostSheets) throw new WorkbookFault({ kind: 'workbook-too-many', what: 'sheets', most: mostSheets })
    const placed = sheets.flatMap(({ relationId, ...sheet }) => {
      const relation = relations.find(({ id }) => id === relationId)
      return relation?.type === 'worksheet' ? [{ ...sheet, part: relation.target }] : []
    })
    if (placed.length === 0) throw new WorkbookFault({ kind: 'workbook-broken' })
    return {
      zip,
      sheets: placed,
      countsFrom1904,
      sharedTexts: await readSharedTexts(zip, targetOf('sharedStrings') ?? 'xl/sharedStrings.xml'),
      formats: await readFormats(zip, targetOf('styles') ?? 'xl/styles.xml'),
      hasMacros: relations.some(({ type }) => type === 'vbaProject'),
    }
  })

/** Read one part's XML. @returns false when there is no such part */
export async function readXml(zip: Zip, part: string, handler: XmlHandler): Promise<boolean> {
  const scanner = new XmlScanner(handler)
  let decoder: TextDecoder | null = null
  const isThere = await zip.read(part, (piece) => {
    decoder ??= new TextDecoder(encodingOf(piece))
    scanner.write(decoder.decode(piece, { stream: true }))
  })
  if (isThere) scanner.end()
  return isThere
}

/** Takes a whole element of the commonest shape from the bytes it stands in. */
export type ByteElements = {
  /** The letter its name is, alone. */
  letter: number
  /** @returns where it goes on; -1 when the element at `at` is of another shape; -2 when it may be, but has not come whole. */
  take: (bytes: Uint8Array, at: number) => number
}

/** No element of the commonest shape is longer. */
const longestElement = 500

/**
 * `readXml`, but for the elements that make up nearly all of a large part: those are taken from the bytes as they are, since most of the
 * time of reading a sheet would go into making text of its tags. All else goes the usual way, in its order.
 */
export async function readXmlOfMany(zip: Zip, part: string, handler: XmlHandler, elements: ByteElements): Promise<boolean> {
  const scanner = new XmlScanner(handler)
  const decoder = { of: null as TextDecoder | null }
  let kept: Uint8Array = new Uint8Array(0)
  const isThere = await zip.read(part, (piece) => {
    const encoding = decoder.of === null ? encodingOf(piece) : decoder.of.encoding
    decoder.of ??= new TextDecoder(encoding)
    if (encoding !== 'utf-8') scanner.write(decoder.of.decode(piece, { stream: true }))
    else kept = takeElements(kept.length === 0 ? piece : Buffer.concat([kept, piece]), scanner, decoder.of, elements)
  })
  if (!isThere) return false
  if (kept.length > 0) scanner.write((decoder.of as TextDecoder).decode(kept, { stream: true }))
  scanner.end()
  return true
}

/** @returns the beginning of an element that has not come whole. */
function takeElements(bytes: Uint8Array, scanner: XmlScanner, decoder: TextDecoder, { letter, take }: ByteElements): Uint8Array {
  let told = 0
  let at = 0
  while (at < bytes.length) {
    if (bytes[at] !== 0x3c) {
      at++
      continue
    }
    if (at + 2 < bytes.length && (bytes[at + 1] !== letter || bytes[at + 2] !== 0x20)) {
      at++
      continue
    }
    // What stands before it comes first, and where that leaves off inside a comment or the like there is no element.
    if (at > told) scanner.write(decoder.decode(bytes.subarray(told, at), { stream: true }))
    told = at
    const next = !scanner.isBetween ? -1 : at + 2 < bytes.length ? take(bytes, at) : -2
    if (next === -2 && bytes.length - at < longestElement) break
    if (next >= 0) told = next
    at = next < 0 ? at + 1 : next
  }
  if (at > told) scanner.write(decoder.decode(bytes.subarray(told, at), { stream: true }))
  return bytes.subarray(at)
}

/** Parts of a workbook are UTF-8 or UTF-16 (ECMA-376, part 2, 10.1.3). */
function encodingOf(piece: Uint8Array): string {
  if (piece[0] === 0xff && piece[1] === 0xfe) return 'utf-16le'
  if (piece[0] === 0xfe && piece[1] === 0xff) return 'utf-16be'
  return 'utf-8'
}

export type Relation = { id: string; type: string; target: string }

/** What a part points to inside the workbook; what it points to outside is passed over. */
export async function relationsOf(zip: Zip, part: string): Promise<Relation[]> {
  const slash = part.lastIndexOf('/') + 1
  const folder = part.slice(0, slash)
  const relations: Relation[] = []
  await readXml(zip, `${folder}_rels/${part.slice(slash)}.rels`, {
    open: (name, attributes) => {
      if (name !== 'Relationship' || attributeOf(attributes, 'TargetMode') === 'External') return
      const target = attributeOf(attributes, 'Target') ?? ''
      relations.push({
        id: attributeOf(attributes, 'Id') ?? '',
        type: (attributeOf(attributes, 'Type') ?? '').split('/').at(-1) ?? '',
        target: target.startsWith('/') ? target.slice(1) : resolved(folder, target),
      })
    },
    close: () => {},
    text: () => {},
  })
  return relations
}

function resolved(folder: string, target: string): string {
  const way: string[] = []
  for (const step of `${folder}${target}`.split('/')) {
    if (step === '..') way.pop()
    else if (step !== '.' && step !== '') way.push(step)
  }
  return way.join('/')
}

async function readBook(zip: Zip, part: string) {
  const sheets: (SheetListed & { relationId: string })[] = []
  let countsFrom1904 = false
  const isThere = await readXml(zip, part, {
    open: (name, attributes) => {
      if (name === 'workbookPr') countsFrom1904 = /^(?:1|true|on)$/iu.test(attributeOf(attributes, 'date1904') ?? '')
      if (name !== 'sheet') return
      sheets.push({
        name: attributeOf(attributes, 'name') ?? '',
        isHidden: /hidden/iu.test(attributeOf(attributes, 'state') ?? ''),
        relationId: attributeOf(attributes, 'id') ?? '',
      })
    },
    close: () => {},
    text: () => {},
  })
  if (!isThere) throw new WorkbookFault({ kind: 'workbook-broken' })
  return { sheets, countsFrom1904 }
}

async function readSharedTexts(zip: Zip, part: string): Promise<string[]> {
  const texts: string[] = []
  const reader = new RichText('si', (text) => {
    if (texts.length >= mostSharedTexts)
      throw new WorkbookFault({ kind: 'workbook-too-many', what: 'cells', most: mostSharedTexts })
    texts.push(text)
  })
  await readXml(zip, part, reader)
  return texts
}

/** Gathers the text of each element of a name, in however many runs it stands; how it is to be spoken (East Asian `rPh`) is left out. */
export class RichText implements XmlHandler {
  private text_ = ''
  private isInText = false
  private isInReading = false

  constructor(
    private readonly element: string,
    private readonly onText: (text: string, attributes: string) => void,
    private attributes = '',
  ) {}

  /** `<si><t>Pine</t></si>`, as nearly all shared texts are. */
  whole(xml: string, at: number): number {
    if (this.element !== 'si' || !xml.startsWith('<si><t>', at)) return -1
    const end = xml.indexOf('<', at + 7)
    if (end === -1 || !xml.startsWith('</t></si>', end)) return -1
    this.onText(unescapeUnits(unescapeXml(xml.slice(at + 7, end))), '')
    return end + 9
  }

  open(name: string, attributes: string): void {
    if (name === this.element) {
      this.text_ = ''
      this.attributes = attributes
    } else if (name === 'rPh') this.isInReading = true
    else if (name === 't') this.isInText = !this.isInReading
  }

  close(name: string): void {
    if (name === 't') this.isInText = false
    else if (name === 'rPh') this.isInReading = false
    else if (name === this.element) this.onText(unescapeUnits(this.text_), this.attributes)
  }

  text(text: string): void {
    if (this.isInText) this.text_ += text
  }
}

/** Letters XML cannot hold stand as `_x000D_` (ECMA-376, part 1, 22.4.2.4); and so does the underscore of a text that looks like one. */
export const unescapeUnits = (text: string): string =>
  text.includes('_x')
    ? text.replace(/_x([\da-f]{4})_/giu, (_, unit: string) => String.fromCharCode(Number.parseInt(unit, 16)))
    : text

async function readFormats(zip: Zip, part: string): Promise<NumberFormat[]> {
  const own = new Map<number, NumberFormat>()
  const formats: NumberFormat[] = []
  let isInCellStyles = false
  await readXml(zip, part, {
    open: (name, attributes) => {
      if (name === 'numFmt')
        own.set(Number(attributeOf(attributes, 'numFmtId')), readNumberFormat(attributeOf(attributes, 'formatCode') ?? ''))
      else if (name === 'cellXfs') isInCellStyles = true
      else if (name === 'xf' && isInCellStyles) {
        const id = Number(attributeOf(attributes, 'numFmtId') ?? 0)
        formats.push(own.get(id) ?? builtInFormat(id))
      }
    },
    close: (name) => {
      if (name === 'cellXfs') isInCellStyles = false
    },
    text: () => {},
  })
  return formats
}
