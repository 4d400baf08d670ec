import { analyse } from 'chardet'
import { ok, type Result, refused } from '#lib/result'

export type DecodedText = {
  text: string
  /** The label of the encoding the text was read in, as TextDecoder names it. */
  encoding: string
  /** `encoding-guessed`: no mark and not UTF-8. `damaged`: some bytes could not be read and stand as �. */
  warnings: ('encoding-guessed' | 'damaged')[]
}

export type DecodeRefused =
  | { kind: 'empty' }
  | { kind: 'too-large'; bytes: number; mostBytes: number }
  /** A workbook file. Only xlsx can be read, by whoever reads workbooks; `locked`: it has a password. */
  | { kind: 'looks-like-xlsx'; format: 'xlsx' | 'xls' | 'xlsb' | 'ods' | 'locked' }
  | { kind: 'binary'; format: 'zip' | 'pdf' | 'image' | 'unknown' }

const mostBytes = 50 * 1024 * 1024

/** First bytes of files that are no text, as their formats define them. */
const signatures: { bytes: number[]; at?: number; format: 'zip' | 'pdf' | 'image' | 'xls' }[] = [
  { bytes: [0x50, 0x4b, 0x03, 0x04], format: 'zip' },
  { bytes: [0x50, 0x4b, 0x05, 0x06], format: 'zip' },
  { bytes: [0xd0, 0xcf, 0x11, 0xe0, 0xa1, 0xb1, 0x1a, 0xe1], format: 'xls' },
  { bytes: [0x25, 0x50, 0x44, 0x46, 0x2d], format: 'pdf' },
  { bytes: [0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a], format: 'image' },
  { bytes: [0xff, 0xd8, 0xff], format: 'image' },
  { bytes: [0x47, 0x49, 0x46, 0x38], format: 'image' },
  { bytes: [0x52, 0x49, 0x46, 0x46], format: 'image' },
  { bytes: [0x66, 0x74, 0x79, 0x70], at: 4, format: 'image' },
  { bytes: [0x49, 0x49, 0x2a, 0x00], format: 'image' },
  { bytes: [0x4d, 0x4d, 0x00, 0x2a], format: 'image' },
]

/**
 * Read the bytes of an uploaded file as text: by its byte order mark, else as UTF-8 when every byte agrees, else in the
 * encoding its letters suggest, windows-1252 when nothing speaks for another.
 *
 * Files that are no text (workbooks, PDFs, pictures, anything with NUL bytes) are refused, as are empty files and files over 50 MB.
 */
export function decodeText(bytes: Uint8Array): Result<DecodedText, DecodeRefused> {
  if (bytes.length > mostBytes) return refused({ kind: 'too-large', bytes: bytes.length, mostBytes })

  const marked = byMark(bytes)
  const decoded = marked ?? withoutMark(bytes)
  if ('kind' in decoded) return refused(decoded)
  if (decoded.text.trim() === '') return refused({ kind: 'empty' })
  if (decoded.text.includes('\0')) return refused({ kind: 'binary', format: 'unknown' })
  return ok(decoded)
}

function byMark(bytes: Uint8Array): DecodedText | null {
  const marks: [number[], string][] = [
    [[0xef, 0xbb, 0xbf], 'utf-8'],
    [[0xff, 0xfe], 'utf-16le'],
    [[0xfe, 0xff], 'utf-16be'],
  ]
  for (const [mark, encoding] of marks) {
    if (!startsWith(bytes, mark)) continue
    const text = new TextDecoder(encoding).decode(bytes)
    return { text, encoding, warnings: text.includes('\ufffd') ? ['damaged'] : [] }
  }
  return null
}

function withoutMark(bytes: Uint8Array): DecodedText | DecodeRefused {
  for (const { bytes: signature, at = 0, format } of signatures) {
    if (!startsWith(bytes, signature, at)) continue
    if (format === 'xls') return { kind: 'looks-like-xlsx', format: isLocked(bytes) ? 'locked' : 'xls' }
    return format === 'zip' ? zipKind(bytes) : { kind: 'binary', format }
  }
  const wide = wideEncoding(bytes)
  if (wide !== null) return { text: new TextDecoder(wide).decode(bytes), encoding: wide, warnings: ['encoding-guessed'] }
  if (bytes.includes(0)) return { kind: 'binary', format: 'unknown' }
  try {
    return { text: new TextDecoder('utf-8', { fatal: true }).decode(bytes), encoding: 'utf-8', warnings: [] }
  } catch {
    return damagedUtf8(bytes) ?? guessed(bytes)
  }
}

function startsWith(bytes: Uint8Array, start: number[], at = 0): boolean {
  return bytes.length >= at + start.length && start.every((byte, index) => bytes[at + index] === byte)
}

/** A workbook with a password lies in a container of the same kind as the old format, in a stream of this name in UTF-16. */
function isLocked(bytes: Uint8Array): boolean {
  const name = Buffer.from('EncryptedPackage', 'utf16le')
  return Buffer.from(bytes.buffer, bytes.byteOffset, bytes.byteLength).includes(name)
}

/** A workbook is a zip: the names of its parts stand readable in the file. */
function zipKind(bytes: Uint8Array): DecodeRefused {
  const latin = new TextDecoder('latin1')
  const ends = latin.decode(bytes.subarray(0, 4096)) + latin.decode(bytes.subarray(-65_536))
  if (ends.includes('opendocument.spreadsheet')) return { kind: 'looks-like-xlsx', format: 'ods' }
  if (ends.includes('xl/workbook.bin')) return { kind: 'looks-like-xlsx', format: 'xlsb' }
  if (ends.includes('xl/') || ends.includes('[Content_Types].xml')) return { kind: 'looks-like-xlsx', format: 'xlsx' }
  return { kind: 'binary', format: 'zip' }
}

/** UTF-16 without a mark: among Latin letters and separators nearly every second byte is NUL. */
function wideEncoding(bytes: Uint8Array): 'utf-16le' | 'utf-16be' | null {
  const pairs = Math.min(bytes.length >> 1, 2000)
  if (pairs < 4) return null
  let first = 0
  let second = 0
  for (let pair = 0; pair < pairs; pair++) {
    if (bytes[2 * pair] === 0) first++
    if (bytes[2 * pair + 1] === 0) second++
  }
  if (second > 0.7 * pairs && first < 0.05 * pairs) return 'utf-16le'
  if (first > 0.7 * pairs && second < 0.05 * pairs) return 'utf-16be'
  return null
}

/** UTF-8 with a few broken bytes (a file cut off, two files joined): at least twenty good letters beyond ASCII to each broken one. */
function damagedUtf8(bytes: Uint8Array): DecodedText | null {
  const text = new TextDecoder('utf-8').decode(bytes)
  let broken = 0
  let beyondAscii = 0
  for (const letter of text) {
    if (letter === '\ufffd') broken++
    else if (letter > '\u007f') beyondAscii++
  }
  return beyondAscii >= 20 * broken ? { text, encoding: 'utf-8', warnings: ['damaged'] } : null
}

/** Encodings a spreadsheet program writes; chardet's other answers are not trusted over windows-1252. */
const trusted = new Map([
  ['windows-1250', 'windows-1250'],
  ['ISO-8859-2', 'windows-1250'],
  ['windows-1251', 'windows-1251'],
  ['windows-1253', 'windows-1253'],
  ['windows-1254', 'windows-1254'],
  ['Shift_JIS', 'shift_jis'],
  ['EUC-JP', 'euc-jp'],
  ['EUC-KR', 'euc-kr'],
  ['Big5', 'big5'],
  ['GB18030', 'gb18030'],
])

function guessed(bytes: Uint8Array): DecodedText {
  // The guesser looks at letter pairs: a few thousand bytes say as much as the whole file.
  const [best] = analyse(bytes.subarray(0, 200_000))
  const encoding = (best !== undefined && best.confidence >= 60 && trusted.get(best.name)) || 'windows-1252'
  const decoded = new TextDecoder(encoding).decode(bytes)
  const text = encoding === 'windows-1252' ? withWindowsSigns(decoded) : decoded
  return { text, encoding, warnings: text.includes('\ufffd') ? ['encoding-guessed', 'damaged'] : ['encoding-guessed'] }
}

/** What windows-1252 has from 0x80 to 0x9f, where Latin-1 has controls. */
const windowsSigns = '€\u0081‚ƒ„…†‡ˆ‰Š‹Œ\u008dŽ\u008f\u0090‘’“”•–—˜™š›œ\u009džŸ'

/** The windows-1252 decoder of Node 20 (seen in 20.20) leaves these bytes as Latin-1 controls; where it does not, nothing is left to do. */
const withWindowsSigns = (text: string): string =>
  text.replace(/[\u0080-\u009f]/g, (control) => windowsSigns[control.charCodeAt(0) - 0x80] as string)
