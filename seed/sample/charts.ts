import { type Random, seededRandom } from '../random'
import { type SampleTally, sampleNeedM } from './need'
import { hanne, shop } from './places'
import { type SampleChart, type SampleDesign, type SampleKeyLine, type SampleList, threadFinder } from './sample-chart'
import { lines, type SampleThread } from './threads'
import { bookletTitles, designerPalettes, singleTitles, titleRows, twoListTitles, unlistedTitles } from './titles'
import { workedDesigns } from './worked'

/** Smallest and largest width, height and number of colours of a form, and how much of its outline is stitched. */
const forms: Record<
  string,
  { width: [number, number]; height: [number, number] | 'square'; colours: [number, number]; cover: string }
> = {
  picture: { width: [90, 200], height: [80, 180], colours: [9, 20], cover: 'picture' },
  'full coverage picture': { width: [160, 260], height: [120, 220], colours: [26, 40], cover: 'full' },
  ornament: { width: [48, 84], height: 'square', colours: [4, 8], cover: 'picture' },
  'spot sampler': { width: [120, 200], height: [120, 220], colours: [8, 15], cover: 'motif sampler' },
  'band sampler': { width: [70, 130], height: [180, 340], colours: [8, 16], cover: 'band sampler' },
  'house sampler': { width: [110, 190], height: [120, 200], colours: [8, 15], cover: 'motif sampler' },
  'alphabet sampler': { width: [80, 160], height: [100, 200], colours: [3, 8], cover: 'motif sampler' },
  'bell pull': { width: [44, 70], height: [220, 320], colours: [6, 12], cover: 'band sampler' },
  pillow: { width: [80, 130], height: [60, 100], colours: [5, 9], cover: 'picture' },
  needlebook: { width: [50, 80], height: [50, 70], colours: [3, 7], cover: 'motif sampler' },
  biscornu: { width: [48, 70], height: 'square', colours: [2, 5], cover: 'picture' },
  drum: { width: [140, 180], height: [30, 44], colours: [4, 7], cover: 'motif sampler' },
  'box top': { width: [70, 110], height: 'square', colours: [5, 9], cover: 'picture' },
}
export const coverShares: Record<string, number> = { 'band sampler': 0.35, 'motif sampler': 0.275, picture: 0.6, full: 1 }

type Ground = [count: string, stitchesPerInch: number, cloth: string, weave: string]
const grounds: (readonly [Ground, number])[] = [
  [['28 over 2', 14, 'Ostravane Evenweave', 'evenweave'], 7],
  [['32 over 2', 16, 'Harrowmere Linen', 'linen'], 7],
  [['36 over 2', 18, 'Harrowmere Linen', 'linen'], 4],
  [['40 over 2', 20, 'Harrowmere Linen', 'linen'], 2],
  [['110/10cm over 2', 13.97, 'Ostravane Evenweave', 'evenweave'], 2],
  [['14 over 1', 14, 'Stennick Aida', 'aida'], 5],
  [['16 over 1', 16, 'Stennick Aida', 'aida'], 4],
  [['18 over 1', 18, 'Stennick Aida', 'aida'], 1],
]

const symbols = [...'●■▲◆★▼×○□△◇☆/\\◐#%&◑ABCDEFGHKLMNPRSTUVWXYZ23456789'] as const

type Amounts = 'counts' | 'skeins' | 'none'

/** The threads a palette is drawn from: whole neighbourhoods of a line, so that colours go together. */
function drawPalette(
  random: Random,
  threads: SampleThread[],
  kind: 'cotton' | 'handDyed' | 'silk',
  count: number,
): SampleThread[] {
  const of = threads.filter(({ line }) => line === lines[kind])
  const runs = random.shuffle([...new Set(of.map(({ run }) => run))])
  const perRun = kind === 'silk' ? 3 : kind === 'handDyed' ? Math.ceil(count / 2) : random.int(2, 4)
  const drawn = runs.flatMap((run) =>
    random.sample(
      of.filter((thread) => thread.run === run),
      perRun,
    ),
  )
  return drawn.slice(0, count)
}

/** Share `total` out by random weights so that the parts sum back to it, the largest first. */
function shareOut(random: Random, total: number, parts: number): number[] {
  const weights = Array.from({ length: parts }, () => 0.12 + random.next() ** 2).sort((one, other) => other - one)
  const sum = weights.reduce((one, other) => one + other, 0)
  const shares = weights.map((weight) => Math.floor((total * weight) / sum))
  shares[0] = (shares[0] ?? 0) + total - shares.reduce((one, other) => one + other, 0)
  return shares
}

function statedSkeins(random: Random, needM: number, thread: SampleThread, strands: number): string {
  const share = needM / (thread.line.putUpM * thread.line.strands)
  if (strands === 1 && thread.line.strands === 1) return '1'
  if (share <= 0.45 && random.chance(0.3)) return '1/2'
  return String(Math.ceil(share))
}

/** Fill a palette with amounts. `skeins` are what the counts would need, rounded up as a leaflet does. */
function makeKeyLines(
  random: Random,
  design: Pick<SampleDesign, 'widthStitches' | 'heightStitches' | 'cover' | 'stitchesPerInch' | 'season' | 'form'>,
  palette: SampleThread[],
  amounts: Amounts,
  find: ReturnType<typeof threadFinder>,
): SampleKeyLine[] {
  const total = Math.round(
    design.widthStitches * design.heightStitches * (coverShares[design.cover] ?? 0.5) * (0.9 + 0.2 * random.next()),
  )
  const strands = design.stitchesPerInch > 19 ? 1 : 2
  const counts = shareOut(random, total, palette.length)
  const isWintry = /Winter|Christmas|Midwinter/.test(design.season)
  const blendAt = palette.length > 4 && random.chance(isWintry ? 0.5 : 0.08) ? random.int(1, palette.length - 1) : -1
  const outlineAt = random.chance(0.4)
    ? palette.reduce((darkest, { lab }, at) => (lab[0] < (palette[darkest]?.lab[0] ?? 0) ? at : darkest), 0)
    : -1
  const hasBeads = design.form === 'ornament' ? random.chance(0.3) : random.chance(0.07)

  const keyLines = palette.map((thread, at): SampleKeyLine => {
    const tally: SampleTally = { Full: counts[at] as number }
    if (random.chance(0.1)) tally.Quarter = random.int(4, 40)
    if (random.chance(0.08)) tally['Three-quarter'] = random.int(4, 30)
    if (random.chance(0.06)) tally.Half = random.int(20, 120)
    if (at === outlineAt) tally.Backstitch = Math.round((design.widthStitches + design.heightStitches) * (0.5 + random.next()))
    if (at === outlineAt && random.chance(0.4)) tally['Knots (one wrap)'] = random.int(4, 30)
    if (hasBeads && at === 0) tally.Beads = 10 * random.int(2, 9)
    const inNeedle = [{ thread, strands }]
    if (at === blendAt) {
      inNeedle.splice(0, 1, { thread, strands: 1 }, { thread: find(lines.filament, isWintry ? '12' : '20'), strands: 1 })
    }
    const symbol = symbols[at % symbols.length] as string
    if (amounts === 'counts') return { symbol, threads: inNeedle, tally }
    if (amounts === 'none') return { symbol, threads: inNeedle }
    const skeins = inNeedle
      .map((one) => statedSkeins(random, sampleNeedM(tally, one.strands, design.stitchesPerInch), one.thread, one.strands))
      .join('+')
    return {
      symbol,
      threads: inNeedle,
      skeins,
      putUp: inNeedle.length === 1 && random.chance(0.5) ? thread.line.putUp : undefined,
    }
  })
  if (hasBeads) {
    const bead = find(lines.beads, random.pick(['B-01', 'B-02', 'B-05', 'B-09', 'B-17', 'B-31', 'B-41', 'B-52']))
    keyLines.push({ symbol: 'bead', threads: [{ thread: bead, strands: 1 }], skeins: '1' })
  }
  return keyLines
}

function makeDesign(
  random: Random,
  base: Pick<SampleDesign, 'title' | 'season' | 'subject' | 'form'>,
  isMeasured: boolean,
): SampleDesign {
  const form = forms[base.form]
  if (!form) throw new RangeError(`makeDesign: no form ${base.form}`)
  const widthStitches = random.int(...form.width)
  const heightStitches = form.height === 'square' ? widthStitches : random.int(...form.height)
  const [count, stitchesPerInch, cloth, weave] = random.weighted(grounds)
  const inches = (stitchCount: number) => Math.round((stitchCount / stitchesPerInch) * 4) / 4
  const printed = (stitchCount: number) => (isMeasured ? `${inches(stitchCount)} in` : String(stitchCount))
  return {
    ...base,
    form: base.form === 'full coverage picture' ? 'picture' : base.form,
    cover: form.cover,
    width: printed(widthStitches),
    height: printed(heightStitches),
    widthStitches,
    heightStitches,
    count,
    stitchesPerInch,
    cloth,
    weave,
    insists: random.chance(0.05),
    lists: [],
  }
}

/** A second palette in hand-dyed thread: about three quarters as many colours, some symbols sharing one. */
function makeHandDyedList(random: Random, cotton: SampleKeyLine[], threads: SampleThread[]): SampleList {
  const count = Math.max(3, Math.round(cotton.length * 0.75))
  const palette = drawPalette(random, threads, 'handDyed', count)
  return {
    name: 'Hand-dyed',
    keyLines: cotton
      .filter(({ threads: inNeedle }) => inNeedle[0]?.thread.line !== lines.beads)
      .map((keyLine, at) => {
        const strands = keyLine.threads.reduce((sum, one) => sum + one.strands, 0)
        return {
          ...keyLine,
          skeins: keyLine.skeins && '1',
          putUp: keyLine.skeins && '5 yd',
          threads: [{ thread: palette[at % count] as SampleThread, strands }],
        }
      }),
  }
}

const day = (random: Random, from: string, to: string) => {
  const low = Date.parse(from)
  return new Date(low + random.int(0, (Date.parse(to) - low) / 86_400_000) * 86_400_000).toISOString().slice(0, 10)
}

function shelve(owner: string, kind: string, design: Pick<SampleDesign, 'form' | 'season' | 'subject'>): string {
  if (owner === hanne) {
    if (kind === 'file') return "Hanne's downloads"
    return kind === 'booklet' || kind === 'issue' ? 'Chart rack' : 'Chart box'
  }
  if (kind === 'file') return 'Shop files'
  if (kind === 'booklet') return 'R3'
  if (kind === 'kit') return 'R4'
  if (design.form === 'band sampler' || design.form === 'bell pull') return 'R1-1'
  if (design.form === 'spot sampler' || design.form === 'house sampler') return 'R1-2'
  if (design.form === 'alphabet sampler' || /verse/.test(design.subject)) return 'R1-3'
  if (/Winter|Christmas|Midwinter|Advent/.test(design.season)) return 'R2-3'
  if (/Autumn|Harvest/.test(design.season)) return 'R2-2'
  if (/Spring|Summer|Easter/.test(design.season)) return 'R2-1'
  return 'R4'
}

const prices: Record<string, [number, number]> = {
  card: [4, 7],
  leaflet: [8, 14],
  booklet: [16, 26],
  issue: [5, 7],
  kit: [28, 45],
  file: [6, 11],
}

/** Where a chart is when it is not at home. */
const chartsOut: Record<string, { nowAt: string; note: string }> = {
  'Hollin Staithe Alphabets': { nowAt: 'Ines Coldwell', note: 'Lent 2026-11-03 for eight weeks' },
  'Nine Wrens': { nowAt: 'K-07', note: 'In the kit bag' },
  'The Tallow House': { nowAt: 'Petra Lisle', note: 'Model for the winter window' },
  'Geese over Tarnbeck': { nowAt: 'H-01', note: 'In the blue project bag' },
  'Frost on the Staithe': { nowAt: 'K-02', note: 'In the kit bag' },
}

const joinCells = (cell: string) =>
  cell
    .split(';')
    .map((part) => part.trim())
    .filter(Boolean)
    .join('; ')

/** All charts of the sample with their designs and lists, the worked ones first. */
export function listSampleCharts(threads: SampleThread[]): SampleChart[] {
  const random = seededRandom('oxmarsh charts')
  const find = threadFinder(threads)
  const ownerOf = (letter: string | undefined) => (letter === 'S' ? shop : hanne)

  const drafts = [
    ...titleRows(singleTitles, 7).map(([owner, title = '', designer = '', kind = '', season = '', subject = '', form = '']) => ({
      ...{ owner: ownerOf(owner), title, designer, kind, season, subject },
      designs: [{ title, form }],
    })),
    ...titleRows(bookletTitles, 6).map(([owner, title = '', designer = '', season = '', subject = '', inside = '']) => ({
      ...{ owner: ownerOf(owner), title, designer, kind: 'booklet', season, subject },
      designs: inside.split(';').map((one) => {
        const [, name = '', form = ''] = /^\s*(.+) \((.+)\)\s*$/.exec(one) ?? []
        return { title: name, form }
      }),
    })),
  ]

  const designCount = drafts.reduce((sum, { designs }) => sum + designs.length, 0)
  const amountsByTurn = random.shuffle(
    Array.from(
      { length: designCount },
      (_, at): Amounts => (at < 0.49 * designCount ? 'counts' : at < 0.82 * designCount ? 'skeins' : 'none'),
    ),
  )
  let turn = 0

  const made = drafts.map((draft): SampleChart => {
    const designs = draft.designs.map(({ title, form }) => {
      const amounts = amountsByTurn[turn++] as Amounts
      const isMeasured = amounts !== 'counts' && draft.designs.length === 1 && random.chance(0.12)
      const seasons = draft.season.split(';')
      const season =
        seasons.length === draft.designs.length
          ? (seasons[draft.designs.findIndex((one) => one.title === title)] as string)
          : draft.season
      const design = makeDesign(random, { title, season: joinCells(season), subject: joinCells(draft.subject), form }, isMeasured)
      const hasTwoLists = twoListTitles.includes(title)
      if (unlistedTitles.includes(title)) return design
      const kind = designerPalettes[draft.designer] ?? 'cotton'
      const colours = random.int(...(forms[form] as (typeof forms)[string]).colours)
      const palette =
        kind === 'mixed'
          ? [...drawPalette(random, threads, 'cotton', colours - 2), ...drawPalette(random, threads, 'handDyed', 2)]
          : drawPalette(random, threads, kind, colours)
      const keyLines = makeKeyLines(random, design, palette, amounts, find)
      design.lists.push({ name: hasTwoLists ? 'Cotton' : '', keyLines })
      if (hasTwoLists) design.lists.push(makeHandDyedList(random, keyLines, threads))
      return design
    })
    const [cheap, dear] = prices[draft.kind] as [number, number]
    const out = chartsOut[draft.title]
    return {
      title: draft.title,
      designer: draft.designer,
      kind: draft.kind,
      owner: draft.owner,
      place: shelve(draft.owner, draft.kind, designs[0] as SampleDesign),
      nowAt: out?.nowAt,
      note: out?.note,
      copies: draft.owner === shop && draft.kind !== 'file' ? random.int(1, 6) : 1,
      edition: random.chance(0.06) ? 'second printing' : undefined,
      bought: day(random, draft.owner === shop ? '2024-01-08' : '2017-03-01', '2026-10-30'),
      price: `${random.int(cheap, dear)}.${random.pick(['00', '50', '95'])}`,
      designs,
    }
  })

  const worked = workedDesigns.map((design): SampleChart => {
    const { chart, lists, amounts, colours = 12, ...rest } = design
    const season = { season: design.season, form: design.form }
    const made: SampleDesign = { ...rest, lists: [] }
    if (lists) made.lists.push(...lists(find))
    else
      made.lists.push({
        name: '',
        keyLines: makeKeyLines(
          random,
          { ...made, ...season },
          drawPalette(random, threads, 'cotton', colours),
          amounts ?? 'counts',
          find,
        ),
      })
    const [cheap, dear] = prices[chart.kind] as [number, number]
    const out = chartsOut[chart.title]
    return {
      ...{ copies: 1, price: `${random.int(cheap, dear)}.50`, bought: day(random, '2023-01-08', '2026-10-30') },
      ...{ nowAt: out?.nowAt, note: out?.note, place: shelve(chart.owner, chart.kind, made) },
      ...chart,
      designs: [made],
    }
  })
  return [...worked, ...made]
}
