import 'server-only'
import { createHash } from 'node:crypto'
import { mkdir, open, rename, rm } from 'node:fs/promises'
import path from 'node:path'
import { stitchSize } from '#lib/chart/design-size'
import { needOfList } from '#lib/coverage/need'
import type { NeedIndex } from '#lib/coverage/need-index'
import { decodeNeeds, encodeNeeds, type SnapshotStamp } from '#lib/coverage/need-snapshot'
import { log } from '#lib/log/log'
import type { Settings } from '#lib/settings/settings'
import { dataFolder } from '../data-folder'
import type { ReadRows } from '../read-snapshot'

/** Fewer lists than this are as quickly read from the database. */
export const fewestListsKept = 2_000

const fileOf = (url: string): string =>
  path.join(dataFolder(), 'answers', `${createHash('sha256').update(url).digest('hex').slice(0, 16)}.needs`)

/** A list with every kind of need in it: when the reckoning changes, so does what comes out for it. */
function reckoning(settings: Settings): unknown {
  const line = {
    id: '',
    makerId: '',
    makerName: '',
    name: '',
    fibre: null,
    strands: 6,
    putUpStrandTenths: 480_000,
    putUpWord: 'skein',
    putUpMilligrams: null,
    priceMinor: null,
    dyeing: 'overdyed' as const,
    lotsMatter: true,
    working: 'crosses' as const,
  }
  const thread = (threadId: string, stated: { hundredths: number; putUpTenths: number | null } | null = null) => ({
    threadId,
    strands: 2,
    stated,
  })
  const tally = { full: 7, half: 5, quarter: 3, threeQuarter: 2, tent: 9, backstitch: 4, backstitchDiagonal: 6, doubleRunning: 8 }
  const rest = { knotOneWrap: 1, knotTwoWrap: 2, bead: 3, satin: 4, eyelet: 5 }
  const design = { size: { kind: 'stitches' as const, width: 101, height: 67 } }
  const advised = { count: { threads: 28, perUm: 25_400 }, over: 2 as const, weave: null, insists: false, name: null }
  const keyLines = [
    { id: '1', symbol: null, tally: { ...tally, ...rest }, threads: [thread('a'), thread('b')] },
    { id: '2', symbol: null, tally: null, threads: [thread('c', { hundredths: 150, putUpTenths: 73_152 })] },
    { id: '3', symbol: null, tally: null, threads: [thread('d')] },
  ]
  const list = { id: '', designId: '', name: '', isIncomplete: false, keyLines }
  const lines = new Map(['a', 'b', 'c', 'd'].map((id) => [id, line]))
  return [stitchSize({ ...design, advised }), null].map((size) =>
    needOfList({ list, lines, advised, size, coverKind: 'picture', settings: { allowance: settings.allowance } }),
  )
}

/**
 * What a snapshot must have been made of: this way of reckoning, these settings, and a collection that has this change in its past.
 * A collection restored from a backup and changed since has its numbers of revisions, but not its changes.
 */
async function stampOf(rows: ReadRows, revision: number, settings: Settings): Promise<SnapshotStamp> {
  const hash = createHash('sha256').update(JSON.stringify([settings.allowance, reckoning(settings)]))
  const sql = 'SELECT "id", "revision" FROM "Change" WHERE "revision" <= ? ORDER BY "revision" DESC, "id" DESC LIMIT 1'
  for await (const some of rows(sql, [revision])) for (const row of some) hash.update(JSON.stringify(row))
  return { revision, of: hash.digest('hex') }
}

/** The index as kept, and the revision it was made at; null when there is none, or it is not of this collection's past. */
export async function readNeedFile(
  rows: ReadRows,
  url: string,
  settings: Settings,
  revision: number,
): Promise<{ index: NeedIndex; revision: number } | null> {
  const bytes = await readWhole(fileOf(url))
  const found = bytes && decodeNeeds(bytes, (stamp) => stamp.revision <= revision)
  if (!found) return null
  const { stamp, index } = found
  return (await stampOf(rows, stamp.revision, settings)).of === stamp.of ? { index, revision: stamp.revision } : null
}

/** Throw away what was kept; the next start reads the needs from the database. */
export const dropNeedFile = (url: string): Promise<void> => rm(fileOf(url), { force: true })

async function readWhole(file: string): Promise<Uint8Array<ArrayBuffer> | null> {
  const handle = await open(file, 'r').catch(() => null)
  if (!handle) return null
  try {
    const bytes = new Uint8Array((await handle.stat()).size)
    const { bytesRead } = await handle.read(bytes, 0, bytes.length, 0)
    return bytesRead === bytes.length ? bytes : null
  } catch {
    return null
  } finally {
    await handle.close()
  }
}

/**
 * Keep the index for the next start: written beside and put in place whole, so that a file half written is never found. What cannot be
 * written, on a full disk for instance, is not kept; nothing else depends on it.
 */
export async function writeNeedFile(
  rows: ReadRows,
  url: string,
  settings: Settings,
  kept: { index: NeedIndex; revision: number },
): Promise<void> {
  const file = fileOf(url)
  const draft = `${file}.${process.pid}-${crypto.randomUUID().slice(0, 8)}.part`
  const pieces = encodeNeeds(kept.index, await stampOf(rows, kept.revision, settings))
  try {
    await mkdir(path.dirname(file), { recursive: true })
    const handle = await open(draft, 'w')
    try {
      for (const piece of pieces) await handle.writeFile(piece)
      await handle.sync()
    } finally {
      await handle.close()
    }
    await rename(draft, file)
  } catch (error) {
    await rm(draft, { force: true }).catch(() => {})
    log.error('the answers could not be kept for the next start', { error })
  }
}
