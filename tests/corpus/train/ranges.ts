import { seededRandom } from '#seed/random'
import type { Range } from '../world'

const tones = ['Pale', 'Light', 'Medium', 'Dark', 'Deep', 'Dusky', 'Soft']
const bases = [
  'Mussel',
  'Pine',
  'Rook Grey',
  'Harbour Blue',
  'Damson',
  'Madder',
  'Forget-me-not',
  'Barley',
  'Slate',
  'Heather',
  'Kelp',
  'Plum',
  'Rust',
  'Oat',
  'Sage',
  'Brick',
  'Ink',
  'Gorse',
  'Shell',
  'Copper',
]
const special = [
  "Miller's Red",
  'Rosé',
  'Café Cream',
  'Blue, Winter',
  'Green, Moss',
  "Ferryman's Coat",
  'Off-White',
  'Black',
  'Snow White',
  'Thé Vert',
  'Grey-Green',
  'Red (Post)',
  'Very Dark Moss',
  'Old Gold, Light',
]
const dyed = [
  'Tarn Blue',
  'Bracken Hill',
  'Wet Slate',
  'Old Rope',
  'Apple Loft',
  'Rook Wing',
  'Candle End',
  "Miller's Thumb",
  'First Frost',
  'Marsh Mallow',
  'Toasted Oat',
  'Pantry Shelf',
  'Lantern Light',
  'Green Glass',
  'Sloe Gin',
  'Wren Brown',
  'Chalk Path',
  'Ivy Wall',
  'Été',
  'Blackthorn',
  'Salt Cellar',
  'Quiet Water',
  'Rhubarb',
  'Tea Stain',
  'Smoke',
  'Oyster Bed',
  'Cold Ash',
  'Plough Land',
  'Hay Barn',
  'Moth Wing',
]

/** The threads that the documents of the train half are made of; the names are inventions. */
export function trainRanges(): Range[] {
  const random = seededRandom('corpus train ranges')
  const names = random.shuffle([...tones.flatMap((tone) => bases.map((base) => `${tone} ${base}`)), ...bases, ...special])
  const four = (value: number) => String(value).padStart(4, '0')
  const numbers = random
    .sample(
      Array.from({ length: 2_600 }, (_, at) => at + 1),
      110,
    )
    .sort((a, b) => a - b)
  const stranded = [
    { code: 'Ecru', name: 'Ecru' },
    ...numbers.map((value, at) => ({ code: four(value), name: names[at] as string })),
  ]
  return [
    { maker: 'Larkholm', threadLine: 'Stranded Cotton', isNamed: false, threads: stranded },
    {
      maker: 'Larkholm',
      threadLine: 'Pearl Cotton',
      isNamed: false,
      threads: numbers.filter((_, at) => at % 4 === 0).map((value, at) => ({ code: four(value), name: names[at * 4] as string })),
    },
    { maker: 'Oddny Loft', threadLine: 'Hand-dyed Cotton', isNamed: true, threads: dyed.map((code) => ({ code, name: null })) },
    {
      maker: 'Quillwater',
      threadLine: 'Filament',
      isNamed: false,
      threads: Array.from({ length: 30 }, (_, at) => ({
        code: String(at * 4 + 4),
        name: `${['Silver', 'Gold', 'Pewter', 'Bronze', 'Pearl'][at % 5]} ${['Frost', 'Thread', 'Spark', 'Glow', 'Mist', 'Rain'][Math.floor(at / 5)]}`,
      })),
    },
    {
      maker: 'Varnaby',
      threadLine: 'Seed Beads',
      isNamed: false,
      threads: Array.from({ length: 24 }, (_, at) => ({
        code: `02${four(at * 13 + 7).slice(1)}`,
        name: `${['Clear', 'Matt', 'Frosted'][at % 3]} ${bases[at % bases.length]}`,
      })),
    },
    {
      maker: 'Port Ellery',
      threadLine: 'Spun Silk',
      isNamed: false,
      threads: random
        .sample(
          Array.from({ length: 1_400 }, (_, at) => at + 5),
          60,
        )
        .sort((a, b) => a - b)
        .map((value, at) => ({ code: `${value}${at % 9 === 4 ? 'C' : ''}`, name: names[names.length - 1 - at] as string })),
    },
    {
      maker: 'Upper Quennow',
      threadLine: 'Fine Wool',
      isNamed: false,
      threads: Array.from({ length: 48 }, (_, at) => ({
        code: `${at % 2 === 0 ? 'K' : 'K-'}${at * 9 + 31}`,
        name: names[names.length - 70 - at] as string,
      })),
    },
  ]
}
