import type { LineContext } from './drafts'
import type { LookedLines } from './looked-lines'
import { FreeReader } from './read-line'
import type { SaidAbove } from './said-above'
import { nameKey, nameWords } from './vocabulary'
import { namedCodes, sentenceWords, stitchPhrases } from './words'

/** What the lines of a list have in common, which a single line is read by: makers beside their codes, and what they begin with. */
export class LineContexts {
  private readonly blocks: { hasSymbols: boolean | null; bullets: ReadonlySet<string>; plusJoins: boolean }[] = []

  constructor(
    private readonly lines: LookedLines,
    private readonly above: SaidAbove,
  ) {
    this.learnMakers()
    this.learnBlocks()
  }

  private baseContext(): LineContext {
    return {
      known: this.lines.known,
      makers: this.lines.makers,
      maker: null,
      threadLine: null,
      shapes: this.lines.shapes,
      hasSymbols: null,
      bullets: new Set(),
      plusJoins: true,
      hasCodes: true,
    }
  }

  /** Words beside the codes that come again in line after line are a maker's name. */
  learnMakers(): void {
    const counts = new Map<string, { text: string; count: number }>()
    let lines = 0
    for (const [at, { line, tokens, heading }] of this.lines.looked.entries()) {
      if (!this.lines.isKeyish(at) || heading.makers.length > 0) continue
      lines += 1
      if (lines > 3_000) break
      const [draft] = new FreeReader(line, at, tokens, this.baseContext(), true).read()
      if (!draft) continue
      const ofLine = new Set<string>()
      for (const text of [draft.beside.before, draft.beside.behind, draft.threads[0]?.name?.value ?? null]) {
        if (
          text === null ||
          this.lines.known.byNameKey.has(nameKey(text)) ||
          !/^\p{Lu}/u.test(text) ||
          namedCodes.has(text.toLowerCase())
        )
          continue
        const words = nameWords(text)
        if (
          words.length > 3 ||
          words.some(
            (word) => sentenceWords.has(word) || (stitchPhrases.get(word) ?? []).some((phrase) => phrase.words.length === 1),
          )
        )
          continue
        const key = words.join(' ')
        if (ofLine.has(key)) continue
        ofLine.add(key)
        const held = counts.get(key) ?? { text, count: 0 }
        held.count += 1
        counts.set(key, held)
      }
    }
    for (const { text, count } of counts.values()) if (count >= 4 && count >= lines * 0.25) this.lines.learnMaker(text)
  }

  /** What begins the lines of one run: symbols, each its own, or the same bullet before all. */
  learnBlocks(): void {
    let block: { firsts: string[]; lines: number } = { firsts: [], lines: 0 }
    let start = 0
    const close = (end: number) => {
      const counts = new Map<string, number>()
      for (const text of block.firsts) counts.set(text, (counts.get(text) ?? 0) + 1)
      const repeated = new Set(
        [...counts].filter(([, count]) => block.lines >= 3 && count >= block.lines * 0.5).map(([text]) => text),
      )
      const varied = block.firsts.filter((text) => !repeated.has(text)).length
      // Small numbers down the side with nothing else among them are codes.
      const areNumbers =
        block.firsts.length > 0 && block.firsts.filter((text) => /^\d+$/.test(text)).length > block.firsts.length * 0.6
      const hasSymbols = block.lines < 2 ? null : varied >= block.lines * 0.5 && !areNumbers
      const pluses = block.firsts.filter((text) => text === '+' || text === '&').length
      const found = { hasSymbols, bullets: repeated, plusJoins: hasSymbols !== true || pluses > 2 }
      for (let at = start; at < end; at++) this.blocks[at] = found
      block = { firsts: [], lines: 0 }
      start = end
    }
    for (const [at, { tokens, isBlank, heading, line }] of this.lines.looked.entries()) {
      const mark = (line.cells[0]?.text ?? '').trim()
      const isMarked = line.cells.length > 1 && [...mark].length === 1 && (this.lines.looked[at]?.score ?? 0) >= 1.4
      if (!this.lines.isKeyish(at) && !isMarked) {
        if (!isBlank && (heading.makers.length > 0 || heading.stitches.length > 0 || this.lines.looked[at]?.facts.length))
          close(at)
        continue
      }
      block.lines += 1
      const [first, second] = tokens
      if (!first || !second) continue
      const cell = (line.cells[0]?.text ?? '').trim()
      const isSignCell = line.cells.length > 1 && cell !== '' && [...cell].length <= 2
      const isShort = [...first.text].length <= 2 && (first.kind === 'mark' || [...first.text].length === 1)
      if (isSignCell) block.firsts.push(cell)
      else if (isShort && second.start > first.end) block.firsts.push(first.text)
    }
    close(this.lines.looked.length)
  }

  contextAt(at: number): LineContext {
    const block = this.blocks[at]
    return {
      ...this.baseContext(),
      maker: this.above.carried?.maker ?? null,
      threadLine: this.above.carried?.threadLine ?? null,
      hasSymbols: block?.hasSymbols ?? null,
      bullets: block?.bullets ?? new Set(),
      plusJoins: block?.plusJoins ?? true,
    }
  }
}
