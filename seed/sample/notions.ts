import type { SampleRow } from './csv'
import { hanne, shop } from './places'

export const notionColumns = [
  ...(['Owner', 'Kind', 'Name', 'Size', 'How many', 'Pack of', 'Minimum', 'Price', 'Place', 'Note'] as const),
] as const
type NotionRow = SampleRow<(typeof notionColumns)[number]>

/** A dozen things of the small drawers, the shop's for its kits and Hanne's own. */
export const listNotionRows = (): NotionRow[] => [
  {
    ...{ Owner: shop, Kind: 'needle', Name: 'Tapestry needles', Size: 'size 24', 'How many': 36, 'Pack of': 6, Minimum: 24 },
    ...{ Price: '1.80', Place: 'R4', Note: 'Sharp: count them in and out' },
  },
  {
    ...{ Owner: shop, Kind: 'needle', Name: 'Tapestry needles', Size: 'size 26', 'How many': 14, 'Pack of': 6, Minimum: 24 },
    ...{ Price: '1.80', Place: 'R4' },
  },
  {
    ...{ Owner: shop, Kind: 'needle', Name: 'Beading needles', Size: 'size 10', 'How many': 8, 'Pack of': 4, Minimum: 4 },
    ...{ Price: '2.20', Place: 'T9.3' },
  },
  {
    Owner: shop,
    Kind: 'beads',
    Name: 'Frost glass beads',
    Size: '11/0',
    'How many': 5,
    Minimum: 2,
    Place: 'T9.3',
    Note: 'Tubes',
  },
  { Owner: shop, Kind: 'frame', Name: 'Table frame', Size: '18 in', 'How many': 2, Price: '46.00', Place: 'Kitting room' },
  { Owner: shop, Kind: 'scissors', Name: 'Class scissors', Size: '4 in', 'How many': 12, Place: 'R4', Note: 'Sheathed' },
  {
    Owner: shop,
    Kind: 'bag',
    Name: 'Kit bags, clear',
    Size: '10 x 12 in',
    'How many': 60,
    'Pack of': 20,
    Minimum: 40,
    Place: 'R4',
  },
  { Owner: hanne, Kind: 'hoop', Name: 'Ash hoop', Size: '10 in', 'How many': 1, Price: '9.50', Place: 'Sewing room' },
  { Owner: hanne, Kind: 'hoop', Name: 'Little hoop', Size: '4 in', 'How many': 2, Place: 'Sewing box' },
  { Owner: hanne, Kind: 'needle', Name: 'Tapestry needles', Size: 'size 28', 'How many': 9, Place: 'Sewing box' },
  { Owner: hanne, Kind: 'scissors', Name: 'Stork scissors', Size: '3½ in', 'How many': 1, Place: 'Sewing box' },
  {
    ...{ Owner: hanne, Kind: 'needle minder', Name: 'Wren minder', 'How many': 1, Place: 'Sewing box' },
    Note: 'A magnet: away from medical implants',
  },
]
