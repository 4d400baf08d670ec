// Long because it is a table: one way of writing a key to a function, none of which knows another.
import type { Stitch } from '#lib/thread/stitches'
import type { Random } from '#seed/random'
import type { TruthAmount, TruthDesign, TruthLine } from '../truth'
import { type PoolThread, saidThread } from '../world'
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
} from '../writing'
import { sayFacts, widerProse, widerTitles } from './wider-facts'

/** The pools of `widerRanges`, in its order, and the stream of chance. */
export type WiderMeans = {
  random: Random
  silk: PoolThread[]
  wool: PoolThread[]
  dyed: PoolThread[]
  braid: PoolThread[]
  beads: PoolThread[]
}
type Template = (means: WiderMeans) => Written

const signs = [
  '◆',
  '●',
  '▲',
  '■',
  '✿',
  '♪',
  '☼',
  '❖',
  '◎',
  '▽',
  '♢',
  '✕',
  '✱',
  '⊞',
  '⊠',
  '∞',
  '∆',
  'Ω',
  'λ',
  '>',
  '<',
  '^',
  '~',
  '$',
  '?',
  '!',
  'a',
  'e',
  'k',
  'm',
  'r',
  'w',
  '3',
  '5',
  '8',
  '9',
  'E',
  'G',
  'Q',
]
const letters = [...'abcdefghkmnprstuvwxyz']
const symbolsFor = (random: Random, count: number): string[] =>
  random.chance(0.3) && count < 19 ? random.sample(letters, count) : random.sample(signs, count)
const unnamed = (lines: TruthLine[]) => [{ name: null, lines }]
const whole = (lines: TruthLine[], head: ReturnType<typeof sayFacts> | null): TruthDesign[] => [
  { facts: head?.facts ?? noFacts, notAsked: head?.notAsked ?? [], lists: unnamed(lines) },
]
const framed = (random: Random, head: ReturnType<typeof sayFacts> | null, lines: readonly string[]): string =>
  [
    ...(head ? [...head.lines, ''] : []),
    ...(random.chance(0.4) ? [...random.sample(widerProse, random.int(1, 2)), ''] : []),
    ...lines,
    ...(random.chance(0.6) ? ['', ...random.sample(widerProse, random.int(1, 3))] : []),
  ].join('\n')
const maybeHead = (random: Random, share: number) => (random.chance(share) ? sayFacts(random) : null)
const numbers = ['none', 'one', 'two', 'three', 'four'] as const

/** A = 204 Old Brick x2 */
const equals: Template = ({ random, silk }) => {
  const head = maybeHead(random, 0.5)
  const chosen = takeThreads(silk, random.int(8, 20), random)
  const symbols = symbolsFor(random, chosen.length)
  const out = [random.pick(['Brindlequay silk', 'Brindlequay Stranded Silk', 'Silks by Brindlequay'])]
  const isLineSaid = out[0] === 'Brindlequay Stranded Silk'
  const withStrands = random.chance(0.7)
  const lines = chosen.map((thread, at) => {
    const strands = random.pick([1, 2, 2, 3, 4])
    out.push(`${symbols[at]} = ${thread.code} ${thread.name}${withStrands ? ` x${strands}` : ''}`)
    return keyLine({
      symbol: symbols[at],
      threads: [
        saidThread(thread, { maker: true, line: isLineSaid, code: true, name: true, strands: withStrands ? strands : null }),
      ],
    })
  })
  if (withStrands) out.splice(1, 0, '(x = strands in the needle)')
  return { text: framed(random, head, out), designs: whole(lines, head) }
}

/** A table for each kind of stitch, each under its own heading. */
const stitchTables: Template = ({ random, silk }) => {
  const head = sayFacts(random)
  const out: string[] = []
  const lines: TruthLine[] = []
  const parts: [string, Stitch, number][] = [
    ['Full crosses are worked in', 'full', random.int(8, 18)],
    ['Half crosses are worked in', 'half', random.int(0, 3)],
    ['Outlines in backstitch are worked in', 'backstitch', random.int(1, 4)],
    ['French knots are worked in', 'knotOneWrap', random.int(0, 2)],
  ]
  const gap = random.chance(0.5) ? '\t' : null
  for (const [heading, stitch, count] of parts) {
    if (count === 0) continue
    const chosen = takeThreads(silk, count, random)
    const symbols = symbolsFor(random, count)
    const hasSymbol = stitch !== 'backstitch'
    const rows = [[...(hasSymbol ? ['Sign'] : []), 'Strands', 'Maker', 'Shade no.', 'Shade']]
    for (const [at, thread] of chosen.entries()) {
      const strands = stitch === 'full' ? 2 : 1
      rows.push([
        ...(hasSymbol ? [symbols[at] as string] : []),
        String(strands),
        'Brindlequay',
        thread.code,
        thread.name as string,
      ])
      lines.push(
        keyLine({
          symbol: hasSymbol ? symbols[at] : null,
          threads: [saidThread(thread, { maker: true, code: true, name: true, strands })],
          stitches: [stitch],
        }),
      )
    }
    out.push(heading, ...(gap === null ? aligned(rows, 2) : rows.map((row) => row.join(gap))), '')
  }
  return { text: framed(random, head, out), designs: whole(lines, head) }
}

/** Sign;Ref;Shade;Ply;Crosses;Metres with decimal commas. */
const semicolons: Template = ({ random, silk }) => {
  const chosen = takeThreads(silk, random.int(8, 24), random)
  const symbols = symbolsFor(random, chosen.length)
  const withMetres = random.chance(0.6)
  const out = [['Sign', 'Brindlequay ref', 'Shade', 'Ply', ...(withMetres ? ['Metres'] : ['Crosses'])].join(';')]
  const lines = chosen.map((thread, at) => {
    const [strands, count, metres] = [random.pick([1, 2, 3]), drawCount(random), random.int(3, 95) / 10]
    out.push([symbols[at], thread.code, thread.name, strands, withMetres ? String(metres).replace('.', ',') : count].join(';'))
    return keyLine({
      symbol: symbols[at],
      threads: [saidThread(thread, { maker: true, code: true, name: true, strands })],
      amounts: [withMetres ? { kind: 'length', tenths: metresTenths(metres) } : stitchCount('full', count)],
    })
  })
  return { text: out.join('\n'), designs: whole(lines, null) }
}

/** Old Brick ........ Brindlequay 204 ........ 2 */
const leaders: Template = ({ random, silk, wool }) => {
  const head = maybeHead(random, 0.6)
  const out = [random.pick(['Colour ..... Number ..... Skeins', 'Shade list, with the skeins wanted'])]
  const lines = takeThreads([...silk, ...wool], random.int(8, 18), random).map((thread) => {
    const skeins = random.pick([1, 1, 2, 3])
    out.push(
      `${thread.name} ${'.'.repeat(random.int(4, 12))} ${thread.maker} ${thread.code} ${'.'.repeat(random.int(4, 8))} ${skeins}`,
    )
    return keyLine({ threads: [saidThread(thread, { maker: true, code: true, name: true })], amounts: [putUps(skeins)] })
  })
  return { text: framed(random, head, out), designs: whole(lines, head) }
}

/** Symbol and code on one line; name and amounts on the next, set in. */
const twoLineItems: Template = ({ random, silk }) => {
  const head = maybeHead(random, 0.5)
  const chosen = takeThreads(silk, random.int(6, 14), random)
  const symbols = symbolsFor(random, chosen.length)
  const out: string[] = []
  const lines = chosen.map((thread, at) => {
    const [strands, count] = [random.pick([1, 2, 3]), drawCount(random)]
    out.push(
      `${symbols[at]}  Brindlequay ${thread.code}`,
      `     ${thread.name}, ${strands} strand${strands > 1 ? 's' : ''}, ${withCommas(count)} stitches`,
    )
    return keyLine({
      symbol: symbols[at],
      threads: [saidThread(thread, { maker: true, code: true, name: true, strands })],
      amounts: [stitchCount('full', count)],
    })
  })
  return { text: framed(random, head, out), designs: whole(lines, head) }
}

/** Two items in a row, as a magazine sets its key. */
const sideBySide: Template = ({ random, silk }) => {
  const head = maybeHead(random, 0.6)
  const chosen = takeThreads(silk, random.int(4, 9) * 2, random)
  const symbols = symbolsFor(random, chosen.length)
  const half = chosen.length / 2
  const lines = chosen.map((thread, at) =>
    keyLine({
      symbol: symbols[at],
      threads: [saidThread(thread, { maker: true, code: true, name: true, strands: 2 })],
      stitches: ['full'],
    }),
  )
  const cell = (at: number) => [`${symbols[at]}`, chosen[at]?.code as string, chosen[at]?.name as string]
  const rows = Array.from({ length: half }, (_, at) => [...cell(at), ...cell(at + half)])
  const drawn = random.chance(0.5) ? rows.map((row) => row.join('\t')) : aligned(rows, 3)
  const out = [
    random.pick(['Cross stitch in two strands of Brindlequay silk', 'Brindlequay, cross stitch in two strands']),
    ...drawn,
  ]
  return { text: framed(random, head, out), designs: whole(lines, head) }
}

/** One palette, and then another, each under its name. */
const palettesInTurn: Template = ({ random, silk, wool, dyed }) => {
  const head = sayFacts(random)
  const count = random.int(5, 11)
  const symbols = symbolsFor(random, count)
  const isDyed = random.chance(0.5)
  const [plain, other] = [takeThreads(silk, count, random), takeThreads(isDyed ? dyed : wool, count, random)]
  const names = isDyed
    ? ['SILK PALETTE (Brindlequay)', 'HAND-DYED PALETTE (Dunmarrow)']
    : ['Silk version: Brindlequay', 'Wool version: Dunmarrow']
  const out: string[] = []
  const lists = [plain, other].map((threads, listAt) => {
    out.push(names[listAt] as string)
    const lines = symbols.map((symbol, at) => {
      const thread = threads[at] as PoolThread
      out.push(`${symbol}\t${thread.isNamed ? thread.code : `${thread.code} ${thread.name}`}`)
      return keyLine({ symbol, threads: [saidThread(thread, { maker: true, code: true, name: true })] })
    })
    out.push('')
    return { name: names[listAt] as string, lines }
  })
  return { text: framed(random, head, out), designs: [{ facts: head.facts, notAsked: head.notAsked, lists }] }
}

/** Silk: Brindlequay 204 (2 skeins), 17A, 330. Wool: … */
const materials: Template = ({ random, silk, dyed }) => {
  const head = sayFacts(random)
  const chosen = takeThreads(silk, random.int(4, 8), random)
  const lines: TruthLine[] = []
  const said = chosen.map((thread) => {
    const skeins = random.pick([1, 2, 3])
    lines.push(keyLine({ threads: [saidThread(thread, { maker: true, code: true })], amounts: [putUps(skeins)] }))
    return `${thread.code} (${skeins} ${skeins > 1 ? 'skeins' : 'skein'})`
  })
  const out = ['Materials', `Silk: Brindlequay ${said.join(', ')}.`]
  const wools = takeThreads(dyed, random.int(1, 3), random)
  out.push(`Wool: Dunmarrow ${wools.map(({ code }) => code).join(', ')}, one hank of each.`)
  lines.push(...wools.map((thread) => keyLine({ threads: [saidThread(thread, { maker: true })], amounts: [putUps(1)] })))
  return { text: framed(random, head, out), designs: whole(lines, head) }
}

/** ◆ / 204 / Old Brick / 2 str / 310 */
const slashes: Template = ({ random, silk }) => {
  const head = maybeHead(random, 0.5)
  const chosen = takeThreads(silk, random.int(8, 20), random)
  const symbols = symbolsFor(random, chosen.length)
  const mark = random.pick([' / ', ' : ', ' · '])
  const out = [['Symbol', 'Brindlequay', 'shade', 'strands', 'stitches'].join(mark)]
  const lines = chosen.map((thread, at) => {
    const [strands, count] = [random.pick([1, 2, 3]), drawCount(random)]
    out.push([symbols[at], thread.formerCode ?? thread.code, thread.name, `${strands} str`, count].join(mark))
    return keyLine({
      symbol: symbols[at],
      threads: [saidThread(thread, { maker: true, code: thread.formerCode ?? true, name: true, strands })],
      amounts: [stitchCount('full', count)],
    })
  })
  return { text: framed(random, head, out), designs: whole(lines, head) }
}

const outlined = ['the windows', 'roof and chimney', 'the lettering', 'wings', 'the smaller leaves', 'the gate']
/** A list of crosses, and sentences that say what is outlined in what. */
const outlines: Template = ({ random, silk }) => {
  const head = maybeHead(random, 0.5)
  const chosen = takeThreads(silk, random.int(6, 12), random)
  const symbols = symbolsFor(random, chosen.length)
  const out = ['Brindlequay shades', 'Cross stitch, two strands:']
  const lines = chosen.map((thread, at) => {
    out.push(`${symbols[at]} ${thread.code} ${thread.name}`)
    return keyLine({
      symbol: symbols[at],
      threads: [saidThread(thread, { maker: true, code: true, name: true, strands: 2 })],
      stitches: ['full'],
    })
  })
  out.push('Outlines, one strand:')
  for (const what of random.sample(outlined, random.int(1, 3))) {
    const thread = random.pick(silk)
    out.push(random.chance(0.5) ? `${thread.code} ${thread.name} – ${what}` : `${thread.code} ${thread.name} (${what})`)
    lines.push(
      keyLine({ threads: [saidThread(thread, { maker: true, code: true, name: true, strands: 1 })], stitches: ['backstitch'] }),
    )
  }
  return { text: framed(random, head, out), designs: whole(lines, head) }
}

/** A table whose symbol stands last and whose words are others. */
const symbolLast: Template = ({ random, silk, wool }) => {
  const head = maybeHead(random, 0.6)
  const chosen = takeThreads(random.chance(0.5) ? [...silk, ...wool] : silk, random.int(10, 26), random)
  const symbols = symbolsFor(random, chosen.length)
  const isMakerColumn = chosen.some(({ maker }) => maker !== 'Brindlequay')
  const columns = [
    isMakerColumn ? 'Manufacturer' : null,
    random.pick(['Shade no.', 'Ref.', 'Col. no.']),
    random.pick(['Shade', 'Description']),
    random.pick(['Strands used', 'Ply']),
    random.pick(['No. of stitches', 'Crosses', 'Stitch total']),
    random.pick(['Chart symbol', 'Sign', 'Key']),
  ].filter((word) => word !== null)
  const rows = [columns]
  const lines = chosen.map((thread, at) => {
    const [strands, count] = [random.pick([1, 2, 3] as const), drawCount(random)]
    const isWord = random.chance(0.3)
    rows.push([
      ...(isMakerColumn ? [thread.maker] : []),
      thread.code,
      thread.name as string,
      isWord ? numbers[strands] : String(strands),
      random.chance(0.5) ? withCommas(count) : String(count),
      symbols[at] as string,
    ])
    return keyLine({
      symbol: symbols[at],
      threads: [saidThread(thread, { maker: true, code: true, name: true, strands })],
      amounts: [stitchCount('full', count)],
    })
  })
  const shape = random.pick(['tabs', 'blanks', 'bars'] as const)
  const drawn =
    shape === 'tabs'
      ? rows.map((row) => row.join('\t'))
      : shape === 'blanks'
        ? aligned(rows, 2)
        : rows.map((row) => row.join('|'))
  return {
    text: framed(random, head, [
      ...(isMakerColumn ? [] : [random.pick(['Made up in Brindlequay silks', 'All shades are Brindlequay'])]),
      ...drawn,
    ]),
    designs: whole(lines, head),
  }
}

/** Two or three designs of a magazine, the maker said with each. */
const magazine: Template = ({ random, silk, wool }) => {
  const out: string[] = []
  const designs = random.sample(widerTitles, random.int(2, 3)).map((title): TruthDesign => {
    const head = sayFacts(random, title)
    const isSilk = random.chance(0.6)
    const chosen = takeThreads(isSilk ? silk : wool, random.int(4, 9), random)
    const symbols = symbolsFor(random, chosen.length)
    const strands = random.pick([1, 2] as const)
    out.push(
      ...head.lines,
      '',
      `${isSilk ? 'Brindlequay silk' : 'Dunmarrow wool'}; use ${numbers[strands]} strand${strands > 1 ? 's' : ''}`,
    )
    const lines = chosen.map((thread, at) => {
      out.push(`${symbols[at]}   ${thread.name}   ${thread.code}`)
      return keyLine({ symbol: symbols[at], threads: [saidThread(thread, { maker: true, code: true, name: true, strands })] })
    })
    out.push('', ...(random.chance(0.4) ? [random.pick(widerProse), ''] : []))
    return { facts: head.facts, notAsked: head.notAsked, lists: unnamed(lines) }
  })
  return { text: out.join('\n'), designs }
}

/** 4.5 m of Brindlequay 204 (Old Brick) */
const lengthsOf: Template = ({ random, silk, dyed, beads }) => {
  const head = maybeHead(random, 0.6)
  const out = ['This pack holds:']
  const lines = takeThreads([...silk, ...dyed], random.int(5, 12), random).map((thread) => {
    const isShort = random.chance(0.3)
    const metres = isShort ? random.int(4, 18) * 0.05 : random.int(2, 40) / 4
    const said = isShort ? `${Math.round(metres * 100)} cm` : `${metres} m`
    out.push(`${said} of ${thread.maker} ${thread.isNamed ? thread.code : `${thread.code} (${thread.name})`}`)
    return keyLine({
      threads: [saidThread(thread, { maker: true, code: true, name: true })],
      amounts: [{ kind: 'length', tenths: metresTenths(isShort ? Math.round(metres * 100) / 100 : metres) }],
    })
  })
  if (random.chance(0.5)) {
    const bead = random.pick(beads)
    const count = random.int(6, 60)
    out.push(`${count} beads, Varnaby ${bead.code} ${bead.name}`)
    lines.push(
      keyLine({ threads: [saidThread(bead, { maker: true, code: true, name: true })], amounts: [stitchCount('bead', count)] }),
    )
  }
  out.push('two tapestry needles', 'chart and instructions')
  return { text: framed(random, head, out), designs: whole(lines, head) }
}

/** A blend goes on in the next line. */
const blendedWith: Template = ({ random, silk, braid }) => {
  const chosen = takeThreads(silk, random.int(7, 14), random)
  const symbols = symbolsFor(random, chosen.length)
  const out = [
    'Brindlequay unless another maker is named',
    random.pick(['(strands in brackets)', 'Strands are given in brackets.']),
  ]
  const lines = chosen.map((thread, at) => {
    const isBlend = random.chance(0.35)
    const strands = isBlend ? 1 : random.pick([1, 2, 3])
    out.push(`${symbols[at]}  ${thread.code} ${thread.name} (${strands})`)
    const threads = [saidThread(thread, { maker: true, code: true, name: true, strands })]
    if (isBlend) {
      const isBraid = random.chance(0.4)
      const other = random.pick(isBraid ? braid : silk)
      out.push(`   blended with ${isBraid ? 'Marrowgate ' : ''}${other.code} ${other.name} (1)`)
      threads.push(saidThread(other, { maker: true, code: true, name: true, strands: 1 }))
    }
    return keyLine({ symbol: symbols[at], threads })
  })
  return { text: framed(random, null, out), designs: whole(lines, null) }
}

/** Chart no., wool by name, and how much. */
const numberedWools: Template = ({ random, dyed, braid, beads }) => {
  const head = sayFacts(random)
  const rows = [['Chart no.', 'Dunmarrow Hand-dyed Wool', 'Hanks']]
  const lines = takeThreads(dyed, random.int(5, 14), random).map((thread, at) => {
    const hanks = random.pick([1, 1, 2])
    const isHalf = random.chance(0.15)
    rows.push([String(at + 1), thread.code, isHalf ? '½' : String(hanks)])
    return keyLine({
      symbol: String(at + 1),
      threads: [saidThread(thread, { maker: true, line: true })],
      amounts: [putUps(isHalf ? 0.5 : hanks)],
    })
  })
  const out = random.chance(0.5) ? rows.map((row) => row.join('\t')) : aligned(rows, 3)
  const more: [PoolThread[], string, Stitch[] | null, TruthAmount[]][] = [
    [braid, 'Braid', null, []],
    [beads, 'Beads', ['bead'], []],
  ]
  for (const [pool, word, stitches, amounts] of more) {
    if (random.chance(0.5)) continue
    const thread = random.pick(pool)
    out.push('', `${word}: ${thread.maker} ${thread.code}, ${thread.name}`)
    lines.push(
      keyLine({
        threads: [saidThread(thread, { maker: true, line: word === 'Braid', code: true, name: true })],
        stitches,
        amounts,
      }),
    )
  }
  return { text: framed(random, head, out), designs: whole(lines, head) }
}

/** By name, in the order they are dealt out. */
export const widerTemplates: Record<string, Template> = {
  equals,
  'stitch tables': stitchTables,
  semicolons,
  leaders,
  'two-line items': twoLineItems,
  'side by side': sideBySide,
  'palettes in turn': palettesInTurn,
  materials,
  slashes,
  outlines,
  'symbol last': symbolLast,
  magazine,
  'lengths of': lengthsOf,
  'blended with': blendedWith,
  'numbered wools': numberedWools,
}
