import type { Stitch } from '#lib/thread/stitches'
import type { Draft } from './drafts'
import type { numbersSaid } from './headings'
import type { Lesson } from './lesson'
import { likelyLine } from './likely-line'
import { type NumberHints, settleNumbers, timesAreStrands } from './lone-numbers'
import type { LookedLines } from './looked-lines'
import { matchThread } from './match'
import { mendedByKnown, strangersDoubted } from './mend-by-known'
import type { Carried, Draughted, OpenList, SaidStrands } from './open-designs'
import type { NamedThread, ReadAmount, ReadField, ReadKeyLine, ReadList, ThreadMatch } from './reading'
import { nameKey } from './vocabulary'

/** What the text says of its numbers and signs, and which lines went into the draft of another. */
type SaidOfNumbers = {
  signs: ReadonlyMap<string, 'strands' | 'put-ups'>
  numbers: ReturnType<typeof numbersSaid>
  joinedTo: ReadonlyMap<Draft, number[]>
}

/** Lists as they were drafted line by line made whole: numbers settled over all lines, what was said above given to each, threads matched. */
export class ListFinisher {
  constructor(
    private readonly lines: LookedLines,
    private readonly lessons: readonly Lesson[],
    private readonly said: SaidOfNumbers,
  ) {}

  finishedList(list: OpenList): ReadList {
    const hints: NumberHints = {
      said: this.said.numbers,
      order: list.order,
      hasStrandsFromHeading: list.rows.filter(({ strands }) => strands !== null).length > list.rows.length / 2,
      taught: this.lessons,
    }
    if (this.said.signs.get('x') === 'strands' || this.said.signs.get('×') === 'strands')
      for (const { draft } of list.rows) timesAreStrands(draft)
    settleNumbers(
      list.rows.map(({ draft }) => draft),
      (source) => this.lines.looked[source]?.line.cells.length ?? 1,
      hints,
    )
    const makers = new Map<string, number>()
    for (const { draft, carried } of list.rows)
      for (const { maker } of draft.threads) {
        const named = maker?.value ?? carried?.maker
        if (named) makers.set(named, (makers.get(named) ?? 0) + 1)
      }
    const [most] = [...makers].sort((a, b) => b[1] - a[1])
    const listMaker = most && most[1] >= list.rows.length * 0.5 ? most[0] : null
    const lineOfList = likelyLine(
      list.rows.map(({ draft }) => draft),
      this.lines.known,
    )
    const lines = list.rows.map((row) =>
      this.finishedLine(row, listMaker ?? lineOfList?.maker ?? null, lineOfList?.threadLine ?? null),
    )
    const isTyped = lines.every(({ threads }) => threads.every(({ named }) => this.isTyped(named)))
    return { name: list.name, lines: isTyped ? lines : strangersDoubted(lines, this.lines.known) }
  }

  private finishedLine(
    { draft, carried, section, strands }: Draughted,
    listMaker: string | null,
    listLine: string | null,
  ): ReadKeyLine {
    const from = [draft.source, ...(this.said.joinedTo.get(draft) ?? [])]
    const worked = draft.worked ?? (section && { value: section.stitches, confidence: 0.93, line: section.line })
    const stitch: Stitch = worked?.value[0] ?? 'full'
    const threads = draft.threads.map((thread) => this.finishedThread(thread, carried, strands, listMaker, listLine, stitch))
    const amounts = draft.amounts.map((amount): ReadAmount => {
      const field = (value: number) => ({ value, confidence: amount.confidence, line: draft.source })
      if (amount.kind === 'stitches') return { kind: 'stitches', stitch: amount.stitch ?? stitch, count: field(amount.count) }
      if (amount.kind === 'put-ups') return { kind: 'put-ups', hundredths: field(amount.hundredths), putUpWord: amount.word }
      return { kind: 'length', tenths: field(amount.tenths) }
    })
    const rest = [...draft.rest, ...draft.lone.map(({ value }) => String(value))].filter((text) => text.trim() !== '')
    return { from, symbol: draft.symbol, threads, stitches: worked, amounts, rest: rest.length > 0 ? rest.join(' ') : null }
  }

  /** Whether what names the thread came as text, and was not read from a picture. */
  private isTyped({ code, name }: NamedThread): boolean {
    const at = code?.line ?? name?.line
    return at === null || at === undefined || (this.lines.looked[at]?.line.cells ?? []).every(({ certainty }) => certainty >= 1)
  }

  /** A line that nobody knows of a maker may be words about their threads. */
  private lineConfidence({ maker, threadLine, confidence }: Carried): number {
    const lines = this.lines.known.makers.get(nameKey(maker))?.lines
    const isName = threadLine?.split(' ').every((word) => /^\p{Lu}/u.test(word)) === true
    return lines?.has(nameKey(threadLine ?? '')) || (!lines && isName) ? confidence : Math.min(confidence, 0.7)
  }

  private taughtStrands(stitch: Stitch): ReadField<number> | null {
    const lesson = this.lessons.findLast((one) => one.kind === 'strands' && (one.stitch === null || one.stitch === stitch))
    return lesson?.kind === 'strands' ? { value: lesson.strands, confidence: 0.95, line: null } : null
  }

  private finishedThread(
    thread: Draft['threads'][number],
    carried: Carried | null,
    strands: SaidStrands | null,
    listMaker: string | null,
    listLine: string | null,
    stitch: Stitch,
  ): { named: NamedThread; match: ThreadMatch } {
    let maker = thread.maker
    let threadLine = thread.threadLine
    if (!maker && carried) maker = { value: carried.maker, confidence: carried.confidence, line: carried.line }
    if (!threadLine && carried?.threadLine && maker && nameKey(maker.value) === nameKey(carried.maker))
      threadLine = { value: carried.threadLine, confidence: this.lineConfidence(carried), line: carried.line }
    for (const lesson of this.lessons) {
      if (lesson.kind !== 'maker') continue
      const isSame = (one: string | null | undefined, other: string | null) => nameKey(one ?? '') === nameKey(other ?? '')
      if (!isSame(maker?.value, lesson.was.maker) || !isSame(threadLine?.value, lesson.was.threadLine)) continue
      maker = { value: lesson.maker, confidence: 0.95, line: maker?.line ?? null }
      threadLine =
        lesson.threadLine === null ? threadLine : { value: lesson.threadLine, confidence: 0.95, line: threadLine?.line ?? null }
    }
    const named: NamedThread = {
      maker,
      threadLine,
      code: thread.code,
      name: thread.name,
      strands:
        thread.strands ??
        this.taughtStrands(stitch) ??
        (strands && { value: strands.value, confidence: strands.confidence, line: strands.line }),
    }
    const taught = this.lessons.findLast(
      (lesson) =>
        lesson.kind === 'thread' &&
        lesson.code === (named.code?.value ?? null) &&
        nameKey(lesson.maker ?? '') === nameKey(named.maker?.value ?? '') &&
        (lesson.code !== null || nameKey(lesson.name ?? '') === nameKey(named.name?.value ?? '')),
    )
    if (taught?.kind === 'thread' && this.lines.known.threads.has(taught.threadId))
      return { named, match: { kind: 'known', threadId: taught.threadId, confidence: 0.97, by: 'taught' } }
    const list = { maker: listMaker, threadLine: listLine }
    const match = matchThread(named, list, this.lines.known, this.isTyped(named))
    if (this.isTyped(named)) return { named, match }
    const told = mendedByKnown(named, match, this.lines.known)
    return { named: told, match: told === named ? match : matchThread(told, list, this.lines.known, false) }
  }
}
