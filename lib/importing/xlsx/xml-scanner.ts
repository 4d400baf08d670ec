/** Why a part of a workbook cannot be read: broken XML, or XML that defines entities of its own, as no spreadsheet program writes. */
export class XmlRefused extends Error {
  constructor(readonly reason: 'broken' | 'declares-entities') {
    super(`XML ${reason}`)
  }
}

export type XmlHandler = {
  /** `name` without its prefix; `attributes` as written, for `attributeOf`. */
  open(name: string, attributes: string): void
  close(name: string): void
  /** Only where something other than a tag stands, and perhaps in several pieces. */
  text(text: string): void
  /**
   * Takes a whole element at once where it is of the commonest shape, which saves telling its tags one by one.
   *
   * @returns where it goes on; -1 when the element at `at` is of no such shape, or has not come whole.
   */
  whole?(xml: string, at: number): number
}

/** More than any tag a spreadsheet program writes, so that an unclosed one is not looked for to the end of the file. */
const longestTag = 100_000
const deepest = 200

/**
 * Reads XML as it comes, in pieces of any length, and tells what stands in it.
 *
 * Written for the parts of a workbook, whose time is nearly all spent here: a general parser takes five times as long as inflating them.
 * It knows elements, attributes, text, CDATA, comments and the five entities XML itself has. It resolves nothing else: a document type,
 * the only place where entities could be declared, is refused as soon as it is seen, so that none can grow or lead out of the file.
 *
 * @throws {XmlRefused}
 */
export class XmlScanner {
  private kept = ''
  private readonly path: string[] = []

  constructor(private readonly handler: XmlHandler) {}

  write(piece: string): void {
    this.kept = this.scan(this.kept + piece, false)
  }

  /** Nothing is left over: what comes next is not inside a tag, a comment or the like. */
  get isBetween(): boolean {
    return this.kept === ''
  }

  end(): void {
    const left = this.scan(this.kept, true)
    if (left.trim() !== '' || this.path.length > 0) throw new XmlRefused('broken')
  }

  /** @returns what is left over, the beginning of something. */
  private scan(xml: string, isLast: boolean): string {
    let at = 0
    for (;;) {
      const tag = xml.indexOf('<', at)
      if (tag === -1) {
        // An entity may be cut in two; text is told up to the last one begun.
        const cut = isLast ? xml.length : safeEnd(xml, at)
        if (cut > at) this.tellText(xml.slice(at, cut))
        return xml.slice(cut)
      }
      if (tag > at) this.tellText(xml.slice(at, tag))
      const whole = this.handler.whole?.(xml, tag) ?? -1
      const next = whole === -1 ? this.readTag(xml, tag) : whole
      if (next === -1) {
        if (isLast) throw new XmlRefused('broken')
        return xml.slice(tag)
      }
      at = next
    }
  }

  /** @returns where it goes on after the tag at `at`; -1 when its end has not come yet. */
  private readTag(xml: string, at: number): number {
    const second = xml.charCodeAt(at + 1)
    if (second === 0x21) return this.readDeclaration(xml, at)
    if (second === 0x3f) return after(xml, '?>', at)
    let quote = 0
    let end = at + 1
    for (; end < xml.length; end++) {
      const letter = xml.charCodeAt(end)
      if (quote !== 0) {
        if (letter === quote) quote = 0
      } else if (letter === 0x3e) break
      else if (letter === 0x22 || letter === 0x27) quote = letter
      else if (letter === 0x3c) throw new XmlRefused('broken')
    }
    if (end - at > longestTag) throw new XmlRefused('broken')
    if (end >= xml.length) return -1
    if (second === 0x2f) {
      const name = localName(xml.slice(at + 2, end).trim())
      if (this.path.pop() !== name) throw new XmlRefused('broken')
      this.handler.close(name)
      return end + 1
    }
    const isEmpty = xml.charCodeAt(end - 1) === 0x2f
    const inside = xml.slice(at + 1, isEmpty ? end - 1 : end)
    const space = nameEnd(inside)
    const name = localName(inside.slice(0, space))
    if (name === '' || this.path.length >= deepest) throw new XmlRefused('broken')
    this.handler.open(name, inside.slice(space))
    if (isEmpty) this.handler.close(name)
    else this.path.push(name)
    return end + 1
  }

  private readDeclaration(xml: string, at: number): number {
    if (xml.startsWith('<!--', at)) return after(xml, '-->', at + 4)
    if (xml.startsWith('<![CDATA[', at)) {
      const end = xml.indexOf(']]>', at)
      if (end === -1) return -1
      if (this.path.length > 0) this.handler.text(xml.slice(at + 9, end))
      return end + 3
    }
    if ('<!--'.startsWith(xml.slice(at)) || '<![CDATA['.startsWith(xml.slice(at))) return -1
    throw new XmlRefused('declares-entities')
  }

  private tellText(text: string): void {
    if (this.path.length > 0) this.handler.text(unescapeXml(text))
    else if (text.replace(/^\ufeff/, '').trim() !== '') throw new XmlRefused('broken')
  }
}

const after = (xml: string, mark: string, from: number): number => {
  const found = xml.indexOf(mark, from)
  return found === -1 ? -1 : found + mark.length
}

function nameEnd(inside: string): number {
  for (let at = 0; at < inside.length; at++) if (inside.charCodeAt(at) <= 0x20) return at
  return inside.length
}

const localName = (name: string): string => {
  const colon = name.indexOf(':')
  return colon === -1 ? name : name.slice(colon + 1)
}

function safeEnd(xml: string, from: number): number {
  const entity = xml.lastIndexOf('&')
  return entity >= from && xml.indexOf(';', entity) === -1 && xml.length - entity < 12 ? entity : xml.length
}

const ownEntities: Record<string, string> = { amp: '&', lt: '<', gt: '>', quot: '"', apos: "'" }

/** @throws {XmlRefused} at an entity that XML itself does not have. */
export function unescapeXml(text: string): string {
  if (!text.includes('&')) return text
  return text.replace(/&([^;&\s]{0,12});?/gu, (whole, name: string) => {
    if (!whole.endsWith(';')) throw new XmlRefused('broken')
    if (Object.hasOwn(ownEntities, name)) return ownEntities[name] as string
    const number = /^#(?:x([\da-f]{1,6})|(\d{1,7}))$/iu.exec(name)
    const point = number ? Number.parseInt(number[1] ?? number[2] ?? '', number[1] ? 16 : 10) : Number.NaN
    if (Number.isNaN(point)) throw new XmlRefused('declares-entities')
    return point > 0x10ffff || (point >= 0xd800 && point <= 0xdfff) ? '\ufffd' : String.fromCodePoint(point)
  })
}

/** The value of an attribute; null when the tag has none of that name, whatever its prefix. */
export function attributeOf(attributes: string, name: string): string | null {
  for (let at = attributes.indexOf(name); at !== -1; at = attributes.indexOf(name, at + 1)) {
    const before = attributes.charCodeAt(at - 1)
    if (!(before <= 0x20 || before === 0x3a)) continue
    let equals = at + name.length
    while (attributes.charCodeAt(equals) <= 0x20) equals++
    if (attributes.charCodeAt(equals) !== 0x3d) continue
    let open = equals + 1
    while (attributes.charCodeAt(open) <= 0x20) open++
    const mark = attributes[open]
    if (mark !== '"' && mark !== "'") continue
    const close = attributes.indexOf(mark, open + 1)
    return close === -1 ? null : unescapeXml(attributes.slice(open + 1, close))
  }
  return null
}
