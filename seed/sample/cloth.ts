import { seededRandom } from '../random'
import type { SampleRow } from './csv'
import { hanne, shop } from './places'

export const clothColumns = [
  ...([
    'Owner',
    'Label',
    'Maker',
    'Cloth',
    'Weave',
    'Count',
    'Count known',
    'Colour',
    'Dyed',
    'Size',
    'Squared',
    'May turn',
    'One way because',
    'Washed',
    'Place',
    'Now at',
  ] as const),
  ...(['L', 'a', 'b', 'Note'] as const),
] as const
type ClothRow = SampleRow<(typeof clothColumns)[number]>

const colours: [name: string, L: number, a: number, b: number][] = [
  ['White', 95, 0, 2],
  ['Antique White', 91, 0.5, 7],
  ['Natural', 72, 2.5, 13],
  ['Cream', 92, -0.5, 13],
  ['Oatmeal', 78, 1.5, 12],
  ['Pale Grey', 80, 0, 1],
  ['Blue Grey', 66, -2, -7],
  ['Parchment', 85, 1.5, 16],
  ['Pale Pink', 85, 8, 5],
  ['Willow Green', 74, -8, 12],
  ['Night Blue', 26, 1, -18],
  ['Black', 17, 0, 0],
]

const undyed = new Set(['White', 'Antique White', 'Natural', 'Oatmeal'])
const handDyed = new Set(['Parchment', 'Willow Green', 'Night Blue', 'Blue Grey'])

const counts = {
  aida: ['14', '14', '16', '16', '18'],
  evenweave: ['25', '28', '28', '28', '110/10cm'],
  linen: ['28', '32', '32', '32', '36', '36', '40', '31 x 33', '35 x 36', '126/10cm'],
}
const makers = { aida: 'Stennick Mill', evenweave: 'Ostravane', linen: 'Harrowmere Looms' }
const cloths = { aida: 'Stennick Aida', evenweave: 'Ostravane Evenweave', linen: 'Harrowmere Linen' }
const shelves = { aida: 'C1', evenweave: 'C2', linen: 'C3' }
const letters = { aida: 'A', evenweave: 'E', linen: 'L' }
type Weave = keyof typeof counts

const sizes: (readonly [string, number])[] = [
  ['18 x 27 in', 5],
  ['13 x 18 in', 4],
  ['36 x 27 in', 2],
  ['36 x 55 in', 1],
  ['50 x 70 cm', 2],
  ['17 1/2 x 26 1/2 in', 2],
  ['12.75 x 17.5 in', 1],
]
const offcutSizes = [
  '9 x 13 in',
  '7 x 18 in',
  '11 x 8 in',
  '6 1/2 x 17 1/2 in',
  '10 x 10 in',
  '12 x 9 1/4 in',
  '24 x 18 cm',
  '8 x 20 in',
]

/** Pieces with a story: the measured ones of the worked examples, and what is out. */
const namedPieces: ClothRow[] = [
  {
    ...{ Owner: hanne, Label: 'HL-01', Maker: 'Harrowmere Looms', Cloth: 'Harrowmere Linen', Weave: 'linen', Count: '34 x 31' },
    ...{ Colour: 'Natural', Size: '18 x 27 in', Squared: 'yes', 'May turn': 'no', Place: 'Cloth trunk', L: 72, a: 2.5, b: 13 },
    Note: 'Counted in three places: 34 ends, 31 picks',
  },
  {
    ...{ Owner: shop, Label: 'E-01', Maker: 'Ostravane', Cloth: 'Ostravane Evenweave', Weave: 'evenweave', Count: '28' },
    ...{ Colour: 'Pale Grey', Size: '12.75 x 17.5 in', Squared: 'yes', Place: 'C2', L: 80, a: 0, b: 1 },
    Note: 'Sold as a fat eighth, squared',
  },
  {
    ...{ Owner: shop, Label: 'L-01', Maker: 'Harrowmere Looms', Cloth: 'Harrowmere Linen', Weave: 'linen', Count: '32 x 30.5' },
    ...{ Colour: 'Antique White', Size: '18 x 26 1/2 in', Squared: 'yes', 'May turn': 'no', Place: 'C3', L: 91, a: 0.5, b: 7 },
    Note: 'Came unmarked; counted over two inches, 64 across and 61 down',
  },
  {
    ...{ Owner: shop, Label: 'E-02', Maker: 'Ostravane', Cloth: 'Ostravane Evenweave', Weave: 'evenweave', Count: '28' },
    ...{ Colour: 'Antique White', Size: '36 x 55 in', Squared: 'no', Place: 'C2', L: 91, a: 0.5, b: 7 },
  },
  {
    ...{ Owner: hanne, Label: 'HE-02', Maker: 'Ostravane', Cloth: 'Ostravane Evenweave', Weave: 'evenweave', Count: '28' },
    ...{ Colour: 'Blue Grey', Size: '16 x 14 in', Squared: 'yes', Place: 'Cloth trunk', 'Now at': 'H-01', L: 66, a: -2, b: -7 },
    Note: 'Geese over Tarnbeck is on it',
  },
  {
    ...{ Owner: shop, Label: 'E-03', Maker: 'Ostravane', Cloth: 'Ostravane Evenweave', Weave: 'evenweave', Count: '28' },
    ...{ Colour: 'White', Size: '18 x 20 in', Squared: 'yes', Place: 'C2', 'Now at': 'K-07', L: 95, a: 0, b: 2 },
  },
  {
    ...{ Owner: shop, Label: 'L-02', Maker: 'Harrowmere Looms', Cloth: 'Harrowmere Linen', Weave: 'linen', Count: '32' },
    ...{ Colour: 'Oatmeal', Size: '20 x 18 in', Squared: 'yes', Place: 'C3', 'Now at': 'Petra Lisle', L: 78, a: 1.5, b: 12 },
  },
  {
    ...{ Owner: shop, Label: 'L-03', Maker: 'Harrowmere Looms', Cloth: 'Harrowmere Linen', Weave: 'linen', Count: '32' },
    ...{ Colour: 'Pale Grey', Size: '18 x 20 in', Squared: 'yes', Place: 'C3', 'Now at': 'K-02', L: 80, a: 0, b: 1 },
  },
]

/** Ninety pieces: sixty of the shop's, thirty of Hanne's; about a quarter are offcuts (labels AR-, ER-, LR-). */
export function listClothRows(): ClothRow[] {
  const random = seededRandom('oxmarsh cloth')
  const wanted = { [shop]: 60, [hanne]: 30 }
  const rows = [...namedPieces]
  const used = new Set(rows.map(({ Label }) => Label))
  for (const [owner, count] of Object.entries(wanted)) {
    while (rows.filter(({ Owner }) => Owner === owner).length < count) {
      const weave = random.weighted<Weave>([
        ['aida', 3],
        ['evenweave', 3],
        ['linen', 5],
      ])
      const isOffcut = random.chance(0.27)
      const [colour, L, a, b] = random.pick(colours)
      const stem = `${owner === hanne ? 'H' : ''}${letters[weave]}${isOffcut ? 'R' : ''}`
      let number = 1
      const label = () => `${stem}-${String(number).padStart(2, '0')}`
      while (used.has(label())) number++
      used.add(label())
      const count = random.pick(counts[weave])
      const isSquare = !count.includes('x')
      rows.push({
        ...{
          Owner: owner,
          Label: label(),
          Maker: makers[weave],
          Cloth: cloths[weave],
          Weave: weave,
          Count: count,
          Colour: colour,
          L,
          a,
          b,
        },
        Size: isOffcut ? random.pick(offcutSizes) : random.weighted(sizes),
        Squared: isOffcut || !isSquare || random.chance(0.4) ? 'yes' : 'no',
        'May turn': isSquare ? (random.chance(0.08) ? 'no' : undefined) : 'no',
        Place: owner === hanne ? 'Cloth trunk' : shelves[weave],
        Note: isOffcut ? 'Offcut' : undefined,
      })
    }
  }
  return rows
    .map(withCare)
    .sort((one, other) => (one.Owner === other.Owner ? compareText(one.Label, other.Label) : one.Owner === shop ? -1 : 1))
}

/** How a piece was dyed, washed and counted, and why it lies one way: by its colour, and its label's number, not by chance. */
function withCare(row: ClothRow): ClothRow {
  const number = Number(/(\d+)$/.exec(String(row.Label))?.[1] ?? 0)
  const isUneven = String(row.Count).includes('x')
  const colour = String(row.Colour)
  const isHandDyed = row.Weave !== 'aida' && handDyed.has(colour) && number % 2 === 0
  const oneWay = isUneven
    ? 'count'
    : isHandDyed
      ? 'dye'
      : row.Weave === 'linen'
        ? 'slubs'
        : row.Weave === 'aida'
          ? 'grid'
          : 'stripe'
  return {
    ...row,
    'Count known': isUneven ? 'counted' : undefined,
    Dyed: undyed.has(colour) ? 'plain' : isHandDyed ? 'hand-dyed' : 'dyed',
    'One way because': row['May turn'] === 'no' ? oneWay : undefined,
    Washed: number % 5 === 0 ? 'yes' : number % 7 === 0 ? 'no' : undefined,
  }
}

const compareText = (one: unknown, other: unknown) => (String(one) < String(other) ? -1 : 1)
