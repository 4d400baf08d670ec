// Long because it is a table: one way of writing a key to a function, none of which knows another.
import type { Stitch } from '#lib/thread/stitches'
import type { Random } from '#seed/random'
import type { TruthAmount, TruthDesign, TruthLine } from '../truth'
import type { PoolThread } from '../world'
import { saidThread } from '../world'
import {
  aligned,
  drawCount,
  keyLine,
  metresTenths,
  noFacts,
  putUps,
  stitchCount,
  takeThreads,
  type Written,
  withCommas,
  yardsTenths,
} from '../writing'
import { sayFacts, trainProse, trainTitles } from './facts'

/** The pools of `trainRanges`, in its order, and the stream of chance. */
export type TrainMeans = {
  random: Random
  stranded: PoolThread[]
  pearl: PoolThread[]
  dyed: PoolThread[]
  filament: PoolThread[]
  beads: PoolThread[]
}
type Template = (means: TrainMeans) => Written

const signs = [
  '●',
  '■',
  '▲',
  '◆',
  '★',
  '○',
  '□',
  '△',
  '◇',
  '☆',
  '×',
  '+',
  '♥',
  '▼',
  '♣',
  '♠',
  '◐',
  '✚',
  '⊕',
  '/',
  '=',
  '#',
  '@',
  '%',
  'A',
  'B',
  'C',
  'H',
  'K',
  'S',
  'T',
  'X',
  'Z',
  '2',
  '4',
  '7',
]
const letters = [...'ABCDEFGHJKLMNPRSTUVWXYZ']
const symbolsFor = (random: Random, count: number): string[] =>
  random.chance(0.3) && count < 20 ? random.sample(letters, count) : random.sample(signs, count)

const unnamed = (lines: TruthLine[]) => [{ name: null, lines }]
const bare = (lines: TruthLine[]): TruthDesign[] => [{ facts: noFacts, notAsked: [], lists: unnamed(lines) }]
const words = ['no', 'one', 'two', 'three', 'four'] as const
const between = (random: Random, lines: readonly string[]): string[] =>
  random.chance(0.6) ? [...random.sample(trainProse, random.int(1, 3)), '', ...lines] : [...lines]
const ended = (random: Random, lines: readonly string[]): string =>
  [...lines, ...(random.chance(0.6) ? ['', ...random.sample(trainProse, random.int(1, 3))] : [])].join('\n')
const skeinWord = (count: number) => (count > 1 ? 'skeins' : 'skein')
/** Skeins as they are printed, with what is to be planned on. */
function drawSkeins(random: Random): { text: string; count: number } {
  const count = random.weighted([
    [1, 8],
    [2, 3],
    [3, 1],
  ] as const)
  if (random.chance(0.08)) return { text: `${count}–${count + 1}`, count: count + 1 }
  return { text: String(count), count }
}

/** ● 0311 Larkholm, Pine, 2 strands, 1,240 st, 2 skeins */
const commaLines: Template = ({ random, stranded, filament }) => {
  const head = random.chance(0.5) ? sayFacts(random) : null
  const chosen = takeThreads(random.chance(0.3) ? [...stranded, ...filament] : stranded, random.int(8, 28), random)
  const symbols = symbolsFor(random, chosen.length)
  const [hasStrands, hasStitches, hasSkeins, isShort] = [
    random.chance(0.8),
    random.chance(0.7),
    random.chance(0.6),
    random.chance(0.3),
  ]
  const rows = chosen.map((thread, at) => {
    const [strands, count, skeins] = [random.pick([1, 2, 2, 2, 3]), drawCount(random), drawSkeins(random)]
    const amounts: TruthAmount[] = []
    const parts = [`${symbols[at]} ${thread.code} ${thread.maker}`, thread.name as string]
    if (hasStrands) parts.push(isShort ? `${strands} str` : `${strands} strand${strands > 1 ? 's' : ''}`)
    if (hasStitches) {
      parts.push(`${withCommas(count)} st`)
      amounts.push(stitchCount('full', count))
    }
    if (hasSkeins) {
      parts.push(`${skeins.text} ${skeinWord(skeins.count)}`)
      amounts.push(putUps(skeins.count))
    }
    return {
      text: parts.join(', '),
      line: keyLine({
        symbol: symbols[at],
        threads: [saidThread(thread, { maker: true, code: true, name: true, strands: hasStrands ? strands : null })],
        amounts,
      }),
    }
  })
  const text = ended(random, [
    ...(head ? [...head.lines, ''] : []),
    ...between(random, []),
    random.pick(['Key', 'KEY', 'Colour key', 'Threads']),
    ...rows.map((row) => row.text),
  ])
  const lines = rows.map(({ line }) => line)
  return { text, designs: head ? [{ facts: head.facts, notAsked: head.notAsked, lists: unnamed(lines) }] : bare(lines) }
}

/** A table with a head, its cells apart by tabs, pipes or blanks; the maker in its own column, in the head, or above. */
const headedTable: Template = ({ random, stranded, dyed }) => {
  const head = random.chance(0.6) ? sayFacts(random) : null
  const makerStands = random.pick(['column', 'head', 'above'] as const)
  const pool = makerStands === 'column' && random.chance(0.5) ? [...stranded, ...dyed] : stranded
  const chosen = takeThreads(pool, random.int(10, 30), random)
  const symbols = symbolsFor(random, chosen.length)
  const columns = [
    random.pick(['Symbol', 'Sym', 'Sym.', 'Mark', 'Icon']),
    ...(makerStands === 'column' ? [random.pick(['Maker', 'Brand', 'Company', 'Made by'])] : []),
    makerStands === 'head'
      ? random.pick(['Larkholm no.', 'Larkholm', 'Larkholm No'])
      : random.pick(['No.', 'Code', 'Number', 'Colour no.', 'Thread no.', 'Article']),
    random.pick(['Colour', 'Name', 'Color', 'Colour name', 'Tint']),
    ...(random.chance(0.7) ? [random.pick(['Strands', 'No. of strands', 'Plies', 'Str.'])] : []),
    ...(random.chance(0.7) ? [random.pick(['Stitches', 'Sts', 'Stitch count', 'St. total', 'X st'])] : []),
    ...(random.chance(0.6) ? [random.pick(['Skeins', 'Sk.', 'Skeins wanted', 'Put-ups'])] : []),
  ]
  const lines: TruthLine[] = []
  const rows = chosen.map((thread, at) => {
    const [strands, count, skeins] = [random.pick([1, 2, 2, 3]), drawCount(random), drawSkeins(random)]
    const amounts: TruthAmount[] = []
    let saidStrands: number | null = null
    const cells = columns.map((column, columnAt) => {
      if (columnAt === 0) return symbols[at] as string
      if (['Maker', 'Brand', 'Company', 'Made by'].includes(column)) return thread.maker
      if (column.startsWith('Larkholm') || ['No.', 'Code', 'Number', 'Colour no.', 'Thread no.', 'Article'].includes(column))
        return thread.isNamed ? '' : thread.code
      if (['Colour', 'Name', 'Color', 'Colour name', 'Tint'].includes(column))
        return thread.isNamed ? thread.code : (thread.name as string)
      if (['Strands', 'No. of strands', 'Plies', 'Str.'].includes(column)) {
        saidStrands = strands
        return String(strands)
      }
      if (['Stitches', 'Sts', 'Stitch count', 'St. total', 'X st'].includes(column)) {
        amounts.push(stitchCount('full', count))
        return random.chance(0.5) ? withCommas(count) : String(count)
      }
      amounts.push(putUps(skeins.count))
      return skeins.text
    })
    lines.push(
      keyLine({
        symbol: symbols[at],
        threads: [saidThread(thread, { maker: true, code: true, name: true, strands: saidStrands })],
        amounts,
      }),
    )
    return cells
  })
  const table = [columns, ...rows]
  const shape = random.pick(['tabs', 'pipes', 'blanks'] as const)
  const drawn =
    shape === 'tabs'
      ? table.map((row) => row.join('\t'))
      : shape === 'blanks'
        ? aligned(table)
        : table.flatMap((row, at) => [
            `| ${row.join(' | ')} |`,
            ...(at === 0 && random.chance(0.7) ? [`|${row.map(() => '---').join('|')}|`] : []),
          ])
  const above =
    makerStands === 'above'
      ? [random.pick(['All threads are Larkholm.', 'Larkholm', 'Thread: Larkholm', 'Larkholm threads'])]
      : []
  const text = ended(random, [...(head ? [...head.lines, ''] : []), ...between(random, []), ...above, ...drawn])
  return { text, designs: head ? [{ facts: head.facts, notAsked: head.notAsked, lists: unnamed(lines) }] : bare(lines) }
}

/** CROSS STITCH (2 strands) … BACKSTITCH (1 strand) … FRENCH KNOTS: each heading is said of the lines below it. */
const sections: Template = ({ random, stranded }) => {
  const head = sayFacts(random)
  const isUpper = random.chance(0.5)
  const styled = (word: string) => (isUpper ? word.toUpperCase() : word)
  const isDashed = random.chance(0.5)
  const lines: TruthLine[] = []
  const out: string[] = [
    ...head.lines,
    '',
    random.pick(['Larkholm Stranded Cotton', 'Larkholm stranded cotton', 'All Larkholm Stranded Cotton']),
  ]
  const parts: { word: string; stitch: Stitch; strands: number; count: number }[] = [
    { word: 'Cross stitch', stitch: 'full', strands: 2, count: random.int(8, 18) },
    ...(random.chance(0.5) ? [{ word: 'Half cross stitch', stitch: 'half' as const, strands: 1, count: random.int(2, 4) }] : []),
    { word: 'Backstitch', stitch: 'backstitch', strands: 1, count: random.int(1, 4) },
    ...(random.chance(0.6)
      ? [{ word: 'French knots', stitch: 'knotOneWrap' as const, strands: random.pick([1, 2]), count: random.int(1, 3) }]
      : []),
  ]
  const wording = random.pick(['bracket', 'comma', 'words'] as const)
  for (const { word, stitch, strands, count } of parts) {
    const plural = strands > 1 ? 's' : ''
    out.push(
      '',
      wording === 'bracket'
        ? `${styled(word)} (${strands} strand${plural})`
        : wording === 'comma'
          ? `${styled(word)}, ${strands} strand${plural}`
          : `${styled(word)} in ${words[strands]} strand${plural}`,
    )
    const chosen = takeThreads(stranded, count, random)
    const symbols = symbolsFor(random, count)
    const hasSymbol = stitch === 'full' || stitch === 'half'
    for (const [at, thread] of chosen.entries()) {
      const symbol = hasSymbol ? (symbols[at] as string) : null
      out.push(
        `${symbol === null ? '' : `${symbol}${isDashed ? ' ' : '  '}`}${thread.code}${isDashed ? ' – ' : '  '}${thread.name}`,
      )
      lines.push(
        keyLine({
          symbol,
          threads: [saidThread(thread, { maker: true, line: true, code: true, name: true, strands })],
          stitches: [stitch],
        }),
      )
    }
  }
  return { text: ended(random, out), designs: [{ facts: head.facts, notAsked: head.notAsked, lists: unnamed(lines) }] }
}

/** "Symbol","Brand","No","Name","Strands" as a program writes it. */
const quotedCells: Template = ({ random, stranded, beads }) => {
  const chosen = takeThreads([...stranded, ...(random.chance(0.4) ? beads.slice(0, 6) : [])], random.int(10, 26), random)
  const symbols = symbolsFor(random, chosen.length)
  const quoted = (cell: string) => (random.chance(0.2) || /[",]/u.test(cell) ? `"${cell}"` : cell)
  const hasFull = random.chance(0.7)
  const out = [
    ['Symbol', 'Brand', 'Range', 'Number', 'Name', 'Strands', ...(hasFull ? ['Full', 'Half', 'Back'] : ['Skeins'])].join(','),
  ]
  const lines = chosen.map((thread, at) => {
    const strands = random.pick([1, 2, 3])
    const counts: [Stitch, number][] = [
      ['full', drawCount(random)],
      ['half', random.chance(0.3) ? random.int(3, 90) : 0],
      ['backstitch', random.chance(0.3) ? random.int(3, 200) : 0],
    ]
    const skeins = random.int(1, 3)
    out.push(
      [
        symbols[at] as string,
        thread.maker,
        thread.threadLine,
        thread.code,
        thread.name as string,
        String(strands),
        ...(hasFull ? counts.map(([, count]) => (count > 0 ? String(count) : '')) : [String(skeins)]),
      ]
        .map(quoted)
        .join(','),
    )
    return keyLine({
      symbol: symbols[at],
      threads: [saidThread(thread, { maker: true, line: true, code: true, name: true, strands })],
      amounts: hasFull ? counts.flatMap(([stitch, count]) => (count > 0 ? [stitchCount(stitch, count)] : [])) : [putUps(skeins)],
    })
  })
  return { text: out.join('\n'), designs: bare(lines) }
}

/** Maker as a heading over its own threads; skeins in brackets, as the head says. */
const makerGroups: Template = ({ random, stranded, dyed, filament }) => {
  const head = random.chance(0.7) ? sayFacts(random) : null
  const lines: TruthLine[] = []
  const out = [
    ...(head ? [...head.lines, ''] : []),
    random.pick(['Materials', 'You will need', 'Threads']),
    random.pick(['(number of skeins in brackets)', 'Skeins needed are given in brackets.']),
  ]
  for (const [pool, count] of [
    [stranded, random.int(6, 16)],
    [dyed, random.int(1, 6)],
    [filament, random.int(0, 3)],
  ] as const) {
    if (count === 0) continue
    const [first] = pool
    if (!first) continue
    const withLine = random.chance(0.5)
    out.push('', `${first.maker}${withLine ? ` ${first.threadLine}` : ''}${random.chance(0.5) ? ':' : ''}`)
    for (const thread of takeThreads(pool, count, random)) {
      const skeins = random.pick([1, 1, 1, 2, 3])
      out.push(`${thread.isNamed ? thread.code : `${thread.code} ${thread.name}`} (${skeins})`)
      lines.push(
        keyLine({
          threads: [saidThread(thread, { maker: true, line: withLine, code: true, name: true })],
          amounts: [putUps(skeins)],
        }),
      )
    }
  }
  const text = ended(random, out)
  return { text, designs: head ? [{ facts: head.facts, notAsked: head.notAsked, lists: unnamed(lines) }] : bare(lines) }
}

/** Two palettes side by side: a column for each maker. */
const twoPalettes: Template = ({ random, stranded, dyed }) => {
  const head = random.chance(0.6) ? sayFacts(random) : null
  const count = random.int(6, 14)
  const [plain, fancy] = [takeThreads(stranded, count, random), random.shuffle(dyed).slice(0, count)]
  const symbols = symbolsFor(random, count)
  const withNames = random.chance(0.6)
  const isShared = random.chance(0.4)
  const second = symbols.map((_, at) => fancy[isShared && at % 5 === 4 ? at - 1 : at] as PoolThread)
  const rows = [
    ['Symbol', random.pick(['Larkholm', 'Larkholm no.']), 'Oddny Loft'],
    ...symbols.map((symbol, at) => [
      symbol,
      `${(plain[at] as PoolThread).code}${withNames ? ` ${(plain[at] as PoolThread).name}` : ''}`,
      (second[at] as PoolThread).code,
    ]),
  ]
  const table = random.pick(['tabs', 'blanks', 'pipes'] as const)
  const drawn =
    table === 'tabs'
      ? rows.map((row) => row.join('\t'))
      : table === 'blanks'
        ? aligned(rows, 4)
        : rows.map((row) => row.join(' | '))
  const text = ended(random, [
    ...(head ? [...head.lines, ''] : []),
    random.pick(['Use either list.', 'Two palettes are given.', 'Threads']),
    ...drawn,
  ])
  const list = (threads: PoolThread[]) => ({
    name: null,
    lines: symbols.map((symbol, at) =>
      keyLine({ symbol, threads: [saidThread(threads[at] as PoolThread, { maker: true, code: true, name: withNames })] }),
    ),
  })
  return {
    text,
    designs: [{ facts: head?.facts ?? noFacts, notAsked: head?.notAsked ?? [], lists: [list(plain), list(second)] }],
  }
}

/** Ecru – use two strands; Backstitch: 0905 (1) */
const spokenLines: Template = ({ random, stranded }) => {
  const chosen = takeThreads(stranded, random.int(5, 14), random)
  const isNamed = random.chance(0.5)
  const lines: TruthLine[] = []
  const out = [random.pick(['Larkholm colours', 'Larkholm'])]
  for (const thread of chosen) {
    const strands = random.pick([1, 2, 3] as const)
    const plural = strands > 1 ? 's' : ''
    out.push(
      `${thread.code}${isNamed && thread.code !== 'Ecru' ? ` ${thread.name}` : ''} – use ${words[strands]} strand${plural}`,
    )
    lines.push(
      keyLine({ threads: [saidThread(thread, { maker: true, code: true, name: isNamed && thread.code !== 'Ecru', strands })] }),
    )
  }
  for (const thread of takeThreads(stranded, random.int(1, 3), random)) {
    const strands = random.pick([1, 2])
    out.push(`Backstitch: ${thread.code} (${strands})`)
    lines.push(keyLine({ threads: [saidThread(thread, { maker: true, code: true, strands })], stitches: ['backstitch'] }))
  }
  if (random.chance(0.5)) {
    const thread = random.pick(stranded)
    out.push(`French knots: ${thread.code} (1)`)
    lines.push(keyLine({ threads: [saidThread(thread, { maker: true, code: true, strands: 1 })], stitches: ['knotOneWrap'] }))
  }
  return { text: ended(random, out), designs: bare(lines) }
}

/** Several designs in one text, each with a head and a key of its own. */
const booklet: Template = ({ random, stranded }) => {
  const titles = random.sample(trainTitles, random.int(2, 4))
  const maker = random.chance(0.7)
  const out = [...(maker ? ['All designs use Larkholm Stranded Cotton, two strands throughout.', ''] : [])]
  const designs = titles.map((title): TruthDesign => {
    const head = sayFacts(random, title)
    const chosen = takeThreads(stranded, random.int(4, 10), random)
    const symbols = symbolsFor(random, chosen.length)
    out.push(...head.lines, '')
    const lines = chosen.map((thread, at) => {
      out.push(`${symbols[at]}\t${thread.code}\t${thread.name}`)
      return keyLine({
        symbol: symbols[at],
        threads: [saidThread(thread, { maker, line: maker, code: true, name: true, strands: maker ? 2 : null })],
      })
    })
    out.push('')
    return { facts: head.facts, notAsked: head.notAsked, lists: unnamed(lines) }
  })
  return { text: ended(random, out), designs }
}

/** What is in a kit: lengths to cut. */
const kitList: Template = ({ random, stranded, dyed }) => {
  const head = random.chance(0.5) ? sayFacts(random) : null
  const isMetric = random.chance(0.6)
  const out = [...(head ? [...head.lines, ''] : []), random.pick(['Kit contents', 'In this kit', 'Cut for each kit:'])]
  const lines = takeThreads([...stranded, ...dyed], random.int(6, 14), random).map((thread) => {
    const length = random.int(4, 62) / 10
    const yards = random.pick([0.5, 1, 1.5, 2, 3, 4, 5])
    const said = isMetric ? `${length} m` : `${yards} yd`
    const called = thread.isNamed ? thread.code : `${thread.code} ${thread.name}`
    out.push(`${thread.maker} ${called}, ${said}`)
    return keyLine({
      threads: [saidThread(thread, { maker: true, code: true, name: true })],
      amounts: [{ kind: 'length', tenths: isMetric ? metresTenths(length) : yardsTenths(yards) }],
    })
  })
  out.push('1 needle, size 24', '1 piece of cloth')
  const text = ended(random, out)
  return { text, designs: head ? [{ facts: head.facts, notAsked: head.notAsked, lists: unnamed(lines) }] : bare(lines) }
}

/** Blends among single threads: 0742+0087 1 each. */
const blends: Template = ({ random, stranded, filament }) => {
  const symbols = symbolsFor(random, 20)
  const joined = random.pick(['+', ' + ', ' & ', ' with '])
  const eachWord = random.pick(['1 each', 'one strand of each', '1 strand each'])
  const out = [random.pick(['Larkholm thread; Quillwater where said', 'Thread: Larkholm'])]
  const isMixed = out[0]?.includes('Quillwater')
  const lines: TruthLine[] = []
  for (const [at, thread] of takeThreads(stranded, random.int(8, 16), random).entries()) {
    const symbol = symbols[at] as string
    if (random.chance(0.6)) {
      const strands = random.pick([2, 2, 3])
      out.push(`${symbol}  ${thread.code}  ${strands} strands`)
      lines.push(keyLine({ symbol, threads: [saidThread(thread, { maker: true, code: true, strands })] }))
      continue
    }
    const isShine = isMixed && random.chance(0.4)
    const other = random.pick(isShine ? filament : stranded)
    out.push(`${symbol}  ${thread.code}${joined}${isShine ? 'Quillwater ' : ''}${other.code}  ${eachWord}`)
    lines.push(
      keyLine({ symbol, threads: [thread, other].map((one) => saidThread(one, { maker: true, code: true, strands: 1 })) }),
    )
  }
  return { text: ended(random, out), designs: bare(lines) }
}

/** Hand-dyed threads by name alone, a symbol before each; beads and metallics below. */
const namedThreads: Template = ({ random, dyed, beads, filament }) => {
  const head = sayFacts(random)
  const chosen = takeThreads(dyed, random.int(5, 14), random)
  const symbols = symbolsFor(random, chosen.length)
  const gap = random.pick(['\t', '   ', ' - '])
  const out = [
    ...head.lines,
    '',
    random.pick(['Oddny Loft hand-dyed cotton', 'Oddny Loft Hand-dyed Cotton']),
    ...(random.chance(0.5) ? ['Two strands throughout'] : []),
  ]
  const throughout = out.at(-1) === 'Two strands throughout' ? 2 : null
  const lines = chosen.map((thread, at) => {
    out.push(`${symbols[at]}${gap}${thread.code}`)
    return keyLine({ symbol: symbols[at], threads: [saidThread(thread, { maker: true, line: true, strands: throughout })] })
  })
  if (random.chance(0.7)) {
    out.push('', random.pick(['Beads', 'BEADS', 'Varnaby beads']))
    const isSaid = out.at(-1) === 'Varnaby beads'
    for (const bead of takeThreads(beads, random.int(1, 3), random)) {
      out.push(`${isSaid ? '' : 'Varnaby '}${bead.code} ${bead.name}`)
      lines.push(keyLine({ threads: [saidThread(bead, { maker: true, code: true, name: true })], stitches: ['bead'] }))
    }
  }
  if (throughout === null && random.chance(0.4)) {
    const shine = random.pick(filament)
    out.push('', 'Metallic', `Quillwater ${shine.code} ${shine.name}`)
    lines.push(keyLine({ threads: [saidThread(shine, { maker: true, code: true, name: true })] }))
  }
  return { text: ended(random, out), designs: [{ facts: head.facts, notAsked: head.notAsked, lists: unnamed(lines) }] }
}

/** Codes and no maker at all. */
const noMaker: Template = ({ random, stranded }) => {
  const chosen = takeThreads(stranded, random.int(8, 20), random)
  const symbols = symbolsFor(random, chosen.length)
  const marks = random.pick([(code: string) => `#${code}`, (code: string) => code, (code: string) => `No. ${code}`])
  const withSkeins = random.chance(0.5)
  const out: string[] = []
  const lines = chosen.map((thread, at) => {
    const skeins = drawSkeins(random)
    const code = thread.formerCode ?? thread.code
    out.push(
      `${symbols[at]}   ${marks(code)}   ${thread.name}${withSkeins ? `   ${skeins.text} ${skeinWord(skeins.count)}` : ''}`,
    )
    return keyLine({
      symbol: symbols[at],
      threads: [saidThread(thread, { code, name: true })],
      amounts: withSkeins ? [putUps(skeins.count)] : [],
    })
  })
  return { text: ended(random, out), designs: bare(lines) }
}

/** A paragraph that lists what is needed. */
const inSentence: Template = ({ random, stranded, dyed }) => {
  const head = sayFacts(random)
  const chosen = takeThreads(stranded, random.int(4, 9), random)
  const fancy = takeThreads(dyed, random.int(0, 2), random)
  const some = random.pick(['one skein each of', 'one skein of each:'])
  const listed = chosen.map(({ code }) => code)
  const out = [...head.lines, '', `You will need ${some} Larkholm ${listed.slice(0, -1).join(', ')} and ${listed.at(-1)}.`]
  const lines = chosen.map((thread) =>
    keyLine({ threads: [saidThread(thread, { maker: true, code: true })], amounts: [putUps(1)] }),
  )
  for (const thread of fancy) {
    out.push(`Also two skeins of Oddny Loft ${thread.code}.`)
    lines.push(keyLine({ threads: [saidThread(thread, { maker: true })], amounts: [putUps(2)] }))
  }
  return { text: ended(random, out), designs: [{ facts: head.facts, notAsked: head.notAsked, lists: unnamed(lines) }] }
}

/** Stitches by their kind, a column each. */
const stitchColumns: Template = ({ random, stranded }) => {
  const chosen = takeThreads(stranded, random.int(8, 20), random)
  const symbols = symbolsFor(random, chosen.length)
  const kinds: [string, Stitch][] = [
    ['Full', 'full'],
    ['Half', 'half'],
    ['Quarter', 'quarter'],
    ['Back', 'backstitch'],
    ['Knots', 'knotOneWrap'],
  ]
  const used = kinds.slice(0, random.int(2, 5))
  const blank = random.pick(['', '-', '0'])
  const isTabbed = blank === '' || random.chance(0.5)
  const rows = [['Sym', 'Larkholm', 'Name', ...used.map(([word]) => word)]]
  const lines = chosen.map((thread, at) => {
    const amounts: TruthAmount[] = []
    rows.push([
      symbols[at] as string,
      thread.code,
      thread.name as string,
      ...used.map(([, stitch], kindAt) => {
        if (kindAt > 0 && random.chance(0.6)) return blank
        const count = drawCount(random)
        amounts.push(stitchCount(stitch, count))
        return String(count)
      }),
    ])
    return keyLine({ symbol: symbols[at], threads: [saidThread(thread, { maker: true, code: true, name: true })], amounts })
  })
  return { text: ended(random, isTabbed ? rows.map((row) => row.join('\t')) : aligned(rows)), designs: bare(lines) }
}

/** Every part with its word before it. */
const labelledLines: Template = ({ random, stranded, pearl }) => {
  const isPearl = random.chance(0.3)
  const chosen = takeThreads(isPearl ? pearl : stranded, random.int(6, 14), random)
  const symbols = symbolsFor(random, chosen.length)
  const out = [isPearl ? 'Larkholm Pearl Cotton' : 'Larkholm Stranded Cotton']
  const lines = chosen.map((thread, at) => {
    const strands = random.pick([1, 2, 3] as const)
    const saidStrands = isPearl ? null : strands
    out.push(`Symbol: ${symbols[at]}; Colour: ${thread.code} ${thread.name}${isPearl ? '' : `; Strands: ${words[strands]}`}`)
    return keyLine({
      symbol: symbols[at],
      threads: [saidThread(thread, { maker: true, line: true, code: true, name: true, strands: saidStrands })],
    })
  })
  return { text: ended(random, out), designs: bare(lines) }
}

/** 2 x 0311 Pine: put-ups before the colour, as a shop writes an order. */
const countFirst: Template = ({ random, stranded, dyed }) => {
  const head = random.chance(0.5) ? sayFacts(random) : null
  const sign = random.pick(['x ', ' x ', 'x', ' × '])
  const out = [random.pick(['Skeins needed (Larkholm Stranded Cotton)', 'Larkholm Stranded Cotton, number of skeins first'])]
  const lines = takeThreads(stranded, random.int(6, 14), random).map((thread) => {
    const skeins = random.pick([1, 1, 2, 3])
    out.push(`${skeins}${sign}${thread.code} ${thread.name}`)
    return keyLine({
      threads: [saidThread(thread, { maker: true, line: true, code: true, name: true })],
      amounts: [putUps(skeins)],
    })
  })
  for (const thread of takeThreads(dyed, random.int(0, 3), random)) {
    out.push(`1${sign}${thread.code} (Oddny Loft)`)
    lines.push(keyLine({ threads: [saidThread(thread, { maker: true })], amounts: [putUps(1)] }))
  }
  return {
    text: ended(random, [...(head ? [...head.lines, ''] : []), ...out]),
    designs: head ? [{ facts: head.facts, notAsked: head.notAsked, lists: unnamed(lines) }] : bare(lines),
  }
}

/** A bullet before each line, which is no symbol. */
const bullets: Template = ({ random, stranded, dyed, filament }) => {
  const head = sayFacts(random)
  const bullet = random.pick(['-', '•', '*', '–', '·'])
  const out = [...head.lines, '', random.pick(['You will need:', 'Threads', 'Shopping list'])]
  const lines = takeThreads([...stranded, ...dyed, ...filament.slice(0, 5)], random.int(6, 14), random).map((thread) => {
    const skeins = random.pick([1, 1, 2])
    const called = thread.isNamed ? thread.code : `${thread.code} ${thread.name}`
    out.push(
      random.chance(0.5)
        ? `${bullet} ${skeins} ${skeinWord(skeins)} ${thread.maker} ${called}`
        : `${bullet} ${thread.maker} ${called}, ${skeins} ${skeinWord(skeins)}`,
    )
    return keyLine({ threads: [saidThread(thread, { maker: true, code: true, name: true })], amounts: [putUps(skeins)] })
  })
  out.push(`${bullet} Aida, fat quarter`, `${bullet} tapestry needle`)
  return {
    text: ended(random, out),
    designs: [{ facts: head.facts, notAsked: head.notAsked, lists: unnamed(lines) }].map((design) => ({
      ...design,
      notAsked: [...design.notAsked, 'cloth' as const, 'weave' as const],
    })),
  }
}

/** A: 0311 Pine – the sky. What it is for is no name. */
const commented: Template = ({ random, stranded }) => {
  const head = random.chance(0.6) ? sayFacts(random) : null
  const chosen = takeThreads(stranded, random.int(6, 16), random)
  const symbols = symbolsFor(random, chosen.length)
  const mark = random.pick([': ', ' - ', '. ', ' '])
  const places = ['sky', 'far hills', 'door', 'the smaller boat', 'window bars', 'grass, left', 'her shawl']
  const out = [random.pick(['Larkholm thread list', 'Threads by Larkholm'])]
  const lines = chosen.map((thread, at) => {
    const isOf = random.chance(0.5)
    out.push(`${symbols[at]}${mark}${thread.code} ${thread.name}${isOf ? ` (${random.pick(places)})` : ''}`)
    return keyLine({ symbol: symbols[at], threads: [saidThread(thread, { maker: true, code: true, name: true })] })
  })
  return {
    text: ended(random, [...(head ? [...head.lines, ''] : []), ...out]),
    designs: head ? [{ facts: head.facts, notAsked: head.notAsked, lists: unnamed(lines) }] : bare(lines),
  }
}

/** Units in the heads: Length (m), Skeins of 8 m. */
const unitsInHeads: Template = ({ random, stranded }) => {
  const chosen = takeThreads(stranded, random.int(8, 20), random)
  const symbols = symbolsFor(random, chosen.length)
  const kind = random.pick(['m', 'yd', 'skeins'] as const)
  const heads = {
    m: ['Length (m)', 'Metres', 'm'],
    yd: ['Length (yd)', 'Yards', 'yds'],
    skeins: ['Skeins (8 m)', 'Skeins of 8 m', 'No. of skeins'],
  }
  const rows = [['Symbol', 'Colour number', 'Colour name', 'Number of strands', random.pick(heads[kind])]]
  const lines = chosen.map((thread, at) => {
    const [strands, metres, yards, skeins] = [
      random.pick([1, 2, 3]),
      random.int(2, 90) / 10,
      random.int(1, 12) / 2,
      random.pick([1, 2, 3]),
    ]
    rows.push([
      symbols[at] as string,
      thread.code,
      thread.name as string,
      String(strands),
      kind === 'm' ? String(metres) : kind === 'yd' ? String(yards) : String(skeins),
    ])
    const amount: TruthAmount =
      kind === 'skeins' ? putUps(skeins) : { kind: 'length', tenths: kind === 'm' ? metresTenths(metres) : yardsTenths(yards) }
    return keyLine({
      symbol: symbols[at],
      threads: [saidThread(thread, { maker: true, code: true, name: true, strands })],
      amounts: [amount],
    })
  })
  return {
    text: ended(random, ['Larkholm', ...(random.chance(0.5) ? rows.map((row) => row.join('\t')) : aligned(rows, 2))]),
    designs: bare(lines),
  }
}

/** The key first, and what the design is called below it; the thread whole in one cell. */
const factsBelow: Template = ({ random, stranded, dyed }) => {
  const head = sayFacts(random)
  const chosen = takeThreads([...stranded, ...dyed], random.int(8, 18), random)
  const symbols = symbolsFor(random, chosen.length)
  const rows = [['Sym', 'Thread', 'Str', random.pick(['Sts', 'Count'])]]
  const lines = chosen.map((thread, at) => {
    const [strands, count] = [random.pick([1, 2, 3]), drawCount(random)]
    rows.push([
      symbols[at] as string,
      `${thread.maker} ${thread.isNamed ? thread.code : `${thread.code} ${thread.name}`}`,
      String(strands),
      String(count),
    ])
    return keyLine({
      symbol: symbols[at],
      threads: [saidThread(thread, { maker: true, code: true, name: true, strands })],
      amounts: [stitchCount('full', count)],
    })
  })
  const drawn = random.chance(0.5) ? rows.map((row) => row.join('\t')) : rows.map((row) => row.join(' | '))
  return {
    text: [...drawn, '', ...head.lines].join('\n'),
    designs: [{ facts: head.facts, notAsked: head.notAsked, lists: unnamed(lines) }],
  }
}

/** The kind of stitch as a row of the table that the rows below it are of. */
const rowsOfKind: Template = ({ random, stranded }) => {
  const head = random.chance(0.6) ? sayFacts(random) : null
  const out = [['Symbol', 'Larkholm', 'Name', random.pick(['Skeins', 'Stitches'])].join('\t')]
  const isSkeins = out[0]?.endsWith('Skeins')
  const lines: TruthLine[] = []
  const parts: [string, Stitch, number][] = [
    ['Full cross', 'full', random.int(5, 12)],
    ['Half cross', 'half', random.int(1, 3)],
    ['Three-quarter stitches', 'threeQuarter', random.int(0, 2)],
    ['Back stitch', 'backstitch', random.int(1, 3)],
  ]
  for (const [word, stitch, count] of parts) {
    if (count === 0) continue
    out.push(word)
    const symbols = symbolsFor(random, count)
    for (const [at, thread] of takeThreads(stranded, count, random).entries()) {
      const number = isSkeins ? random.pick([1, 2]) : drawCount(random)
      out.push([symbols[at], thread.code, thread.name, number].join('\t'))
      lines.push(
        keyLine({
          symbol: symbols[at],
          threads: [saidThread(thread, { maker: true, code: true, name: true })],
          stitches: [stitch],
          amounts: [isSkeins ? putUps(number) : stitchCount(stitch, number)],
        }),
      )
    }
  }
  return {
    text: ended(random, [...(head ? [...head.lines, ''] : []), ...out]),
    designs: head ? [{ facts: head.facts, notAsked: head.notAsked, lists: unnamed(lines) }] : bare(lines),
  }
}

/** Pine (0311), 2 strands: the name before the code; a hand-dyed thread with its maker after it. */
const nameFirst: Template = ({ random, stranded, dyed }) => {
  const head = sayFacts(random)
  const isLarkholm = random.chance(0.5)
  const out = [...head.lines, '', ...(isLarkholm ? ['Numbers are Larkholm.'] : ['Threads'])]
  const lines = takeThreads([...stranded, ...dyed], random.int(6, 16), random).map((thread) => {
    const strands = random.pick([1, 2, 3])
    const said = `${strands} strand${strands > 1 ? 's' : ''}`
    out.push(
      thread.isNamed
        ? `${thread.code} (${thread.maker}), ${said}`
        : `${thread.name} (${isLarkholm ? '' : 'Larkholm '}${thread.code}), ${said}`,
    )
    return keyLine({ threads: [saidThread(thread, { maker: true, code: true, name: true, strands })] })
  })
  return { text: ended(random, out), designs: [{ facts: head.facts, notAsked: head.notAsked, lists: unnamed(lines) }] }
}

/** Prose says how many strands for which stitch; the key says nothing of it. */
const strandsInProse: Template = ({ random, stranded }) => {
  const head = sayFacts(random)
  const [cross, back] = [random.pick([2, 3]), 1]
  const prose = random.pick([
    `Work the cross stitch with ${words[cross]} strands and the backstitch with one strand.`,
    `Use ${cross} strands for cross stitch and ${back} for backstitch.`,
    `Cross stitches are worked in ${words[cross]} strands, backstitches in one strand of Larkholm thread.`,
  ])
  const out = [...head.lines, '', prose, '', 'Larkholm', 'Cross stitch']
  const count = random.int(6, 14)
  const symbols = symbolsFor(random, count)
  const lines = takeThreads(stranded, count, random).map((thread, at) => {
    out.push(`${symbols[at]}  ${thread.code}  ${thread.name}`)
    return keyLine({
      symbol: symbols[at],
      threads: [saidThread(thread, { maker: true, code: true, name: true, strands: cross })],
      stitches: ['full'],
    })
  })
  out.push('Backstitch')
  for (const thread of takeThreads(stranded, random.int(1, 3), random)) {
    out.push(`${thread.code}  ${thread.name}`)
    lines.push(
      keyLine({
        threads: [saidThread(thread, { maker: true, code: true, name: true, strands: back })],
        stitches: ['backstitch'],
      }),
    )
  }
  return { text: ended(random, out), designs: [{ facts: head.facts, notAsked: head.notAsked, lists: unnamed(lines) }] }
}

/** Codes that have lost their zeros are other codes: the text is read as it stands, and meets no known thread. */
const lostZeros: Template = ({ random, stranded }) => {
  const chosen = takeThreads(
    stranded.filter(({ code }) => code.startsWith('0')),
    random.int(6, 12),
    random,
  )
  const symbols = symbolsFor(random, chosen.length)
  const out = ['Symbol\tLarkholm\tSkeins']
  const lines = chosen.map((thread, at) => {
    const code = thread.code.replace(/^0+/u, '')
    out.push(`${symbols[at]}\t${code}\t1`)
    return keyLine({ symbol: symbols[at], threads: [saidThread(thread, { maker: true, code })], amounts: [putUps(1)] })
  })
  return { text: out.join('\n'), designs: bare(lines) }
}

/** What the figure after a colour is stands in a line above the list. */
const legendTells: Template = ({ random, stranded, filament }) => {
  const head = random.chance(0.6) ? sayFacts(random) : null
  const chosen = takeThreads(stranded, random.int(7, 16), random)
  const symbols = symbolsFor(random, chosen.length)
  const [legend, written, isSkeins] = random.pick([
    ['Figures in brackets are the strands to use.', (figure: number) => ` (${figure})`, false],
    ['The figure after the stroke is the number of strands.', (figure: number) => ` /${figure}`, false],
    ['* = skeins', (figure: number) => ` *${figure}`, true],
    ['Number of skeins in square brackets', (figure: number) => ` [${figure}]`, true],
    ['strands in brackets', (figure: number) => ` (${figure})`, false],
  ] as [string, (figure: number) => string, boolean][])
  const isMixed = random.chance(0.4)
  const out = [isMixed ? 'Larkholm, if nothing else is said' : 'All colours are Larkholm', legend]
  const lines = chosen.map((thread, at) => {
    const figure = random.pick([1, 2, 2, 3])
    const isOther = isMixed && random.chance(0.15)
    const used = isOther ? random.pick(filament) : thread
    out.push(`${symbols[at]}  ${isOther ? 'Quillwater ' : ''}${used.code} ${used.name}${written(figure)}`)
    return keyLine({
      symbol: symbols[at],
      threads: [saidThread(used, { maker: true, code: true, name: true, strands: isSkeins ? null : figure })],
      amounts: isSkeins ? [putUps(figure)] : [],
    })
  })
  return {
    text: ended(random, [...(head ? [...head.lines, ''] : []), ...out]),
    designs: head ? [{ facts: head.facts, notAsked: head.notAsked, lists: unnamed(lines) }] : bare(lines),
  }
}

/** Several designs, each with its own maker and strands said above its key. */
const makerForEach: Template = ({ random, stranded, dyed, pearl }) => {
  const out: string[] = []
  const designs = random.sample(trainTitles, random.int(2, 3)).map((title): TruthDesign => {
    const head = sayFacts(random, title)
    const [pool, said, hasLine] = random.pick([
      [stranded, 'Threads: Larkholm', false],
      [dyed, 'Oddny Loft, hand-dyed', false],
      [pearl, 'Key for Larkholm Pearl Cotton', true],
      [stranded, 'Worked with Larkholm', false],
    ] as [PoolThread[], string, boolean][])
    const strands = pool === pearl ? null : random.pick([1, 2, 3] as const)
    const chosen = takeThreads(pool, random.int(4, 9), random)
    const symbols = symbolsFor(random, chosen.length)
    out.push(
      ...head.lines,
      '',
      `${said}${strands === null ? '' : random.chance(0.5) ? `, ${words[strands]} strand${strands > 1 ? 's' : ''}` : ` (${strands} strand${strands > 1 ? 's' : ''})`}`,
    )
    const isNameFirst = random.chance(0.3)
    const lines = chosen.map((thread, at) => {
      const cells = thread.isNamed ? [thread.code] : isNameFirst ? [thread.name, thread.code] : [thread.code, thread.name]
      out.push([symbols[at], ...cells].join('   '))
      return keyLine({
        symbol: symbols[at],
        threads: [saidThread(thread, { maker: true, line: hasLine, code: true, name: true, strands })],
      })
    })
    out.push('')
    return { facts: head.facts, notAsked: head.notAsked, lists: unnamed(lines) }
  })
  return { text: out.join('\n'), designs }
}

/** Maker, stitch and strands in one line, in any order, and the colours below it. */
const spokenHeads: Template = ({ random, stranded, dyed }) => {
  const head = random.chance(0.6) ? sayFacts(random) : null
  const out: string[] = []
  const lines: TruthLine[] = []
  const parts: [PoolThread[], string, Stitch, number, number][] = [
    [
      stranded,
      random.pick([
        'Two strands of Larkholm, cross stitch',
        'Full cross stitch: Larkholm, 2 strands',
        'Cross stitch with 2 strands of Larkholm',
      ]),
      'full',
      2,
      random.int(5, 12),
    ],
    [
      dyed,
      random.pick(['Half cross stitch in one strand of Oddny Loft', 'Oddny Loft, one strand, half cross']),
      'half',
      1,
      random.int(0, 3),
    ],
    [
      stranded,
      random.pick([
        'Larkholm for backstitch, single strand',
        'Outlines: one strand of Larkholm',
        'Back-stitching in Larkholm (1 strand)',
      ]),
      'backstitch',
      1,
      random.int(1, 3),
    ],
  ]
  for (const [pool, heading, stitch, strands, count] of parts) {
    if (count === 0) continue
    out.push(heading)
    const symbols = symbolsFor(random, count)
    for (const [at, thread] of takeThreads(pool, count, random).entries()) {
      const symbol = stitch === 'backstitch' ? null : (symbols[at] as string)
      out.push(`${symbol === null ? '' : `${symbol}   `}${thread.isNamed ? thread.code : `${thread.code}   ${thread.name}`}`)
      lines.push(
        keyLine({ symbol, threads: [saidThread(thread, { maker: true, code: true, name: true, strands })], stitches: [stitch] }),
      )
    }
  }
  return {
    text: ended(random, [...(head ? [...head.lines, ''] : []), ...out]),
    designs: head ? [{ facts: head.facts, notAsked: head.notAsked, lists: unnamed(lines) }] : bare(lines),
  }
}

/** The same table with its columns in another order and other words over them. */
const otherOrder: Template = ({ random, stranded }) => {
  const head = random.chance(0.5) ? sayFacts(random) : null
  const chosen = takeThreads(stranded, random.int(8, 20), random)
  const symbols = symbolsFor(random, chosen.length)
  const columns = random.shuffle(['name', 'code', 'strands', 'amount', 'symbol'] as const)
  const isSkeins = random.chance(0.5)
  const over = {
    name: random.pick(['Colour name', 'Called', 'Name of colour', 'Hue']),
    code: random.pick(['Larkholm code', 'Larkholm number', 'Larkholm #', 'Larkholm']),
    strands: random.pick(['Strands in needle', 'Threads in needle', '# strands', 'Strand count']),
    amount: isSkeins
      ? random.pick(['Skeins to buy', 'Qty (skeins)', 'How many skeins'])
      : random.pick(['Cross stitches', 'Total st.', 'Stitch number', '# of stitches']),
    symbol: random.pick(['On the chart', 'Chart mark', 'Symbol in chart', 'Symb.']),
  }
  const rows = [columns.map((column): string => over[column])]
  const lines = chosen.map((thread, at) => {
    const strands = random.pick([1, 2, 3] as const)
    const amount = isSkeins ? random.pick([1, 2, 3]) : drawCount(random)
    const cells = {
      name: thread.name as string,
      code: thread.code,
      strands: random.chance(0.2) ? words[strands] : String(strands),
      amount: String(amount),
      symbol: symbols[at] as string,
    }
    rows.push(columns.map((column): string => cells[column]))
    return keyLine({
      symbol: symbols[at],
      threads: [saidThread(thread, { maker: true, code: true, name: true, strands })],
      amounts: [isSkeins ? putUps(amount) : stitchCount('full', amount)],
    })
  })
  const drawn = random.pick([
    () => rows.map((row) => row.join('\t')),
    () => aligned(rows, 2),
    () => rows.map((row) => row.join(' ; ')),
  ])()
  return {
    text: ended(random, [...(head ? [...head.lines, ''] : []), ...drawn]),
    designs: head ? [{ facts: head.facts, notAsked: head.notAsked, lists: unnamed(lines) }] : bare(lines),
  }
}

/** By name, in the order they are dealt out. */
export const trainTemplates: Record<string, Template> = {
  'comma lines': commaLines,
  'headed table': headedTable,
  sections,
  'quoted cells': quotedCells,
  'maker groups': makerGroups,
  'two palettes': twoPalettes,
  'spoken lines': spokenLines,
  booklet,
  'kit list': kitList,
  blends,
  'named threads': namedThreads,
  'no maker': noMaker,
  'in a sentence': inSentence,
  'stitch columns': stitchColumns,
  'labelled lines': labelledLines,
  'count first': countFirst,
  bullets,
  commented,
  'units in heads': unitsInHeads,
  'facts below': factsBelow,
  'rows of a kind': rowsOfKind,
  'name first': nameFirst,
  'strands in prose': strandsInProse,
  'lost zeros': lostZeros,
  'legend tells': legendTells,
  'maker for each': makerForEach,
  'spoken heads': spokenHeads,
  'other order': otherOrder,
}
