import { seededRandom } from '../random'
import { coverShares } from './charts'
import type { SampleRow } from './csv'
import { hanne, shop } from './places'
import type { SampleChart } from './sample-chart'
import type { SampleThread } from './threads'

export const projectColumns = [
  ...(['Design', 'Chart', 'List', 'Owner', 'Cloth', 'Status', 'Place', 'For', 'Started', 'Finished', 'Due'] as const),
  ...(['Hours', 'Stitches done', 'Finishing', 'Note'] as const),
] as const
type ProjectRow = SampleRow<(typeof projectColumns)[number]>

/** Projects that are not finished, by design title. */
const openProjects: ProjectRow[] = [
  {
    ...{ Design: 'Nine Wrens', List: 'Cotton', Owner: shop, Cloth: 'E-03', Status: 'stitching', Place: 'K-07' },
    ...{ Started: '2026-09-14', Due: '2027-01-08', Hours: 31.5, 'Stitches done': 3150, Note: 'Shop model' },
  },
  {
    ...{ Design: 'The Tallow House', List: 'Cotton', Owner: shop, Cloth: 'L-02', Status: 'stitching', Place: 'Petra Lisle' },
    ...{ Started: '2026-10-05', Due: '2026-12-18', Hours: 22, 'Stitches done': 2300, Note: 'Model for the winter window' },
  },
  {
    ...{ Design: 'Frost on the Staithe', Owner: shop, Cloth: 'L-03', Status: 'kitted', Place: 'K-02' },
    ...{ Due: '2027-02-12', Finishing: 'framed', Note: 'Goes to Petra after the Tallow House' },
  },
  { Design: 'Kettle at Wend Cross', Owner: shop, Status: 'planned', Place: 'K-03', Note: 'Threads not pulled yet' },
  {
    Design: 'Seven Lanterns',
    Owner: shop,
    Status: 'planned',
    Due: '2026-12-05',
    Finishing: 'ornament',
    Note: 'Class, twelve and one spare',
  },
  {
    ...{ Design: 'Geese over Tarnbeck', Owner: hanne, Cloth: 'HE-02', Status: 'stitching', Place: 'H-01', For: 'Ines Coldwell' },
    ...{ Started: '2026-05-02', Due: '2026-12-01', Hours: 78, 'Stitches done': 6900, Finishing: 'framed' },
  },
  {
    ...{ Design: 'Larch in October', List: 'Hand-dyed', Owner: hanne, Status: 'stitching', Place: 'H-03' },
    ...{ Started: '2026-10-11', Hours: 9.5, 'Stitches done': 880 },
  },
  {
    ...{ Design: 'Map of Upper Quennow', Owner: hanne, Status: 'resting', Place: 'H-02' },
    ...{ Started: '2023-02-18', Hours: 140, 'Stitches done': 15200, Note: 'Resting since the spring of 2025' },
  },
  { Design: 'The Ropewalk Sampler', Owner: hanne, Status: 'wanted', Note: 'On the 34 by 31 linen, if it fits' },
  { Design: 'Orchard Gate', List: 'Hand-dyed', Owner: hanne, Status: 'planned', Due: '2027-04-20' },
  { Design: 'Star over the Fold', Owner: hanne, Status: 'wanted' },
  {
    ...{
      Design: 'Night Train to Tarnbeck',
      Owner: hanne,
      Status: 'abandoned',
      Started: '2024-01-13',
      Hours: 26,
      'Stitches done': 2700,
    },
    Note: 'Too much dark blue by lamplight',
  },
  {
    ...{ Design: 'Hearth and Heron', List: 'Cotton', Owner: hanne, Status: 'stitched', Place: 'Maud Ferriby' },
    ...{ Started: '2026-03-08', Finished: '2026-10-28', Hours: 96, 'Stitches done': 9400, Finishing: 'framed' },
  },
  {
    ...{ Design: 'Silver Bell Ornament', Owner: shop, Status: 'stitched', Place: 'Abel Crome' },
    ...{ Started: '2026-10-19', Finished: '2026-11-06', Hours: 18, 'Stitches done': 1700, Finishing: 'ornament' },
  },
]

/** Which open projects have their threads in a bag or with a person. */
const kitted = ['Nine Wrens', 'The Tallow House', 'Frost on the Staithe', 'Geese over Tarnbeck', 'Larch in October']

/** Designs Hanne has bought every thread for. */
const gathered = [
  ...[
    'Moth and Candle',
    'Small Blue Ship',
    'The Quiet Sampler',
    'Easter Basket',
    'Scissor Keep',
    'The Red Cow',
    'The Last Lantern',
  ],
  ...['Thread Winder', 'Gull Alphabet', 'Evening Primrose', 'Speckled Eggs'],
]

const threadsOf = (charts: SampleChart[], title: unknown, listName: unknown): SampleThread[] => {
  const lists = charts.flatMap((chart) => chart.designs).find((design) => design.title === title)?.lists ?? []
  const list = lists.find(({ name }) => name === listName) ?? lists[0]
  return [...new Set(list?.keyLines.flatMap((keyLine) => keyLine.threads.map(({ thread }) => thread)))]
}

/** The threads of the designs Hanne has gathered everything for. */
export const listGathered = (charts: SampleChart[]): { threads: SampleThread[]; owner: string }[] =>
  gathered.map((title) => ({ threads: threadsOf(charts, title, undefined), owner: hanne }))

/** The threads that are out with a project, and where. */
export const listKits = (charts: SampleChart[]): { threads: SampleThread[]; owner: string; nowAt: string }[] =>
  openProjects
    .filter(({ Design }) => kitted.includes(String(Design)))
    .map(({ Design, List, Owner, Place }) => ({
      threads: threadsOf(charts, Design, List),
      owner: String(Owner),
      nowAt: String(Place),
    }))

const finishings: Record<string, string[]> = {
  ornament: ['ornament', 'flat-fold', 'ornament'],
  pillow: ['pillow'],
  needlebook: ['needlebook'],
  biscornu: ['biscornu'],
  drum: ['drum'],
  'box top': ['box top'],
  'bell pull': ['bell pull'],
}

const dayMs = 86_400_000
const dateText = (ms: number) => new Date(ms).toISOString().slice(0, 10)

/** Finishes from December 2024 to November 2026, one to three a month, then the open projects. */
export function listProjectRows(charts: SampleChart[]): ProjectRow[] {
  const random = seededRandom('oxmarsh projects')
  const openTitles = new Set(openProjects.map(({ Design }) => Design))
  const candidates = random.shuffle(
    charts.flatMap((chart) =>
      chart.designs
        .filter(
          ({ title, cover, lists }) =>
            !openTitles.has(title) && cover !== 'full' && lists.length > 0 && chart.partsNeeded === undefined,
        )
        .map((design) => ({ chart, design })),
    ),
  )
  const finishes: ProjectRow[] = []
  for (let month = 0; month < 24; month++) {
    const inMonth = random.int(1, 2)
    for (let turn = 0; turn < inMonth; turn++) {
      const next = candidates.pop()
      if (!next) throw new RangeError('listProjectRows: no designs left to finish')
      const { chart, design } = next
      const finished = Date.UTC(2024, 11 + month, random.int(1, month === 23 ? 22 : 28))
      const stitches = Math.round(design.widthStitches * design.heightStitches * (coverShares[design.cover] ?? 0.5))
      const isOld = month < 22
      finishes.push({
        ...{ Design: design.title, Chart: chart.title, List: design.lists[0]?.name || undefined, Owner: chart.owner },
        Status: isOld || design.form === 'ornament' ? 'finished' : 'stitched',
        For: random.weighted<string | undefined>([
          [undefined, 5],
          ['shop window', chart.owner === shop ? 4 : 0],
          ['Ines Coldwell', chart.owner === hanne ? 1 : 0],
          ['guild table', 1],
        ]),
        Started: dateText(finished - dayMs * Math.max(6, Math.round((stitches / random.int(1400, 2600)) * 7))),
        Finished: dateText(finished),
        Hours: Math.round((stitches / random.int(80, 120)) * 2) / 2,
        'Stitches done': stitches,
        Finishing: random.pick(finishings[design.form] ?? ['framed', 'framed', 'framed', 'pillow', 'flat-fold']),
      })
    }
  }
  const chartOf = (title: unknown) => charts.find(({ designs }) => designs.some((design) => design.title === title))?.title
  return [
    ...finishes.sort((one, other) => (String(one.Finished) < String(other.Finished) ? -1 : 1)),
    ...openProjects.map((row) => ({ ...row, Chart: chartOf(row.Design) })),
  ]
}
