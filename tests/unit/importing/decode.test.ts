import { describe, expect, it } from 'vitest'
import { decodeText } from '#lib/importing/decode'
import { bytesOf } from './bring-in'

const latin = (text: string): Uint8Array => Uint8Array.from(text, (letter) => letter.charCodeAt(0))

function utf16(text: string, { isBig, hasMark }: { isBig: boolean; hasMark: boolean }): Uint8Array {
  const bytes = new Uint8Array(2 * text.length + (hasMark ? 2 : 0))
  const view = new DataView(bytes.buffer)
  const units = hasMark ? `\ufeff${text}` : text
  for (let at = 0; at < units.length; at++) view.setUint16(2 * at, units.charCodeAt(at), !isBig)
  return bytes
}

const read = (bytes: Uint8Array) => {
  const decoded = decodeText(bytes)
  if (!decoded.ok) throw new Error(decoded.error.kind)
  return decoded.value
}
const refusal = (bytes: Uint8Array) => {
  const decoded = decodeText(bytes)
  return decoded.ok ? null : decoded.error
}

describe('decodeText', () => {
  it('reads UTF-8 with and without its mark, and leaves the mark out of the text', () => {
    expect(read(bytesOf('Maker;Größe\n'))).toEqual({ text: 'Maker;Größe\n', encoding: 'utf-8', warnings: [] })
    expect(read(bytesOf('\ufeffMaker,Code'))).toEqual({ text: 'Maker,Code', encoding: 'utf-8', warnings: [] })
  })

  it('reads UTF-16 of either order, by its mark or by its look', () => {
    const text = 'Maker\tCode\r\nLarkholm\t0017\r\n'
    for (const isBig of [false, true]) {
      const encoding = isBig ? 'utf-16be' : 'utf-16le'
      expect(read(utf16(text, { isBig, hasMark: true }))).toEqual({ text, encoding, warnings: [] })
      expect(read(utf16(text, { isBig, hasMark: false }))).toEqual({ text, encoding, warnings: ['encoding-guessed'] })
    }
  })

  it('takes bytes that are not UTF-8 for windows-1252, and says it guessed', () => {
    const { text, encoding, warnings } = read(
      latin('Designer,Größe,Preis\nJosune,Übergröße,3 \x80\nOttoline,12\xbd in,\x93x\x94\n'),
    )
    expect(encoding).toBe('windows-1252')
    expect(text).toBe('Designer,Größe,Preis\nJosune,Übergröße,3 €\nOttoline,12½ in,“x”\n')
    expect(warnings).toEqual(['encoding-guessed'])
  })

  it('keeps to UTF-8 when only a byte or two of many are broken', () => {
    const bytes = bytesOf(`${'ä'.repeat(60)},b`)
    const { encoding, warnings } = read(Uint8Array.from([...bytes, 0xc3]))
    expect({ encoding, warnings }).toEqual({ encoding: 'utf-8', warnings: ['damaged'] })
  })

  it('refuses workbooks, telling their kinds apart', () => {
    const zip = (name: string) => latin(`PK\x03\x04\x14\x00\x00\x00\x00\x00 ${name} rest`)
    expect(refusal(zip('xl/workbook.xml'))).toEqual({ kind: 'looks-like-xlsx', format: 'xlsx' })
    expect(refusal(zip('mimetypeapplication/vnd.oasis.opendocument.spreadsheet'))).toEqual({
      kind: 'looks-like-xlsx',
      format: 'ods',
    })
    expect(refusal(latin('\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1 old'))).toEqual({ kind: 'looks-like-xlsx', format: 'xls' })
    expect(refusal(zip('photo.txt'))).toEqual({ kind: 'binary', format: 'zip' })
  })

  it('refuses what is no text, and what is nothing', () => {
    expect(refusal(latin('%PDF-1.7 x'))).toEqual({ kind: 'binary', format: 'pdf' })
    expect(refusal(latin('\x89PNG\r\n\x1a\n x'))).toEqual({ kind: 'binary', format: 'image' })
    expect(refusal(latin('\xff\xd8\xff\xe0 x'))).toEqual({ kind: 'binary', format: 'image' })
    expect(refusal(latin('Maker,Code\nLark\x00holm,1'))).toEqual({ kind: 'binary', format: 'unknown' })
    expect(refusal(new Uint8Array())).toEqual({ kind: 'empty' })
    expect(refusal(bytesOf('\ufeff \r\n\r\n'))).toEqual({ kind: 'empty' })
    expect(refusal(new Uint8Array(50 * 1024 * 1024 + 1))).toMatchObject({ kind: 'too-large' })
  })
})
