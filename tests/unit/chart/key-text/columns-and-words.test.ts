import { describe, expect, it } from 'vitest'
import { readKey } from '#lib/chart/key-text/read-key'
import type { KnownThread } from '#lib/chart/key-text/reading'
import { blocksSideBySide } from '#lib/chart/key-text/side-by-side'
import { splitText } from '#lib/chart/key-text/split-text'
import { vocabularyOf } from '#lib/chart/key-text/vocabulary'

// Each expected value stands in the text itself.

const threads: KnownThread[] = [
  ['0311', 'Pine'],
  ['0742', 'Dark Harbour Blue'],
  ['0087', 'Damson'],
  ['0905', 'Forget-me-not'],
].map(([code = '', name = '']) => ({ id: code, maker: 'Larkholm', threadLine: 'Stranded Cotton', code, name }))
const known = vocabularyOf(threads)
const read = (text: string) => readKey(splitText(text), known)
/** Maker, code, name and strands of the first thread, with its put-ups, of each line of the first list. */
const rows = (text: string) =>
  (read(text).designs[0]?.lists[0]?.lines ?? []).map(({ symbol, threads: [thread], amounts }) => [
    symbol?.value ?? null,
    thread?.named.maker?.value ?? null,
    thread?.named.code?.value ?? null,
    thread?.named.name?.value ?? null,
    thread?.named.strands?.value ?? null,
    ...amounts.map((amount) => (amount.kind === 'put-ups' ? amount.hundredths.value : amount.kind)),
  ])
const facts = (text: string) =>
  Object.fromEntries(
    Object.entries(read(`${text}\n\n0311 Pine\n0742 Dark Harbour Blue\n`).designs[0]?.facts ?? {}).flatMap(([key, field]) =>
      field === null ? [] : [[key, field.value]],
    ),
  )

describe('columns', () => {
  it('takes "Shade" for names beside a column of numbers, and for numbers where there is none', () => {
    expect(rows('Sign;Maker;Shade no.;Shade;Ply\n●;Larkholm;0311;Pine;2\n■;Larkholm;0087;Damson;1')).toEqual([
      ['●', 'Larkholm', '0311', 'Pine', 2],
      ['■', 'Larkholm', '0087', 'Damson', 1],
    ])
    expect(rows('Symbol;Maker;Shade;Strands\n●;Larkholm;0311;2\n■;Larkholm;0087;1')).toEqual([
      ['●', 'Larkholm', '0311', null, 2],
      ['■', 'Larkholm', '0087', null, 1],
    ])
  })

  it('follows dots that lead from one column to the next', () => {
    expect(rows('Colour .... Number .... Skeins\nPine ...... Larkholm 0311 ..... 2\nDamson ... Larkholm 0087 .... 1')).toEqual([
      [null, 'Larkholm', '0311', 'Pine', null, 200],
      [null, 'Larkholm', '0087', 'Damson', null, 100],
    ])
  })

  it('takes lines side by side apart', () => {
    const lines = splitText('●\t0311\tPine\t■\t0742\tDark Harbour Blue\n▲\t0087\tDamson\t◆\t0905\tForget-me-not')
    expect(blocksSideBySide(lines)).toEqual([2, 2])
    expect(
      rows('Larkholm\n●\t0311\tPine\t■\t0742\tDark Harbour Blue\n▲\t0087\tDamson\t◆\t0905\tForget-me-not').map(
        ([symbol, , code]) => [symbol, code],
      ),
    ).toEqual([
      ['●', '0311'],
      ['■', '0742'],
      ['▲', '0087'],
      ['◆', '0905'],
    ])
  })

  it('does not take a sentence of strands for a head', () => {
    expect(rows('Cross stitch in two strands of Larkholm cotton\n● 0311 Pine\n■ 0087 Damson')).toEqual([
      ['●', 'Larkholm', '0311', 'Pine', 2],
      ['■', 'Larkholm', '0087', 'Damson', 2],
    ])
  })

  it('puts an item together that stands over two lines', () => {
    const [first, second] =
      read('● Larkholm 0311\n   Pine, 2 strands\n■ Larkholm 0087\n   Damson, 1 strand').designs[0]?.lists[0]?.lines ?? []
    expect([first?.from, second?.from]).toEqual([
      [0, 1],
      [2, 3],
    ])
    expect(second?.threads[0]?.named).toMatchObject({ code: { value: '0087' }, name: { value: 'Damson' }, strands: { value: 1 } })
  })
})

describe('what the text says of itself', () => {
  it('takes x for strands where it says so, and for skeins where it does not', () => {
    expect(rows('Larkholm\n(x = strands in the needle)\n● = 0311 Pine x2\n■ = 0087 Damson x1')).toEqual([
      ['●', 'Larkholm', '0311', 'Pine', 2],
      ['■', 'Larkholm', '0087', 'Damson', 1],
    ])
    expect(rows('Larkholm\n● = 0311 Pine x2\n■ = 0087 Damson x1')).toEqual([
      ['●', 'Larkholm', '0311', 'Pine', null, 200],
      ['■', 'Larkholm', '0087', 'Damson', null, 100],
    ])
  })

  it('hears of the maker before the key and behind it', () => {
    expect(rows('Larkholm, if nothing else is said\n● 0311 Pine\n■ 0087 Damson').map(([, maker]) => maker)).toEqual([
      'Larkholm',
      'Larkholm',
    ])
    expect(rows('● 0311 Pine\n■ 0087 Damson\n\nAll shades are Larkholm').map(([, maker]) => maker)).toEqual([
      'Larkholm',
      'Larkholm',
    ])
  })
})

describe('heads of many wordings', () => {
  it('reads who made it in many ways', () => {
    for (const [text, title, designer] of [
      ['The Salt Road\nDesign © 2019 Mirabel Stoat\n140 x 98 stitches', 'The Salt Road', 'Mirabel Stoat'],
      ['Mirabel Stoat presents\nThe Salt Road\n140 x 98 stitches', 'The Salt Road', 'Mirabel Stoat'],
      ['Chart: The Salt Road\nDesign: Mirabel Stoat\n140 x 98 stitches', 'The Salt Road', 'Mirabel Stoat'],
      ['The Salt Road, a chart from Mirabel Stoat\n140 x 98 stitches', 'The Salt Road', 'Mirabel Stoat'],
      ['Name of design: The Salt Road; charted by: Mirabel Stoat\n140 x 98 stitches', 'The Salt Road', 'Mirabel Stoat'],
      ['Colour key for The Salt Road\nby Mirabel Stoat\n140 x 98 stitches', 'The Salt Road', 'Mirabel Stoat'],
    ])
      expect(facts(text as string)).toEqual({ title, designer, widthStitches: 140, heightStitches: 98 })
  })

  it('reads width and height whichever comes first', () => {
    for (const text of [
      'W 140 × H 98',
      'Height: 98 stitches, width: 140 stitches',
      'Design: 98 high, 140 wide',
      'Size (h x w): 98 x 140 stitches',
    ])
      expect(facts(`Title: The Salt Road\n${text}`)).toMatchObject({ widthStitches: 140, heightStitches: 98 })
  })

  it('does not take the threads of the cloth for strands', () => {
    expect(rows('Worked on evenweave with 11 threads per cm, over two threads\n\nLarkholm\n0311 Pine\n0087 Damson')).toEqual([
      [null, 'Larkholm', '0311', 'Pine', null],
      [null, 'Larkholm', '0087', 'Damson', null],
    ])
  })
})
