import { ok, type Result, refused } from '#lib/result'
import { type Stitch, type StitchTally, stitches } from '#lib/thread/stitches'
import type { ReadKeyLine, ReadList } from './reading'
import type { Vocabulary } from './vocabulary'

/** One thread of a key line as it is saved; see lib/db/chart/save-thread-list. */
export type ThreadDraft = {
  makerName: string
  lineName: string | null
  code: string
  name: string | null
  strands: number
  statedHundredths: number | null
  putUpTenths: number | null
}

export type KeyLineDraft = {
  symbol: string | null
  note: string | null
  tally: StitchTally | null
  threads: ThreadDraft[]
}

/** Why a line cannot be saved as it stands; `line` is its index in the list, `thread` that of a thread in it. */
export type LineRefusal =
  | { kind: 'no-thread'; line: number }
  | { kind: 'no-maker'; line: number; thread: number }
  | { kind: 'no-code'; line: number; thread: number }
  | { kind: 'which-thread'; line: number; thread: number; threadIds: string[] }
  | { kind: 'strands-out-of-range'; line: number; thread: number; strands: number }

const mostStrands = 24

/** What a line without a count is worked in goes into its note, in plain words. */
const stitchWords: Record<Stitch, string> = {
  full: 'cross stitch',
  half: 'half cross stitch',
  quarter: 'quarter stitch',
  threeQuarter: 'three-quarter stitch',
  tent: 'tent stitch',
  backstitch: 'backstitch',
  backstitchDiagonal: 'backstitch, diagonal',
  doubleRunning: 'double running',
  satin: 'satin stitch',
  eyelet: 'eyelet',
  knotOneWrap: 'French knot',
  knotTwoWrap: 'French knot, two wraps',
  bead: 'beads',
}

/**
 * A list as it was read, as key lines to save; or all that is lacking, line by line. A thread that is known is named as the collection
 * names it. Where the key says no strands, two of a single thread and one of each in a blend are taken (common practice, no published
 * source); a length is one put-up of it.
 */
export function toThreadList(list: ReadList, known: Vocabulary): Result<KeyLineDraft[], LineRefusal[]> {
  const refusals: LineRefusal[] = []
  const drafts = list.lines.map((line, index) => lineDraft(line, index, known, refusals))
  return refusals.length > 0 ? refused(refusals) : ok(drafts)
}

function lineDraft(line: ReadKeyLine, index: number, known: Vocabulary, refusals: LineRefusal[]): KeyLineDraft {
  if (line.threads.length === 0) refusals.push({ kind: 'no-thread', line: index })
  const stated = statedOf(line)
  const threads = line.threads.flatMap(({ named, match }, thread): ThreadDraft[] => {
    const strands = named.strands?.value ?? (line.threads.length === 1 ? 2 : 1)
    if (!Number.isInteger(strands) || strands < 1 || strands > mostStrands) {
      refusals.push({ kind: 'strands-out-of-range', line: index, thread, strands })
      return []
    }
    const held = match.kind === 'known' ? known.threads.get(match.threadId) : undefined
    if (held) return [{ makerName: held.maker, lineName: held.threadLine, code: held.code, name: held.name, strands, ...stated }]
    if (match.kind === 'several') {
      refusals.push({ kind: 'which-thread', line: index, thread, threadIds: match.threadIds })
      return []
    }
    // A hand-dyed thread's name is its code.
    const code = named.code?.value ?? (named.name && !/\d/.test(named.name.value) ? named.name.value : null)
    if (!named.maker) refusals.push({ kind: 'no-maker', line: index, thread })
    if (code === null) refusals.push({ kind: 'no-code', line: index, thread })
    if (!named.maker || code === null) return []
    const name = named.code === null ? null : (named.name?.value ?? null)
    return [{ makerName: named.maker.value, lineName: named.threadLine?.value ?? null, code, name, strands, ...stated }]
  })
  return { symbol: line.symbol?.value ?? null, note: noteOf(line), tally: tallyOf(line), threads }
}

/** Stitches by their kind; null where the key counts none. */
function tallyOf({ amounts }: ReadKeyLine): StitchTally | null {
  const tally: StitchTally = {}
  for (const amount of amounts) {
    if (amount.kind === 'stitches') tally[amount.stitch] = (tally[amount.stitch] ?? 0) + amount.count.value
  }
  return stitches.some((stitch) => (tally[stitch] ?? 0) > 0) ? tally : null
}

/** Put-ups as stated, and their length where it is stated beside them; a length alone is one put-up of it. */
function statedOf({ amounts }: ReadKeyLine): { statedHundredths: number | null; putUpTenths: number | null } {
  const putUps = amounts.find((amount) => amount.kind === 'put-ups')?.hundredths.value ?? null
  const length = amounts.find((amount) => amount.kind === 'length')?.tenths.value ?? null
  if (putUps === null) return length === null || length <= 0 ? noStated : { statedHundredths: 100, putUpTenths: length }
  return putUps > 0 ? { statedHundredths: putUps, putUpTenths: null } : noStated
}
const noStated = { statedHundredths: null, putUpTenths: null }

function noteOf(line: ReadKeyLine): string | null {
  const counted = line.amounts.some(({ kind }) => kind === 'stitches')
  const worked = counted
    ? []
    : (line.stitches?.value ?? []).filter((stitch) => stitch !== 'full').map((stitch) => stitchWords[stitch])
  const note = [...worked, ...(line.rest ? [line.rest] : [])].join('; ')
  return note === '' ? null : note.slice(0, 500)
}
