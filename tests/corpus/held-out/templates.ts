import type { Stitch } from '#lib/thread/stitches'
import type { Random } from '#seed/random'
import type { TruthDesign, TruthLine } from '../truth'
import { type PoolThread, saidThread } from '../world'
import {
  aligned,
  drawCount,
  keyLine,
  metresTenths,
  noFacts,
  pad,
  putUps,
  stitchCount,
  takeThreads,
  type Written,
  withCommas,
  yardsTenths,
} from '../writing'
import { heldOutProse, type SaidFacts, sayFacts } from './facts'

/** The pools of `widerRanges`, in its order, and the stream of chance. */
export type HeldOutMeans = {
  random: Random
  silk: PoolThread[]
  wool: PoolThread[]
  dyed: PoolThread[]
  braid: PoolThread[]
  beads: PoolThread[]
}
type Template = (means: HeldOutMeans) => Written

const signs = [...'◇○△□♣♥★✚⊙◐♦☆✜⊗∇✦▣◉=+#@%&*/\\XOZTHKLV246']
const capitals = [...'ABCDEFGHJKLMNPRSTUVWXYZ']
const symbolsFor = (random: Random, count: number): string[] =>
  random.chance(0.3) && count <= capitals.length ? capitals.slice(0, count) : random.sample(signs, count)

const unnamed = (lines: TruthLine[], head: SaidFacts | null): TruthDesign[] => [
  { facts: head?.facts ?? noFacts, notAsked: head?.notAsked ?? [], lists: [{ name: null, lines }] },
]
const framed = (random: Random, head: SaidFacts | null, lines: readonly string[]): string =>
  [
    ...(head ? [...head.lines, ''] : []),
    ...(random.chance(0.35) ? [random.pick(heldOutProse), ''] : []),
    ...lines,
    ...(random.chance(0.6) ? ['', ...random.sample(heldOutProse, random.int(1, 3))] : []),
  ].join('\n')
const maybeHead = (random: Random, share: number) => (random.chance(share) ? sayFacts(random) : null)
const strandWords = (strands: number, random: Random): string =>
  random.pick([`${strands} strand${strands > 1 ? 's' : ''}`, strands > 1 ? `${strands} strands` : 'one strand'])

/** ◇ – Brindlequay 204 – Old Brick – 2 strands – 340 st. */
const dashes: Template = ({ random, silk, wool }) => {
  const head = maybeHead(random, 0.6)
  const chosen = takeThreads([...silk, ...wool], random.int(8, 18), random)
  const symbols = symbolsFor(random, chosen.length)
  const dash = random.pick([' – ', ' — ', ' - '])
  const out: string[] = []
  const lines = chosen.map((thread, at) => {
    const [strands, count] = [random.pick([1, 2, 2, 3]), drawCount(random)]
    out.push(
      [symbols[at], `${thread.maker} ${thread.code}`, thread.name, strandWords(strands, random), `${withCommas(count)} st.`].join(
        dash,
      ),
    )
    return keyLine({
      symbol: symbols[at],
      threads: [saidThread(thread, { maker: true, code: true, name: true, strands })],
      amounts: [stitchCount('full', count)],
    })
  })
  return { text: framed(random, head, out), designs: unnamed(lines, head) }
}

/** | Sign | Silk | Shade | Strands | Skeins | with a rule below, as plain text tables are typed. */
const ruledTable: Template = ({ random, silk }) => {
  const head = maybeHead(random, 0.5)
  const chosen = takeThreads(silk, random.int(6, 16), random)
  const symbols = symbolsFor(random, chosen.length)
  const rows = [['Sign', 'Brindlequay no.', 'Shade', 'Strands', 'Skeins']]
  const lines = chosen.map((thread, at) => {
    const [strands, skeins] = [random.pick([1, 2, 3]), random.pick([1, 1, 2, 3])]
    rows.push([symbols[at] as string, thread.code, thread.name as string, String(strands), String(skeins)])
    return keyLine({
      symbol: symbols[at],
      threads: [saidThread(thread, { maker: true, code: true, name: true, strands })],
      amounts: [putUps(skeins)],
    })
  })
  const widths = rows[0]?.map((_, at) => Math.max(...rows.map((row) => [...(row[at] as string)].length))) ?? []
  const drawn = rows.map((row) => `| ${row.map((cell, at) => pad(cell, widths[at] as number)).join(' | ')} |`)
  drawn.splice(1, 0, `|${widths.map((width) => '-'.repeat(width + 2)).join('|')}|`)
  return { text: framed(random, head, drawn), designs: unnamed(lines, head) }
}

/** Quoted cells, as a spreadsheet writes them, with a column for each kind of stitch. */
const countsByKind: Template = ({ random, silk, wool }) => {
  const chosen = takeThreads([...silk, ...wool], random.int(8, 22), random)
  const symbols = symbolsFor(random, chosen.length)
  const columns = ['Symbol', 'Brand', 'Thread', 'Colour', 'Full', 'Half', 'Back']
  const out = [columns.map((cell) => `"${cell}"`).join(',')]
  const lines = chosen.map((thread, at) => {
    const counts = [drawCount(random), random.chance(0.3) ? random.int(5, 90) : 0, random.chance(0.3) ? random.int(5, 90) : 0]
    out.push([symbols[at], thread.maker, thread.code, thread.name, ...counts].map((cell) => `"${cell}"`).join(','))
    const stitches: Stitch[] = ['full', 'half', 'backstitch']
    return keyLine({
      symbol: symbols[at],
      threads: [saidThread(thread, { maker: true, code: true, name: true })],
      amounts: counts.flatMap((count, kind) => (count > 0 ? [stitchCount(stitches[kind] as Stitch, count)] : [])),
    })
  })
  return { text: out.join('\n'), designs: unnamed(lines, null) }
}

/** (X) 204 Old Brick [2], and what the brackets mean. */
const brackets: Template = ({ random, silk }) => {
  const head = maybeHead(random, 0.5)
  const chosen = takeThreads(silk, random.int(8, 18), random)
  const symbols = symbolsFor(random, chosen.length)
  const out = ['Silk: Brindlequay. The number of strands stands in square brackets.']
  const lines = chosen.map((thread, at) => {
    const strands = random.pick([1, 2, 3])
    out.push(`(${symbols[at]}) ${thread.code} ${thread.name} [${strands}]`)
    return keyLine({
      symbol: symbols[at],
      threads: [saidThread(thread, { maker: true, code: true, name: true, strands })],
    })
  })
  return { text: framed(random, head, out), designs: unnamed(lines, head) }
}

/** What a kit holds: lengths cut, in metres or yards. */
const kitLengths: Template = ({ random, silk, wool, beads }) => {
  const head = maybeHead(random, 0.5)
  const isMetric = random.chance(0.6)
  const out = [random.pick(['Your kit holds:', 'In this kit', 'Threads in the kit'])]
  const lines = takeThreads([...silk, ...wool], random.int(6, 14), random).map((thread) => {
    const length = random.int(2, 60) / (isMetric ? 10 : 4)
    out.push(
      isMetric
        ? `${thread.maker} ${thread.code}, ${thread.name}: ${length.toFixed(1)} m`
        : `${thread.maker} ${thread.code}, ${thread.name}: ${length} yd`,
    )
    return keyLine({
      threads: [saidThread(thread, { maker: true, code: true, name: true })],
      amounts: [{ kind: 'length', tenths: isMetric ? metresTenths(length) : yardsTenths(length) }],
    })
  })
  for (const bead of random.sample(beads, random.int(0, 2))) {
    const count = random.int(12, 80)
    out.push(`${count} beads, Varnaby ${bead.code} ${bead.name}`)
    lines.push(
      keyLine({ threads: [saidThread(bead, { maker: true, code: true, name: true })], amounts: [stitchCount('bead', count)] }),
    )
  }
  return { text: framed(random, head, out), designs: unnamed(lines, head) }
}

/** Blends said in columns: both numbers, both names, strands of each. */
const blendTable: Template = ({ random, silk }) => {
  const head = maybeHead(random, 0.5)
  const chosen = takeThreads(silk, random.int(10, 18), random)
  const rows = [['Symbol', 'Brindlequay', 'Colour', 'Strands of each', 'Stitches']]
  const lines: TruthLine[] = []
  const symbols = symbolsFor(random, chosen.length)
  for (let at = 0; at < chosen.length; at++) {
    const first = chosen[at] as PoolThread
    const second = random.chance(0.35) ? chosen[at + 1] : undefined
    const symbol = symbols[lines.length] as string
    const count = drawCount(random)
    if (second) {
      at++
      rows.push([symbol, `${first.code} + ${second.code}`, `${first.name} + ${second.name}`, '1 + 1', withCommas(count)])
    } else rows.push([symbol, first.code, first.name as string, '2', withCommas(count)])
    const strands = second ? 1 : 2
    lines.push(
      keyLine({
        symbol,
        threads: [first, ...(second ? [second] : [])].map((thread) =>
          saidThread(thread, { maker: true, code: true, name: true, strands }),
        ),
        amounts: [stitchCount('full', count)],
      }),
    )
  }
  const drawn = random.chance(0.5) ? aligned(rows, 3) : rows.map((row) => row.join('\t'))
  return { text: framed(random, head, drawn), designs: unnamed(lines, head) }
}

/** Hand-dyed wools by name alone, under their maker, with hanks. */
const namesAlone: Template = ({ random, dyed, braid }) => {
  const head = maybeHead(random, 0.6)
  const chosen = takeThreads(dyed, random.int(4, 9), random)
  const symbols = symbolsFor(random, chosen.length)
  const out = [random.pick(['Dunmarrow Hand-dyed Wool', 'DUNMARROW HAND-DYED WOOL', 'Hand-dyed Wool from Dunmarrow'])]
  const lines = chosen.map((thread, at) => {
    const hanks = random.pick([1, 2, 3])
    out.push(
      `${symbols[at]}  ${thread.code}, ${random.pick([`${hanks}`, ['one', 'two', 'three'][hanks - 1]])} hank${hanks > 1 ? 's' : ''}`,
    )
    return keyLine({
      symbol: symbols[at],
      threads: [saidThread(thread, { maker: true, line: true })],
      amounts: [putUps(hanks)],
    })
  })
  if (random.chance(0.6)) {
    const thread = random.pick(braid)
    out.push('', 'Marrowgate Braid', `${thread.code} ${thread.name}, one spool`)
    lines.push(
      keyLine({ threads: [saidThread(thread, { maker: true, line: true, code: true, name: true })], amounts: [putUps(1)] }),
    )
  }
  return { text: framed(random, head, out), designs: unnamed(lines, head) }
}

/** Headings for what is worked how, each saying the strands of what follows. */
const headings: Template = ({ random, silk, beads }) => {
  const head = maybeHead(random, 0.5)
  const out: string[] = [random.pick(['All silks are Brindlequay.', 'Silks: Brindlequay', 'KEY (Brindlequay silk)'])]
  const lines: TruthLine[] = []
  const parts: [string, Stitch, number, number][] = [
    [random.pick(['Full crosses (2 strands)', 'Cross stitches, 2 strands']), 'full', 2, random.int(6, 12)],
    [random.pick(['Half crosses (1 strand)', 'Half cross stitches, 1 strand']), 'half', 1, random.int(0, 3)],
    [random.pick(['Back stitches (1 strand)', 'Backstitch lines, 1 strand']), 'backstitch', 1, random.int(1, 4)],
    [random.pick(['Knots (2 strands, wrapped twice)', 'French knots, two wraps, 2 strands']), 'knotTwoWrap', 2, random.int(0, 2)],
  ]
  const symbols = symbolsFor(random, 22)
  for (const [heading, stitch, strands, count] of parts) {
    if (count === 0) continue
    out.push(heading)
    for (const thread of takeThreads(silk, count, random)) {
      const symbol = stitch === 'backstitch' ? null : (symbols.pop() as string)
      out.push(`  ${symbol === null ? '' : `${symbol}  `}${thread.code}  ${thread.name}`)
      lines.push(
        keyLine({
          symbol,
          threads: [saidThread(thread, { maker: true, code: true, name: true, strands })],
          stitches: [stitch],
        }),
      )
    }
  }
  for (const bead of random.sample(beads, random.int(0, 2))) {
    out.push(`Bead: Varnaby ${bead.code} ${bead.name}`)
    lines.push(keyLine({ threads: [saidThread(bead, { maker: true, code: true, name: true })], stitches: ['bead'] }))
  }
  return { text: framed(random, head, out), designs: unnamed(lines, head) }
}

/** Sign, then the number of one maker or of the other: two palettes side by side. */
const eitherOr: Template = ({ random, silk, wool }) => {
  const head = maybeHead(random, 0.6)
  const count = random.int(6, 14)
  const [silks, wools] = [takeThreads(silk, count, random), takeThreads(wool, count, random)]
  const symbols = symbolsFor(random, count)
  const rows = [
    ['Symbol', 'Brindlequay', 'Dunmarrow'],
    ...symbols.map((symbol, at) => [symbol, silks[at]?.code as string, wools[at]?.code as string]),
  ]
  const drawn = random.chance(0.5) ? aligned(rows, 4) : rows.map((row) => row.join('\t'))
  const lists = [silks, wools].map((threads) => ({
    name: threads[0]?.maker ?? null,
    lines: symbols.map((symbol, at) =>
      keyLine({ symbol, threads: [saidThread(threads[at] as PoolThread, { maker: true, code: true })] }),
    ),
  }))
  return {
    text: framed(random, head, drawn),
    designs: [{ facts: head?.facts ?? noFacts, notAsked: head?.notAsked ?? [], lists }],
  }
}

/** Old Brick (204): 2 skeins. The name stands first, the number in brackets. */
const nameFirst: Template = ({ random, silk }) => {
  const head = maybeHead(random, 0.6)
  const out = [random.pick(['Brindlequay Stranded Silk', 'You will need Brindlequay Stranded Silk:'])]
  const lines = takeThreads(silk, random.int(6, 16), random).map((thread) => {
    const skeins = random.pick([1, 1, 2, 3])
    out.push(`${thread.name} (${thread.code}): ${skeins} skein${skeins > 1 ? 's' : ''}`)
    return keyLine({
      threads: [saidThread(thread, { maker: true, line: true, code: true, name: true })],
      amounts: [putUps(skeins)],
    })
  })
  return { text: framed(random, head, out), designs: unnamed(lines, head) }
}

/** Two small designs from one sheet, each with its size and its key. */
const twoOnASheet: Template = ({ random, silk }) => {
  const out: string[] = []
  const titles = random.sample(['Three Jugs', 'Winter Post', 'Hare by the Pump', 'Small Blue Ship', 'Bell Tower Band'], 2)
  const designs = titles.map((title): TruthDesign => {
    const [width, height] = [random.int(30, 90), random.int(30, 90)]
    out.push(title, `${width} x ${height} stitches`)
    const chosen = takeThreads(silk, random.int(4, 8), random)
    const symbols = symbolsFor(random, chosen.length)
    const lines = chosen.map((thread, at) => {
      out.push(`${symbols[at]}  Brindlequay ${thread.code}  ${thread.name}  2 strands`)
      return keyLine({
        symbol: symbols[at],
        threads: [saidThread(thread, { maker: true, code: true, name: true, strands: 2 })],
      })
    })
    out.push('')
    return {
      facts: { ...noFacts, title, widthStitches: width, heightStitches: height },
      notAsked: [],
      lists: [{ name: null, lines }],
    }
  })
  return { text: out.join('\n'), designs }
}

/** A plain table in columns: number first, then sign, name and counts, whose heads are short. */
const shortHeads: Template = ({ random, silk, wool }) => {
  const head = maybeHead(random, 0.6)
  const threads = random.chance(0.5) ? silk : wool
  const chosen = takeThreads(threads, random.int(8, 24), random)
  const symbols = symbolsFor(random, chosen.length)
  const maker = chosen[0]?.maker as string
  const rows = [[`${maker} No`, 'Sym', 'Name', 'Str', 'Sts']]
  const lines = chosen.map((thread, at) => {
    const [strands, count] = [random.pick([1, 2, 3]), drawCount(random)]
    const code = thread.formerCode ?? thread.code
    rows.push([code, symbols[at] as string, thread.name as string, String(strands), String(count)])
    return keyLine({
      symbol: symbols[at],
      threads: [saidThread(thread, { maker: true, code, name: true, strands })],
      amounts: [stitchCount('full', count)],
    })
  })
  const drawn = random.chance(0.6) ? aligned(rows, random.int(2, 4)) : rows.map((row) => row.join('\t'))
  return { text: framed(random, head, drawn), designs: unnamed(lines, head) }
}

export const heldOutTemplates = {
  dashes,
  'ruled table': ruledTable,
  'counts by kind': countsByKind,
  brackets,
  'kit lengths': kitLengths,
  'blend table': blendTable,
  'names alone': namesAlone,
  headings,
  'either or': eitherOr,
  'number in brackets': nameFirst,
  'two on a sheet': twoOnASheet,
  'short heads': shortHeads,
} satisfies Record<string, Template>
