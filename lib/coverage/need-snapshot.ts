import { crc32 } from 'node:zlib'
import type { ListNeeds, NeedColumns } from './need-columns'
import { NeedIndex } from './need-index'

/** What a snapshot was made of; one made of anything else is not to be used. */
export type SnapshotStamp = {
  revision: number
  /** Tells one collection, one way of reckoning and one set of settings from any other. */
  of: string
}

const magic = 'needs 2\n'
const columnNames = ['flags', 'offsets', 'needThread', 'need', 'postOffsets', 'postRow', 'postNeed'] as const
const kinds = { Uint8Array, Uint16Array, Uint32Array, Int32Array } as const
type Kind = keyof typeof kinds

type Header = {
  stamp: SnapshotStamp
  columns: Record<(typeof columnNames)[number], { kind: Kind; length: number }>
  threadIds: string[]
  listIds: string[]
  designIds: string[]
  wide: ListNeeds[]
}

const padded = (length: number): number => Math.ceil(length / 8) * 8

/**
 * An index as the pieces of a file: a line that names the format, the header's length and the header as JSON, the columns one after
 * another, each beginning at a multiple of eight bytes, and last a CRC-32 of all before it.
 *
 * The pieces may be written while the index is changed further, for nothing they point at is changed in place.
 */
export function encodeNeeds(index: NeedIndex, stamp: SnapshotStamp): Uint8Array[] {
  index.pack()
  const columns = { ...index.packed, flags: index.packed.flags.slice() }
  const header: Header = {
    stamp,
    columns: Object.fromEntries(
      columnNames.map((name) => [name, { kind: columns[name].constructor.name as Kind, length: columns[name].length }]),
    ) as Header['columns'],
    threadIds: columns.threadIds,
    listIds: columns.listIds,
    designIds: columns.designIds,
    wide: index.wide,
  }
  const json = new TextEncoder().encode(JSON.stringify(header))
  const start = new Uint8Array(padded(16 + json.length))
  start.set(new TextEncoder().encode(magic))
  new DataView(start.buffer).setUint32(8, json.length, true)
  start.set(json, 16)
  const pieces: Uint8Array[] = [start]
  for (const name of columnNames) {
    const { buffer, byteOffset, byteLength } = columns[name]
    pieces.push(new Uint8Array(buffer, byteOffset, byteLength), new Uint8Array(padded(byteLength) - byteLength))
  }
  const sum = new Uint8Array(8)
  new DataView(sum.buffer).setUint32(
    0,
    pieces.reduce((crc, piece) => crc32(piece, crc), 0),
    true,
  )
  return [...pieces, sum]
}

/**
 * The stamp and, when `isWanted` says so of it, the index, whose columns lie in `bytes` itself.
 *
 * @param bytes  The whole file, beginning at the beginning of its buffer.
 * @returns null when it is torn, damaged, of another format or not wanted
 */
export function decodeNeeds(
  bytes: Uint8Array<ArrayBuffer>,
  isWanted: (stamp: SnapshotStamp) => boolean,
): { stamp: SnapshotStamp; index: NeedIndex } | null {
  try {
    const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength)
    if (bytes.length < 24 || new TextDecoder().decode(bytes.subarray(0, 8)) !== magic) return null
    if (view.getUint32(bytes.length - 8, true) !== crc32(bytes.subarray(0, bytes.length - 8))) return null
    const jsonLength = view.getUint32(8, true)
    const header = JSON.parse(new TextDecoder().decode(bytes.subarray(16, 16 + jsonLength))) as Header
    if (!isWanted(header.stamp)) return null
    let at = bytes.byteOffset + padded(16 + jsonLength)
    const columns: Record<string, unknown> = {}
    for (const name of columnNames) {
      const { kind, length } = header.columns[name]
      const column = new kinds[kind](bytes.buffer, at, length)
      columns[name] = column
      at += padded(column.byteLength)
    }
    const { threadIds, listIds, designIds, wide } = header
    const index = NeedIndex.of({ ...(columns as unknown as NeedColumns), threadIds, listIds, designIds }, wide)
    return isSound(index.packed) ? { stamp: header.stamp, index } : null
  } catch (error) {
    // Whatever it trips over, a snapshot that cannot be read is no more than one that is not there.
    if (error instanceof RangeError || error instanceof SyntaxError || error instanceof TypeError) return null
    throw error
  }
}

/** Do the columns fit one another? The sum already says that they are as they were written. */
function isSound({
  threadIds,
  listIds,
  designIds,
  flags,
  offsets,
  needThread,
  need,
  postOffsets,
  postRow,
  postNeed,
}: NeedColumns) {
  const used = need.length
  return (
    offsets.length === listIds.length + 1 &&
    designIds.length === listIds.length &&
    flags.length === listIds.length &&
    offsets[listIds.length] === used &&
    needThread.length === used &&
    postRow.length === used &&
    postNeed.length === used &&
    postOffsets.length <= threadIds.length + 1 &&
    postOffsets[postOffsets.length - 1] === used
  )
}
