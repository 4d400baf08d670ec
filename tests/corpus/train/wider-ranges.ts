import { seededRandom } from '#seed/random'
import type { Range } from '../world'

const first = ['Old', 'Faded', 'Bright', 'Winter', 'Burnt', 'Misty', 'Ripe']
const second = [
  'Brick',
  'Quince',
  'Lichen',
  'Pewter',
  'Sorrel',
  'Willow',
  'Clay',
  'Fog',
  'Thistle',
  'Walnut',
  'Marigold',
  'Cornflower',
  'Bone',
  'Juniper',
  'Cherry',
  'Ochre',
  'Sea Green',
  'Poppy',
  'Straw',
  'Raven',
]
const odd = [
  "Bishop's Purple",
  'Crème',
  'Bleu Pâle',
  'Grey, Silver',
  'Brown, Nut (dark)',
  'Blue-Violet',
  "Carter's Blue",
  'Ivory',
  'Jet',
  'Pink, Shell, Very Light',
]
const wools = [
  'Peat Smoke',
  'Fleece',
  'Gorse Hill',
  'Bramble Jam',
  'Rain Barrel',
  "Shepherd's Hut",
  'Dry Stone',
  'Fox Earth',
  'Larder Door',
  'Bluebell Wood',
  'Hedge',
  'Ember',
  'Mill Race',
  'Wool Sack',
  'Hoar',
  'Stubble',
  'Church Mouse',
  'Lamp Black',
  'Beech Mast',
  'Cider',
  'Noël',
  'Kiln',
  'Weather Vane',
  'Twilight Lane',
]

/** The threads that the documents of the wider texts are made of: other makers than the train half's, and codes of other shapes. */
export function widerRanges(): Range[] {
  const random = seededRandom('corpus wider ranges')
  const names = random.shuffle([...first.flatMap((tone) => second.map((base) => `${tone} ${base}`)), ...second, ...odd])
  const numbers = random
    .sample(
      // Numbers that everybody knows of a maker that there is are left out.
      Array.from({ length: 1_180 }, (_, at) => at + 3).filter(
        (value) => ![310, 321, 498, 666, 815, 838, 900, 939].includes(value),
      ),
      96,
    )
    .sort((a, b) => a - b)
  const silk = numbers.map((value, at) => ({
    code: `${value}${at % 11 === 5 ? 'A' : at % 17 === 9 ? 'B' : ''}`,
    name: names[at] as string,
  }))
  const wool = Array.from({ length: 44 }, (_, at) => ({
    code: `W${String(at * 7 + 12).padStart(3, '0')}`,
    name: names[100 + at] as string,
  }))
  return [
    { maker: 'Brindlequay', threadLine: 'Stranded Silk', isNamed: false, threads: silk },
    { maker: 'Dunmarrow', threadLine: 'Crewel Wool', isNamed: false, threads: wool },
    { maker: 'Dunmarrow', threadLine: 'Hand-dyed Wool', isNamed: true, threads: wools.map((code) => ({ code, name: null })) },
    {
      maker: 'Marrowgate',
      threadLine: 'Braid',
      isNamed: false,
      threads: ['Antique', 'Polished', 'Dull', 'Hammered'].flatMap((finish, finishAt) =>
        ['Brass', 'Steel', 'Tin', 'Rose Gold', 'Zinc', 'Nickel', 'White Gold'].map((metal, metalAt) => ({
          code: `4.${String((finishAt * 7 + metalAt) * 3 + 2).padStart(3, '0')}`,
          name: `${finish} ${metal}`,
        })),
      ),
    },
    {
      maker: 'Varnaby',
      threadLine: 'Glass Beads',
      isNamed: false,
      threads: Array.from({ length: 24 }, (_, at) => ({
        code: `GB-${at * 5 + 101}`,
        name: `${['Opal', 'Lustre', 'Ice'][at % 3]} ${second[(at * 3) % second.length]}`,
      })),
    },
  ]
}
