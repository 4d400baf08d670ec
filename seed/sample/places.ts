import type { SampleRow } from './csv'

export const placeColumns = ['Label', 'Kind', 'Inside', 'Name', 'Walk order', 'Capacity', 'Note'] as const

export const shop = 'The Oxmarsh Needle Room'
export const hanne = 'Hanne Drewitt'

type Place = [label: string, kind: string, inside?: string, name?: string, note?: string]

/** Every place of the sample, from the outside in. */
const places: Place[] = [
  ['Kitting room', 'room', '', 'Kitting room, Marl Street'],
  ['Shop floor', 'room', '', 'Shop floor, Marl Street'],
  ['Cabinet T', 'cabinet', 'Kitting room', 'Thread cabinet', 'Full drawers are heavy: open one at a time'],
  ['T2', 'cabinet', 'Cabinet T', 'Column 2: Larkholm from Ecru'],
  ['T3', 'cabinet', 'Cabinet T', 'Column 3: Larkholm'],
  ['T4', 'cabinet', 'Cabinet T', 'Column 4: end of Larkholm, metallics'],
  ['T9', 'cabinet', 'Cabinet T', 'Column 9: silk, beads'],
  ['T10', 'cabinet', 'Cabinet T', 'Column 10: Oddny Loft'],
  ['T2.1', 'drawer', 'T2'],
  ['T2.2', 'drawer', 'T2'],
  ['T2.3', 'drawer', 'T2'],
  ['T2.4', 'drawer', 'T2'],
  ['T2.5', 'drawer', 'T2'],
  ['T3.1', 'drawer', 'T3'],
  ['T3.2', 'drawer', 'T3'],
  ['T3.3', 'drawer', 'T3'],
  ['T3.4', 'drawer', 'T3'],
  ['T3.5', 'drawer', 'T3'],
  ['T4.1', 'drawer', 'T4'],
  ['T4.2', 'drawer', 'T4'],
  ['T4.3', 'drawer', 'T4', 'Metallic filament and braid'],
  ['T4.4', 'drawer', 'T4', 'Shaded cotton'],
  ['T9.1', 'drawer', 'T9', 'Silk, numbers to 60', 'Look for moth every spring'],
  ['T9.2', 'drawer', 'T9', 'Silk, numbers over 60', 'Look for moth every spring'],
  ['T9.3', 'drawer', 'T9', 'Beads'],
  ['T10.1', 'drawer', 'T10', 'Hand-dyed cotton, blues and greens'],
  ['T10.2', 'drawer', 'T10', 'Hand-dyed cotton, reds and golds'],
  ['T10.3', 'drawer', 'T10', 'Hand-dyed cotton, browns and greys'],
  ['T10.4', 'drawer', 'T10', 'Hand-dyed silk'],
  ['R1', 'rack', 'Shop floor', 'Samplers'],
  ['R1-1', 'box', 'R1', 'Band samplers'],
  ['R1-2', 'box', 'R1', 'Spot and house samplers'],
  ['R1-3', 'box', 'R1', 'Alphabets and verses'],
  ['R2', 'rack', 'Shop floor', 'Seasons'],
  ['R2-1', 'box', 'R2', 'Spring and summer'],
  ['R2-2', 'box', 'R2', 'Autumn'],
  ['R2-3', 'box', 'R2', 'Winter'],
  ['R3', 'rack', 'Shop floor', 'Booklets'],
  ['R4', 'rack', 'Kitting room', 'Models and kits'],
  ['Shop files', 'folder', 'Kitting room', 'Charts bought as files'],
  ['C1', 'shelf', 'Kitting room', 'Aida'],
  ['C2', 'shelf', 'Kitting room', 'Evenweave'],
  ['C3', 'shelf', 'Kitting room', 'Linen'],
  ['K-01', 'bag', 'Kitting room', 'Kit bag 1'],
  ['K-02', 'bag', 'Kitting room', 'Kit bag 2'],
  ['K-03', 'bag', 'Kitting room', 'Kit bag 3'],
  ['K-04', 'bag', 'Kitting room', 'Kit bag 4'],
  ['K-07', 'bag', 'Kitting room', 'Kit bag 7'],
  ['Sewing room', 'room', '', "Hanne's sewing room"],
  ['Thread chest', 'cabinet', 'Sewing room', 'Chest under the stairs'],
  ['H1', 'drawer', 'Thread chest', 'Larkholm to 1500'],
  ['H2', 'drawer', 'Thread chest', 'Larkholm over 1500'],
  ['H3', 'drawer', 'Thread chest', 'Hand-dyed and silk'],
  ['Sewing box', 'box', 'Sewing room', 'Metallics, beads, notions'],
  ['Chart box', 'box', 'Sewing room', 'Leaflets and cards'],
  ['Chart rack', 'rack', 'Sewing room', 'Booklets and issues'],
  ['Cloth trunk', 'box', 'Sewing room', 'Cloth by count'],
  ['H-01', 'bag', 'Sewing room', 'Blue project bag'],
  ['H-02', 'bag', 'Sewing room', 'Striped project bag'],
  ['H-03', 'bag', 'Sewing room', 'Travelling bag'],
  ["Hanne's downloads", 'folder', 'Sewing room', 'Charts bought as files'],
  ['Petra Lisle', 'person', '', 'Petra Lisle, model stitcher'],
  ['Ines Coldwell', 'person', '', 'Ines Coldwell, guild'],
  ['Maud Ferriby', 'framer', '', 'Maud Ferriby, framer'],
  ['Abel Crome', 'finisher', '', 'Abel Crome, finisher'],
]

const roomOrder = ['Kitting room', 'Shop floor', 'Sewing room']

export function listPlaceRows(): SampleRow<(typeof placeColumns)[number]>[] {
  return places.map(([label, kind, inside, name, note]) => ({
    Label: label,
    Kind: kind,
    Inside: inside,
    Name: name,
    'Walk order': kind === 'room' ? roomOrder.indexOf(label) + 1 : undefined,
    Capacity: /^T[234]\.[1-5]$/.test(label) && label !== 'T4.3' && label !== 'T4.4' ? 40 : undefined,
    Note: note,
  }))
}

/** The drawers that hold the numbered cotton, forty colours each in number order. */
export const cottonDrawers = [
  ...['T2.1', 'T2.2', 'T2.3', 'T2.4', 'T2.5'],
  ...['T3.1', 'T3.2', 'T3.3', 'T3.4', 'T3.5'],
  ...['T4.1', 'T4.2'],
]
