import type { KnownThread } from '#lib/chart/key-text/reading'
import type { Random } from '#seed/random'
import type { TruthDesign, TruthThread } from './truth'

/** One line of a maker. In a line of names the name is the code. */
export type Range = { maker: string; threadLine: string; isNamed: boolean; threads: { code: string; name: string | null }[] }

/** A thread that a document may name; `id` is null when the vocabulary has it not. */
export type PoolThread = {
  id: string | null
  maker: string
  threadLine: string
  code: string
  name: string | null
  isNamed: boolean
  formerCode: string | null
}

/** The threads a document draws from, by range, and the vocabulary its reader is given. */
export type World = { known: KnownThread[]; pools: PoolThread[][] }

const folded = (text: string): string => text.toLowerCase().replace(/\s+/gu, ' ').trim()

/**
 * Divide the ranges into what is known and what is not. A thread that is not known never shares its code or name with one that is, unless a
 * document does it on purpose.
 *
 * @param knownShare    of each range, 0 to 1
 * @param unknownMaker  of whom nothing is known
 */
export function drawWorld(
  ranges: readonly Range[],
  knownShare: number,
  random: Random,
  unknownMaker: string | null = null,
): World {
  const known: KnownThread[] = []
  const drawn = ranges.map((range, rangeAt) =>
    range.threads.map((thread, at): PoolThread => {
      const isKnown = random.chance(knownShare) && range.maker !== unknownMaker
      const id = isKnown ? `t${rangeAt}-${String(at).padStart(3, '0')}` : null
      const formerCode = !range.isNamed && isKnown && random.chance(0.1) ? `${thread.code}9` : null
      if (id !== null) {
        known.push({
          id,
          maker: range.maker,
          threadLine: range.threadLine,
          code: thread.code,
          name: thread.name,
          ...(formerCode === null ? {} : { formerCodes: [formerCode] }),
        })
      }
      return {
        id,
        maker: range.maker,
        threadLine: range.threadLine,
        code: thread.code,
        name: thread.name,
        isNamed: range.isNamed,
        formerCode,
      }
    }),
  )
  const codes = new Set(known.map(({ code }) => folded(code)))
  const names = new Set(known.flatMap(({ name }) => (name === null ? [] : [folded(name)])))
  const pools = drawn.map((pool) =>
    pool.filter(({ id, code, name }) => id !== null || (!codes.has(folded(code)) && (name === null || !names.has(folded(name))))),
  )
  return { known, pools }
}

/** The maker of a pool that is of one. */
export const madeBy = ([first]: readonly PoolThread[]): string => first?.maker ?? ''

type Said = { maker?: boolean; line?: boolean; code?: boolean | string; name?: boolean; strands?: number | null }

/** The truth of a thread by what of it is said; which known thread is meant is settled by `settleMeant` when the document is whole. */
export function saidThread(thread: PoolThread, said: Said): TruthThread {
  const code = said.code === true ? thread.code : said.code || null
  return {
    maker: said.maker ? thread.maker : null,
    threadLine: said.line ? thread.threadLine : null,
    code: thread.isNamed ? null : code,
    name: thread.isNamed ? thread.code : said.name ? thread.name : null,
    strands: said.strands ?? null,
    implied: { maker: thread.maker, threadLine: thread.threadLine, code: thread.code, name: thread.name },
    meant: { kind: 'new' },
  }
}

/**
 * Settle which known thread each thread of a document is: by the exact code (present or former), or by name where there is no code, among what
 * maker and line allow. Of several, the one with the name said; else the one of the line that the rest of its list is of; else nothing tells.
 *
 * Changes `designs` in place.
 */
export function settleMeant(designs: readonly TruthDesign[], known: readonly KnownThread[]): void {
  for (const { threads } of designs
    .flatMap(({ lists }) => lists)
    .map(({ lines }) => ({ threads: lines.flatMap((line) => line.threads) }))) {
    const fitting = threads.map((thread) => fitsOf(thread, known))
    const settled = fitting.flatMap((fits) => (fits.length === 1 ? fits : []))
    threads.forEach((thread, at) => {
      const fits = fitting[at] as KnownThread[]
      const [first] = fits
      if (first === undefined) return
      if (fits.length === 1) {
        // A thread of another maker that happens to have the code is not the one meant.
        thread.meant = isImplied(first, thread) ? { kind: 'known', threadId: first.id } : { kind: 'new' }
        return
      }
      const own = fits.find((one) => isImplied(one, thread))
      const ofRest = fits.filter((one) =>
        settled.some(({ maker, threadLine }) => maker === one.maker && threadLine === one.threadLine),
      )
      thread.meant =
        own !== undefined && ofRest.length === 1 && ofRest[0] === own
          ? { kind: 'known', threadId: own.id }
          : { kind: 'several', threadIds: fits.map(({ id }) => id) }
    })
  }
}

function fitsOf(thread: TruthThread, known: readonly KnownThread[]): KnownThread[] {
  const fits = known.filter(
    (one) =>
      (thread.maker === null || folded(one.maker) === folded(thread.maker)) &&
      (thread.threadLine === null || folded(one.threadLine) === folded(thread.threadLine)) &&
      (thread.code !== null
        ? one.code === thread.code || one.formerCodes?.includes(thread.code)
        : thread.name !== null &&
          [one.name, one.code].some((called) => called !== null && folded(called) === folded(thread.name as string))),
  )
  const named = fits.filter(({ name }) => name !== null && thread.name !== null && folded(name) === folded(thread.name))
  return named.length > 0 ? named : fits
}

const isImplied = (one: KnownThread, { implied }: TruthThread): boolean =>
  one.maker === implied.maker && one.threadLine === implied.threadLine && one.code === implied.code
