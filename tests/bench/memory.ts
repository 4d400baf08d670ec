import { setFlagsFromString } from 'node:v8'
import { runInNewContext } from 'node:vm'
import type { Measurement } from './measurement'

setFlagsFromString('--expose-gc')
const collectGarbage = runInNewContext('gc') as () => void

/** Bytes of the JavaScript heap and its array buffers in use once everything that can be thrown away is. */
export function bytesInUse(): number {
  for (let turn = 0; turn < 3; turn++) collectGarbage()
  const { heapUsed, arrayBuffers } = process.memoryUsage()
  return heapUsed + arrayBuffers
}

export const measuredBytes = (name: string, bytes: number, goal: Measurement['goal'] = null): Measurement => ({
  ...{ name, ours: bytes, against: null, ratio: null, unit: 'bytes', samples: 1, oursRange: null, againstRange: null, goal },
})
