import 'server-only'
import { randomFillSync } from 'node:crypto'
import { v7 } from 'uuid'

/** Random bytes are asked for in lots: one call for each id takes longer than all else about it. */
const lot = Buffer.allocUnsafe(16 * 256)
let taken = lot.length

function sixteenRandomBytes(): Uint8Array {
  if (taken === lot.length) {
    randomFillSync(lot)
    taken = 0
  }
  taken += 16
  return lot.subarray(taken - 16, taken)
}

let lastMs = 0
let turn = 0

/** Ids sort by the time they were made (RFC 9562, version 7), and those of one millisecond by their turn, which starts anywhere. */
export function newId(): string {
  const now = Date.now()
  const random = sixteenRandomBytes()
  if (now > lastMs) {
    lastMs = now
    // The upper half of the turns is left to be counted up into.
    turn =
      (((random[6] as number) & 0x7f) << 24) |
      ((random[7] as number) << 16) |
      ((random[8] as number) << 8) |
      (random[9] as number)
  } else {
    turn++
  }
  return v7({ msecs: lastMs, seq: turn, random })
}
