export const importKinds = ['places', 'threads', 'cloth', 'charts', 'lists', 'projects', 'notions'] as const
/** What a file holds, in the order in which files that name one another are best brought in. */
export type ImportKind = (typeof importKinds)[number]

export const columnUnits = ['stitches', 'in', 'cm', 'mm', 'm', 'yd', 'per inch', 'per 10 cm', 'per cm'] as const
/** What a bare figure in a column is counted in. */
export type ColumnUnit = (typeof columnUnits)[number]

export type Field = {
  label: string
  help: string
  isRequired: boolean
  /** Units a bare figure may be in; the first is taken when nothing says otherwise. Empty: the column has no unit. */
  units: readonly ColumnUnit[]
}

const field = (label: string, help: string, units: readonly ColumnUnit[] = []): Field => ({
  label,
  help,
  isRequired: false,
  units,
})
const required = (label: string, help: string, units: readonly ColumnUnit[] = []): Field => ({
  ...field(label, help, units),
  isRequired: true,
})

const designUnits = ['stitches', 'in', 'cm', 'mm'] as const
const clothUnits = ['in', 'cm', 'mm', 'm', 'yd'] as const
const threadUnits = ['m', 'yd', 'cm', 'in'] as const
const countUnits = ['per inch', 'per 10 cm', 'per cm'] as const

const owner = field('Owner', 'Whose it is. Rows without one take the owner chosen for the whole file.')
const place = field('Place', 'The label of the place where it lives. A label that is new becomes a place.')
const nowAt = field('Now at', 'The label of the place where it is now, when that is not where it lives.')
const note = field('Note', 'Anything else worth keeping.')
const lightness = field('L', 'Lightness of the colour in CIELAB, 0 to 100. L, a and b belong together.')
const redness = field('a', 'CIELAB a, green (negative) to red.')
const yellowness = field('b', 'CIELAB b, blue (negative) to yellow.')

/** The fields a column of each kind of file can be taken as. */
export const fieldsOf = {
  places: {
    label: required('Label', 'What the label on it says, such as T2.1-14.'),
    kind: field(
      'Kind',
      'Room, cabinet, drawer, compartment, rack, shelf, box, bag, ring, bin, folder, person, framer or finisher.',
    ),
    inside: field('Inside', 'The label of the place it is in.'),
    name: field('Name', 'A name beside the label.'),
    walkOrder: field('Walk order', 'A whole number, only where the walk does not follow the labels.'),
    capacity: field('Capacity', 'How many things it holds when full.'),
    note,
  },
  charts: {
    chart: required('Chart', 'The title of the leaflet, booklet, card, issue or kit.'),
    design: field('Design', 'The title of one design in it; the chart’s own title when left blank.'),
    designer: field('Designer', 'Who designed it; several are parted by semicolons.'),
    kind: field('Kind', 'Leaflet, booklet, card, issue, kit or file.'),
    owner,
    place,
    nowAt,
    copies: field('Copies', 'How many bought copies there are.'),
    width: field('Width', 'Stitches across, or a measured width with its unit.', designUnits),
    height: field('Height', 'Stitches up, or a measured height with its unit.', designUnits),
    size: field('Size', 'Width and height in one cell: 140 x 98, or 8 x 6 in.', designUnits),
    count: field('Count', 'The count the chart advises: 14, 28 over 2, 110/10cm over 2.', countUnits),
    cloth: field('Cloth', 'The name of the cloth it advises.'),
    weave: field('Weave', 'Block (aida) or single (linen, evenweave).'),
    insists: field('Insists', 'Yes when no other weave will do.'),
    season: field('Season', 'Seasons or occasions, parted by semicolons.'),
    subject: field('Subject', 'What it shows, parted by semicolons.'),
    form: field('Form', 'What it is made up as or laid out as, parted by semicolons.'),
    cover: field('Cover', 'Band sampler, motif sampler, picture or full: how much of the outline is stitched.'),
    allowance: field(
      'Allowance',
      'For thread: solid blocks, ordinary, scattered, or a factor such as 1.45. Blank follows Settings.',
    ),
    edition: field('Edition', 'Printing or edition.'),
    partsHeld: field('Parts held', 'Of a design in parts, how many are here.'),
    partsNeeded: field('Parts needed', 'Of a design in parts, how many there are.'),
    bought: field('Bought', 'The day it was bought.'),
    price: field('Price', 'What it cost.'),
    note,
  },
  lists: {
    chart: required('Chart', 'The title of the chart the key is from.'),
    design: field('Design', 'The design in it, when the chart holds several.'),
    designer: field('Designer', 'Only needed to tell two charts of one title apart.'),
    list: field('List', 'The name of the list, when a design has several.'),
    symbol: field('Symbol', 'The mark in the grid.'),
    maker: required('Maker', 'The maker of the thread; a blend’s makers are parted by +.'),
    line: field('Line', 'The maker’s line of thread.'),
    code: required('Code', 'The colour’s code, exactly as printed, zeros and all; a blend’s codes are parted by +.'),
    name: field('Name', 'The colour’s name.'),
    strands: field('Strands', 'Strands in the needle; a blend’s are parted by +.'),
    full: field('Full', 'Full crosses.'),
    half: field('Half', 'Half stitches.'),
    quarter: field('Quarter', 'Quarter stitches.'),
    threeQuarter: field('Three-quarter', 'Three-quarter stitches.'),
    tent: field('Tent', 'Tent stitches.'),
    backstitch: field('Backstitch', 'Unit lengths of backstitch along a thread of the cloth.'),
    backstitchDiagonal: field('Diagonal backstitch', 'Unit lengths of backstitch across a square.'),
    doubleRunning: field('Double running', 'Unit lengths of double running.'),
    satin: field('Satin', 'Satin stitch in unit lengths of throw: twenty throws over three stitches are 60.'),
    eyelet: field('Eyelets', 'Eyelets of eight arms over two stitches by two.'),
    knotOneWrap: field('Knots', 'French knots of one wrap.'),
    knotTwoWrap: field('Knots two wraps', 'French knots of two wraps.'),
    bead: field('Beads', 'Beads sewn on.'),
    skeins: field('Skeins', 'Skeins the key asks for; 0.6 or 1/2 will do.'),
    putUp: field('Put-up', 'The length of the skein the key speaks of: 8 m, 5 yd.', threadUnits),
  },
  threads: {
    owner,
    maker: required('Maker', 'Who makes the thread.'),
    line: field('Line', 'The maker’s line of thread.'),
    code: required('Code', 'The colour’s code, exactly as printed, zeros and all.'),
    name: field('Name', 'The colour’s name.'),
    fibre: field('Fibre', 'Cotton, silk, wool and so on.'),
    strands: field('Strands', 'Strands the thread can be parted into; 6 when left blank.'),
    putUp: field('Put-up', 'The length of one full skein: 8 m, 5 yd.', threadUnits),
    putUpWord: field('Put-up word', 'Skein, hank, spool or card.'),
    dyed: field('Dyed', 'Solid, variegated or overdyed (hand-dyed).'),
    lotsMatter: field('Lots matter', 'Yes when all of one colour must come from one dye lot.'),
    lot: field('Lot', 'The dye lot.'),
    skeins: field('Skeins', 'Full skeins held. 0 with no part: the thread is known but none is held.'),
    part: field('Part', 'The part skein: 2.5 m, 1/2, about 1/2, 2.5 m measured, some.', threadUnits),
    place,
    nowAt,
    L: lightness,
    a: redness,
    b: yellowness,
    colour: field('Colour', 'The colour as #rrggbb.'),
    minimum: field('Minimum', 'Reorder when fewer full skeins than this are free.'),
    standsInFor: field('Stands in for', 'A thread it may be used for, as Maker | Line | Code; several are parted by semicolons.'),
    note,
  },
  cloth: {
    owner,
    label: field('Label', 'The label on the piece.'),
    maker: field('Maker', 'Who makes the cloth.'),
    cloth: required('Cloth', 'The name of the cloth.'),
    weave: field('Weave', 'Block (aida) or single (linen, evenweave).'),
    count: required('Count', '28, 34 x 31 (ends, then picks), 110/10cm.', countUnits),
    countKnown: field('Count known', 'How its count is known: counted, label or guess.'),
    colour: field('Colour', 'The colour’s name.'),
    dyeing: field('Dyed', 'Plain (white, raw), dyed, or hand-dyed.'),
    width: required('Width', 'Along the weft; with a unit, or in the unit of the column.', clothUnits),
    height: required('Height', 'Along the warp (the selvedge); with a unit, or in the unit of the column.', clothUnits),
    size: field('Size', 'Width and height in one cell: 18 x 27 in.', clothUnits),
    squared: field('Squared', 'Yes when it was measured after pulling it square.'),
    mayTurn: field('May turn', 'Yes when the design may lie either way round on it.'),
    oneWay: field('One way because', 'Why it may not be turned: count, dye, grid, stripe, slubs, drawn work or nap.'),
    washed: field('Washed', 'Yes, no, or never when it is not to be washed.'),
    place,
    nowAt,
    L: lightness,
    a: redness,
    b: yellowness,
    note,
  },
  projects: {
    design: required('Design', 'The title of the design.'),
    chart: field('Chart', 'The chart it is from, when two have a design of that title.'),
    list: field('List', 'The thread list worked from.'),
    owner,
    cloth: field('Cloth', 'The label of the piece of cloth.'),
    status: field('Status', 'Wanted, planned, kitted, stitching, resting, stitched, finished or abandoned.'),
    quantity: field('How many', 'How many are made of it; 1 when left blank.'),
    spares: field('Spares', 'Spare kits made beside them.'),
    place: field('Place', 'The label of the bag or box the work is in.'),
    for: field('For', 'Who it is for.'),
    started: field('Started', 'The day it was begun.'),
    finished: field('Finished', 'The day it was finished.'),
    due: field('Due', 'The day it is wanted by.'),
    hours: field('Hours', 'Hours worked so far.'),
    stitchesDone: field('Stitches done', 'Stitches worked so far.'),
    finishing: field('Finishing', 'How it is made up: framed, pillow, ornament.'),
    note,
  },
  notions: {
    owner,
    kind: field(
      'Kind',
      'Hoop, frame, needle, scissors, beads, ribbon, needle minder, laying tool, magnifier, bag, finding or other. Told by the name when left blank.',
    ),
    name: required('Name', 'What it is called: Big hoop, or the name on its packet.'),
    size: field('Size', 'As it is sold: 10 in, size 26, 2 mm.'),
    count: field('How many', 'How many there are; 1 when left blank.'),
    packOf: field('Pack of', 'How many a pack holds, where it is sold in packs.'),
    minimum: field('Minimum', 'Fewer than this, and it is to be bought.'),
    price: field('Price', 'What one costs, or a whole pack where it is sold in packs.'),
    place,
    nowAt,
    note,
  },
} as const satisfies Record<ImportKind, Record<string, Field>>

export type FieldName<K extends ImportKind> = keyof (typeof fieldsOf)[K] & string

/** The fields of a kind in their order, each with its name. */
export function listFields(kind: ImportKind): ({ name: string } & Field)[] {
  return Object.entries<Field>(fieldsOf[kind]).map(([name, described]) => ({ name, ...described }))
}

/** Fields one of which is enough where each would be required: a size in one cell stands for width and height. */
export function isFieldMissing(kind: ImportKind, name: string, isGiven: (name: string) => boolean): boolean {
  const described = (fieldsOf[kind] as Record<string, Field>)[name]
  if (!described?.isRequired || isGiven(name)) return false
  return !(kind === 'cloth' && (name === 'width' || name === 'height') && isGiven('size'))
}
