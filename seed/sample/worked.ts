import { hanne, shop } from './places'
import type { SampleChart, SampleDesign, SampleKeyLine, SampleList, threadFinder } from './sample-chart'
import { lines } from './threads'

type Find = ReturnType<typeof threadFinder>

type WorkedDesign = Omit<SampleDesign, 'lists'> & {
  chart: Pick<SampleChart, 'title' | 'designer' | 'kind' | 'owner'> & Partial<SampleChart>
  /** Written out by hand; without it a cotton palette of `colours` is drawn. */
  lists?: (find: Find) => SampleList[]
  amounts?: 'counts' | 'skeins' | 'none'
  colours?: number
}

type Size = [width: number, height: number]
const stitches = ([width, height]: Size) => ({
  width: String(width),
  height: String(height),
  widthStitches: width,
  heightStitches: height,
})

const evenweave28 = { count: '28 over 2', stitchesPerInch: 14, cloth: 'Ostravane Evenweave', weave: 'evenweave', insists: false }
const linen32 = { count: '32 over 2', stitchesPerInch: 16, cloth: 'Harrowmere Linen', weave: 'linen', insists: false }

/** The twelve colours of Orchard Gate's cotton list (the last is held nowhere) and the nine of its hand-dyed one. */
export const orchardGateCotton = [
  ...['Moss', 'Fern', 'Deep Ivy', 'Oak', 'Dark Walnut', 'Light Stone'],
  ...['Apricot', 'Deep Brick', 'Pale Flax', 'Willow', 'Bark', 'Light Peony'],
]
export const orchardGateHandDyed = [
  'Orchard Grass',
  'Garden Wall',
  'Green Lane',
  'Acorn Cup',
  'Barrel Oak',
  'Weathered Gate',
  'Cider Press',
  'Apple Store',
  'Linen Press',
]
/** Symbols 10 to 12 share the hand-dyed threads of symbols 1, 4 and 7. */
const sharedHandDyed = [0, 3, 6]

/** The eight threads of Kettle at Wend Cross; stock.ts gives exactly the stock its worked answer needs. */
export const kettleThreads = [
  { line: lines.cotton, code: '0311' },
  { line: lines.cotton, code: 'Ecru' },
  { line: lines.filament, code: '12' },
  { line: lines.cotton, code: '0742' },
  { line: lines.cotton, code: '0087' },
  { line: lines.cotton, code: '1204' },
  { line: lines.handDyed, code: 'Tarn Blue' },
  { line: lines.cotton, code: '0905' },
]

/**
 * 0311 alone 0.6 of a skein and 0.3 in the blend: 0.9, so one skein, not two. Ecru 0.15 of 8 m is 1.2 m.
 */
const kettleLists = (find: Find): SampleList[] => {
  const line = (symbol: string, of: { line: string }, code: string, skeins: string, putUp: string): SampleKeyLine => ({
    ...{ symbol, skeins, putUp },
    threads: [{ thread: find(of, code), strands: 2 }],
  })
  return [
    {
      name: '',
      keyLines: [
        line('●', lines.cotton, '0311', '0.6', '8 m'),
        {
          symbol: '◆',
          skeins: '0.3+0.1',
          threads: [
            { thread: find(lines.cotton, '0311'), strands: 1 },
            { thread: find(lines.filament, '12'), strands: 1 },
          ],
        },
        line('○', lines.cotton, 'Ecru', '0.15', '8 m'),
        line('■', lines.cotton, '0742', '2', '8 m'),
        line('▲', lines.cotton, '0087', '1', '8 m'),
        line('▼', lines.cotton, '1204', '1', '8 m'),
        line('★', lines.handDyed, 'Tarn Blue', '2', '5 yd'),
        line('×', lines.cotton, '0905', '1', '8 m'),
      ],
    },
  ]
}

const lanternLists = (find: Find): SampleList[] => {
  const counted = (symbol: string, of: { line: string }, code: string, strands: number, full: number): SampleKeyLine => ({
    ...{ symbol, tally: { Full: full } },
    threads: [{ thread: find(of, code), strands }],
  })
  return [
    {
      name: '',
      keyLines: [
        counted('●', lines.cotton, '0311', 2, 940),
        counted('■', lines.cotton, '0742', 2, 455),
        counted('○', lines.cotton, 'Ecru', 2, 270),
        counted('★', lines.handDyed, 'Tarn Blue', 2, 360),
        counted('◆', lines.filament, '12', 1, 190),
      ],
    },
  ]
}

const orchardLists = (find: Find): SampleList[] => {
  const symbols = [...'●■▲◆★▼×○□△◇☆']
  const line = (at: number, of: { line: string }, code: string, putUp: string): SampleKeyLine => ({
    ...{ symbol: symbols[at] as string, skeins: '1', putUp },
    threads: [{ thread: find(of, code), strands: 2 }],
  })
  return [
    { name: 'Cotton', keyLines: orchardGateCotton.map((name, at) => line(at, lines.cotton, name, '8 m')) },
    {
      name: 'Hand-dyed',
      keyLines: symbols.map((_, at) => {
        const shared = at < 9 ? at : (sharedHandDyed[at - 9] as number)
        const skeins = at >= 9 || sharedHandDyed.includes(at) ? '1/2' : '1'
        return { ...line(at, lines.handDyed, orchardGateHandDyed[shared] as string, '5 yd'), skeins }
      }),
    },
  ]
}

/** Designs whose figures are worked through by hand elsewhere; every number here is fixed. */
export const workedDesigns: WorkedDesign[] = [
  {
    chart: { title: 'Kettle at Wend Cross', designer: 'Mirabel Stoat', kind: 'leaflet', owner: shop, place: 'R2-3', copies: 3 },
    ...{ title: 'Kettle at Wend Cross', season: 'Winter', subject: 'kitchen; houses', form: 'picture', cover: 'picture' },
    ...stitches([112, 84]),
    ...evenweave28,
    lists: kettleLists,
  },
  {
    chart: { title: 'Rook Hill in Snow', designer: 'Corvin Ashdale', kind: 'leaflet', owner: shop, place: 'R2-3', copies: 4 },
    ...{ title: 'Rook Hill in Snow', season: 'Winter', subject: 'birds; trees', form: 'picture', cover: 'picture' },
    ...stitches([140, 98]),
    ...evenweave28,
    colours: 14,
  },
  {
    chart: { title: 'The Ropewalk Sampler', designer: 'Brackwater Samplers', kind: 'leaflet', owner: hanne },
    ...{ title: 'The Ropewalk Sampler', season: '', subject: 'alphabets; boats', form: 'band sampler', cover: 'band sampler' },
    ...stitches([96, 312]),
    ...linen32,
    colours: 9,
  },
  {
    chart: { title: 'Seven Lanterns', designer: 'Dorrit Quayle', kind: 'card', owner: shop, copies: 13 },
    ...{ title: 'Seven Lanterns', season: 'Christmas; Midwinter', subject: 'night', form: 'ornament', cover: 'picture' },
    ...stitches([84, 84]),
    ...evenweave28,
    lists: lanternLists,
  },
  {
    chart: { title: 'Orchard Gate', designer: 'Josune Applegarth', kind: 'leaflet', owner: hanne },
    ...{ title: 'Orchard Gate', season: 'Spring', subject: 'trees; fruit', form: 'picture', cover: 'picture' },
    ...stitches([126, 98]),
    ...linen32,
    lists: orchardLists,
  },
  {
    chart: { title: 'Geese over Tarnbeck', designer: 'Corvin Ashdale', kind: 'leaflet', owner: hanne },
    ...{ title: 'Geese over Tarnbeck', season: 'Autumn', subject: 'birds', form: 'picture', cover: 'full' },
    ...stitches([115, 98]),
    ...evenweave28,
    colours: 13,
  },
  {
    chart: { title: 'Wheel of Hours', designer: 'Saskia Thrupp', kind: 'leaflet', owner: shop, copies: 2 },
    ...{ title: 'Wheel of Hours', season: '', subject: 'night; numbers', form: 'picture', cover: 'picture' },
    ...stitches([128, 128]),
    ...linen32,
    colours: 10,
    amounts: 'skeins',
  },
  {
    chart: {
      title: 'Wick Lane',
      designer: 'Wick and Wicket',
      kind: 'file',
      owner: hanne,
      note: 'A file for one person; not to be lent',
    },
    ...{ title: 'Wick Lane', season: 'Autumn', subject: 'houses; night', form: 'picture', cover: 'picture' },
    ...stitches([150, 70]),
    ...linen32,
    colours: 11,
    amounts: 'none',
  },
  {
    chart: {
      ...{ title: 'The Salt Road', designer: 'Peregrine Tolliver', kind: 'issue', owner: hanne, partsHeld: 3, partsNeeded: 4 },
      note: 'Part 4 still wanted; the key is in part 1',
    },
    ...{ title: 'The Salt Road', season: '', subject: 'travel; sea', form: 'picture', cover: 'full' },
    ...stitches([210, 160]),
    ...{ count: '16 over 1', stitchesPerInch: 16, cloth: 'Stennick Aida', weave: 'aida', insists: false },
    colours: 28,
    amounts: 'skeins',
  },
]
