import { describe, expect, it } from 'vitest'
import type { KeyReading, ReadField, ReadKeyLine } from '#lib/chart/key-text/reading'
import { makePdfs } from '#tests/corpus/pdfs'
import { scoreReading } from '#tests/corpus/score'
import { overall, sumScores } from '#tests/corpus/score-table'
import { makeTexts } from '#tests/corpus/texts'
import type { CorpusFile, TruthDesign, TruthLine, TruthThread } from '#tests/corpus/truth'

const field = <T>(value: T | null): ReadField<T> | null => (value === null ? null : { value, confidence: 1, line: 0 })

const readThread = ({ maker, threadLine, code, name, strands, meant }: TruthThread): ReadKeyLine['threads'][number] => ({
  named: { maker: field(maker), threadLine: field(threadLine), code: field(code), name: field(name), strands: field(strands) },
  match:
    meant.kind === 'known'
      ? { ...meant, confidence: 1, by: 'code' }
      : meant.kind === 'several'
        ? { ...meant }
        : { kind: 'new', lacks: [] },
})
const readLine = ({ symbol, threads, stitches, amounts }: TruthLine): ReadKeyLine => ({
  from: [0],
  symbol: field(symbol),
  threads: threads.map(readThread),
  stitches: field(stitches),
  amounts: amounts.map((amount) =>
    amount.kind === 'stitches'
      ? { ...amount, count: { value: amount.count, confidence: 1, line: 0 } }
      : amount.kind === 'put-ups'
        ? { ...amount, hundredths: { value: amount.hundredths, confidence: 1, line: 0 }, putUpWord: null }
        : { ...amount, tenths: { value: amount.tenths, confidence: 1, line: 0 } },
  ),
  rest: null,
})
/** What a reader without a fault would make of it. */
const perfect = (designs: TruthDesign[]): KeyReading => ({
  designs: designs.map(({ facts, lists }) => ({
    facts: {
      title: field(facts.title),
      designer: field(facts.designer),
      widthStitches: field(facts.widthStitches),
      heightStitches: field(facts.heightStitches),
      measuredWidthUm: field(facts.measuredWidthUm),
      measuredHeightUm: field(facts.measuredHeightUm),
      count: field(facts.count),
      over: field(facts.over),
      weave: field(facts.weave),
      cloth: field(facts.cloth === null ? null : facts.cloth.essential.join(' ')),
    },
    lists: lists.map(({ name, lines }) => ({ name, lines: lines.map(readLine) })),
  })),
  unread: [],
})

const [train, heldOut] = [makeTexts('train'), makeTexts('held-out')]
const threadsOf = (designs: readonly TruthDesign[]): TruthThread[] =>
  designs.flatMap(({ lists }) => lists.flatMap(({ lines }) => lines.flatMap(({ threads }) => threads)))

describe('the corpus of key texts', () => {
  it('is two hundred texts to write by and a hundred held out, the same each time', () => {
    expect([train.length, heldOut.length]).toEqual([200, 100])
    expect(makeTexts('held-out')).toEqual(heldOut)
    expect(new Set([...train, ...heldOut].map(({ text }) => text)).size).toBe(300)
  })

  it('shares no template between its halves', () => {
    const templates = new Set(train.map(({ template }) => template))
    expect(heldOut.filter(({ template }) => templates.has(template))).toEqual([])
  })

  it('says nothing that does not stand in the text', () => {
    for (const { name, text, designs } of [...train, ...heldOut]) {
      const folded = text.toLowerCase()
      const said = [
        ...threadsOf(designs).flatMap(({ maker, threadLine, code, name: called }) => [maker, threadLine, code, called]),
        ...designs.flatMap(({ facts }) => [facts.title, facts.designer]),
      ]
      // "Braid: Marrowgate …" names the line apart from the maker, as does a heading.
      for (const part of said) if (part !== null) expect(folded, name).toContain(part.toLowerCase())
    }
  })

  it('has threads that are known, under former codes too, and threads that are not', () => {
    for (const half of [train, heldOut]) {
      const meant = half.flatMap(({ designs }) => threadsOf(designs).map((thread) => thread.meant.kind))
      const shareKnown = meant.filter((kind) => kind === 'known').length / meant.length
      expect(shareKnown).toBeGreaterThan(0.6)
      expect(shareKnown).toBeLessThan(0.9)
    }
    for (const half of [train, heldOut])
      expect(
        half
          .flatMap(({ designs }) => threadsOf(designs))
          .some(({ code, implied, meant }) => meant.kind === 'known' && code !== null && code !== implied.code),
      ).toBe(true)
  })

  it('gives full marks to a reading without a fault, and to that alone', () => {
    for (const half of [train, heldOut]) {
      const scores = half.map(({ designs }) => scoreReading(designs, perfect(designs)))
      expect(scores.flatMap(({ faults }) => faults)).toEqual([])
      expect(overall(sumScores(scores)).asked).toBeGreaterThan(8_000)
    }
    const worse = heldOut.map(({ designs }) => {
      const reading = perfect(designs)
      for (const { lists } of reading.designs) for (const { lines } of lists) lines.splice(0, 1)
      return scoreReading(designs, reading)
    })
    expect(overall(sumScores(worse)).shareRight).toBeLessThan(0.95)
  })
})

describe('the corpus of PDFs', () => {
  it('is the same file each time', async () => {
    const [first, second] = [await makePdfs('train', [0]).next(), await makePdfs('train', [0]).next()].map(
      ({ value }) => value as CorpusFile,
    )
    expect(first?.designs[0]?.lists[0]?.lines.length).toBeGreaterThan(9)
    expect(Buffer.compare(first?.bytes as Uint8Array, second?.bytes as Uint8Array)).toBe(0)
  })
})
