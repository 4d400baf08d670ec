import { textKey } from '#lib/quantity/text-key'
import type { Random } from '../random'
import { receipt, type TableRow } from './rows'

type Ground = { threads: number; perUm: number; over: number; weave: 'block' | 'single'; name: string }
const perInch = (threads: number, over: number, weave: 'block' | 'single', name: string): Ground => ({
  threads,
  perUm: 25_400,
  over,
  weave,
  name,
})
export const groundKinds: (readonly [Ground, number])[] = [
  [perInch(14, 1, 'block', 'Stennick Aida'), 4],
  [perInch(16, 1, 'block', 'Stennick Aida'), 3],
  [perInch(18, 1, 'block', 'Stennick Aida'), 1],
  [perInch(25, 2, 'single', 'Ostravane Evenweave'), 1],
  [perInch(28, 2, 'single', 'Ostravane Evenweave'), 6],
  [{ threads: 110, perUm: 100_000, over: 2, weave: 'single', name: 'Ostravane Evenweave' }, 1],
  [perInch(32, 2, 'single', 'Harrowmere Linen'), 6],
  [perInch(36, 2, 'single', 'Harrowmere Linen'), 3],
  [perInch(40, 2, 'single', 'Harrowmere Linen'), 2],
]
const clothMakers: Record<string, string> = {
  'Stennick Aida': 'Stennick Mill',
  'Ostravane Evenweave': 'Ostravane',
  'Harrowmere Linen': 'Harrowmere Looms',
}
const clothColours = [
  'White',
  'Antique White',
  'Natural',
  'Cream',
  'Oatmeal',
  'Pale Grey',
  'Blue Grey',
  'Parchment',
  'Willow Green',
  'Night Blue',
]

const inchUm = 25_400
const pieceSizes = [
  [18, 27],
  [13, 18],
  [36, 27],
  [36, 55],
  [9, 13],
  [7, 18],
  [11, 8],
] as const

export function makeCloth(
  random: Random,
  stock: { clothPieces: number; ownerIds: string[]; shelves: string[] },
  ids: { cloth: () => string; movement: () => string },
): { pieces: TableRow[]; movements: TableRow[] } {
  const pieces: TableRow[] = []
  const movements: TableRow[] = []
  for (let at = 0; at < stock.clothPieces; at++) {
    const id = ids.cloth()
    const ownerId = random.chance(0.85) ? (stock.ownerIds[0] as string) : random.pick(stock.ownerIds)
    const ground = random.weighted(groundKinds)
    const isUneven = ground.name === 'Harrowmere Linen' && random.chance(0.15)
    const [width, height] = random.pick(pieceSizes)
    const isSquared = isUneven || random.chance(0.5)
    const homePlaceId = stock.shelves[Math.floor(at / 40)] as string
    const label = `P${String(at + 1).padStart(4, '0')}`
    pieces.push({
      ...{ id, ownerId, label, labelKey: textKey(label), makerName: clothMakers[ground.name] as string, name: ground.name },
      ...{ colourName: random.pick(clothColours), weave: ground.weave },
      ...{
        endsThreads: ground.threads,
        endsPerUm: ground.perUm,
        picksThreads: ground.threads - (isUneven ? random.int(1, 2) : 0),
        picksPerUm: ground.perUm,
      },
      ...{ widthUm: width * inchUm, heightUm: height * inchUm, isSquared, sizeCertainty: isSquared ? 'measured' : 'label' },
      ...{ isTurnable: !isUneven, homePlaceId, currentPlaceId: homePlaceId },
    })
    movements.push(receipt(ids.movement(), { clothPieceId: id }, { wholeDelta: 1, toPlaceId: homePlaceId, toOwnerId: ownerId }))
  }
  return { pieces, movements }
}
