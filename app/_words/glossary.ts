export const glossaryGroups = {
  paper: 'Charts and designs',
  cloth: 'Cloth',
  thread: 'Thread',
  stock: 'What is held, and where',
  work: 'Work, from kit to finish',
  buying: 'Buying, counting and kits',
} as const

export type GlossaryGroup = keyof typeof glossaryGroups
/** Drawings that say more than a sentence (app/glossary/word-drawing.tsx). */
export type GlossaryDrawing = 'over-one' | 'over-two' | 'count' | 'lot' | 'part' | 'drawer' | 'put-up' | 'warp' | 'margin'

type GlossaryEntry = {
  word: string
  group: GlossaryGroup
  /** In a sentence or two. */
  says: string
  /** What else it is called, for whoever looks. */
  also?: string
  drawing?: GlossaryDrawing
}

/** The trade's words as they are meant here, by the name they are linked by. */
export const glossary = {
  chart: {
    word: 'Chart',
    group: 'paper',
    says: 'The paper or file you own: a leaflet, booklet, card, magazine issue, kit or file. It holds one design or several.',
  },
  design: {
    word: 'Design',
    group: 'paper',
    says: 'What is stitched from a chart. Everything reckoned here, thread, cloth and place, is reckoned for one design.',
  },
  key: {
    word: 'Key',
    group: 'paper',
    also: 'legend',
    says: 'The table beside a chart that says which thread each symbol stands for, and with how many strands.',
  },
  symbol: { word: 'Symbol', group: 'paper', says: 'The mark in a square of the grid; the key says what it stands for.' },
  'thread-list': {
    word: 'Thread list',
    group: 'paper',
    also: 'palette',
    says: 'One set of threads a design can be worked in: a cotton list, a hand-dyed list. A design may have several, of different numbers of colours.',
  },
  cover: {
    word: 'Cover',
    group: 'paper',
    says: 'How far what is free covers what a design needs: thread by thread, and the worst of them for the whole.',
  },
  theme: {
    word: 'Theme',
    group: 'paper',
    says: 'What a design goes under: the season or occasion, the subject, and the form, each in a list of its own.',
  },
  'working-copy': {
    word: 'Working copy',
    group: 'paper',
    says: 'A copy of your own chart to mark off as you go. It stays with its original and is passed on to nobody.',
  },
  'band-sampler': { word: 'Band sampler', group: 'paper', says: 'A long, narrow piece of rows worked one below the other.' },
  'full-coverage': { word: 'Full coverage', group: 'paper', says: 'A design that leaves no cloth bare.' },

  count: {
    word: 'Count',
    group: 'cloth',
    drawing: 'count',
    says: 'How many threads, or woven blocks, the cloth has to the inch. A higher count makes a smaller piece.',
  },
  'over-one': {
    word: 'Over one',
    group: 'cloth',
    drawing: 'over-one',
    says: 'Each stitch spans one thread or block of the cloth: 16 count gives 16 stitches to the inch.',
  },
  'over-two': {
    word: 'Over two',
    group: 'cloth',
    drawing: 'over-two',
    says: 'Each stitch spans two threads of the cloth each way, so 28 count gives 14 stitches to the inch.',
  },
  weave: {
    word: 'Woven',
    group: 'cloth',
    also: 'Aida, evenweave, linen',
    says: 'In blocks, as Aida, whose blocks are worked over one; or in single threads, as evenweave and linen. Linen has thick and thin threads and may not be square.',
  },
  ends: {
    word: 'Ends and picks',
    group: 'cloth',
    also: 'warp and weft',
    drawing: 'warp',
    says: 'Ends run with the selvedge, picks across. Counted apart, they say whether the cloth is square, and so whether a circle stays one.',
  },
  squared: {
    word: 'Squared',
    group: 'cloth',
    says: 'Cut straight along a pulled thread on every side. What was only labelled with a size may lose a quarter or half an inch a side by it.',
  },
  margin: {
    word: 'Margin',
    group: 'cloth',
    drawing: 'margin',
    says: 'Bare cloth left round the stitching so that it can be framed or sewn up. It is on each side, so it counts twice.',
  },
  offcut: { word: 'Offcut', group: 'cloth', says: 'What is left of a piece after a cut and still large enough to use.' },
  'fat-quarter': {
    word: 'Fat quarter',
    group: 'cloth',
    says: 'A yard of cloth halved both ways, about 18 by 27 inches; halved again it is a fat eighth.',
  },

  strand: {
    word: 'Strand',
    group: 'thread',
    says: 'One separable thread of several: stranded cotton usually has six, and a stitch is worked with one or two of them.',
  },
  'put-up': {
    word: 'Put-up',
    group: 'thread',
    also: 'skein, hank, spool, card',
    drawing: 'put-up',
    says: 'The length sold as one: a skein, hank, spool or card. They are not equal, so lengths are reckoned, not skeins.',
  },
  'part-skein': {
    word: 'Part skein',
    group: 'thread',
    also: 'part',
    drawing: 'part',
    says: 'What is left of a put-up. Its length is measured, guessed or only “some”; a guess counts, “some” is never counted on.',
  },
  lot: {
    word: 'Lot',
    group: 'thread',
    also: 'dye lot',
    drawing: 'lot',
    says: 'All that came out of one dye bath. The next bath differs a little, so hand-dyed thread and silk are wanted from a single lot.',
  },
  overdyed: {
    word: 'Overdyed',
    group: 'thread',
    also: 'hand-dyed, variegated',
    says: 'Thread whose colour changes along its length. It is worked cross by cross, which takes a little more.',
  },
  blend: {
    word: 'Blend',
    group: 'thread',
    says: 'Two or more different threads in the needle at once. Each counts its own strands.',
  },
  'stand-in': {
    word: 'Swap',
    group: 'thread',
    also: 'stand-in, substitute',
    says: 'A thread worked in place of another: near enough in colour, far enough from its neighbours in the chart, and long enough. Look at it on the cloth in daylight first.',
  },
  need: {
    word: 'Need',
    group: 'thread',
    says: 'The thread a design takes, reckoned from its stitches, the cloth’s count and the strands, with an allowance for ends and travel.',
  },
  allowance: {
    word: 'Allowance',
    group: 'thread',
    says: 'What is used against what lies in the stitches: beginnings, ends, travel and slack. One and a half times is usual; your own log makes it your own.',
  },

  owner: {
    word: 'Owner',
    group: 'stock',
    says: 'Whose goods they are: your own, a shop’s, another person’s. One owner’s stock never answers for another’s unasked.',
  },
  place: {
    word: 'Place',
    group: 'stock',
    drawing: 'drawer',
    says: 'A room, cabinet, drawer, compartment, box, bag or person. Places stand inside one another, and each has a label.',
  },
  home: { word: 'Home', group: 'stock', says: 'The place where a thing lives, as against where it is just now.' },
  out: {
    word: 'Out',
    group: 'stock',
    says: 'Not in its home: in a bag, lent, or looked for and not found. It is owned, and not free.',
  },
  promised: { word: 'Promised', group: 'stock', says: 'Set aside for a project. It is free for that one and for no other.' },
  free: {
    word: 'Free',
    group: 'stock',
    says: 'What may be used: owned, less what is out, less what is promised to others. Each skein is taken off once.',
  },
  batch: { word: 'Batch', group: 'stock', says: 'Stock of one thread that belongs together: one lot, one owner, one place.' },
  'walking-order': {
    word: 'Walking order',
    group: 'stock',
    says: 'The order in which you pass the drawers, so that a list is walked once and nothing is gone back for. Drawer 2 comes before drawer 10.',
  },

  project: {
    word: 'Project',
    group: 'work',
    says: 'One working of a design: from this thread list, on this cloth, for somebody perhaps.',
  },
  pull: { word: 'Pull', group: 'work', says: 'To take what a project needs out of the drawers, in walking order, into its bag.' },
  'put-back': {
    word: 'Put-back',
    group: 'work',
    says: 'What goes home when a bag is unpacked, in walking order; what is missing stays a question until it turns up.',
  },
  kitted: { word: 'Kitted', group: 'work', says: 'All of it gathered in a bag: chart, cut cloth, threads, needles.' },
  resting: { word: 'Resting', group: 'work', also: 'put by', says: 'Begun and put by for now. It keeps its threads.' },
  rotation: { word: 'Rotation', group: 'work', says: 'A planned taking of turns among works under way.' },
  log: {
    word: 'Log',
    group: 'work',
    says: 'What was done, day by day: stitches, hours, a photo. Your pace, and so when a piece will be done, follows from it.',
  },
  stitched: { word: 'Stitched', group: 'work', says: 'The last stitch is made; it is not yet framed or sewn up.' },
  finished: { word: 'Finished', group: 'work', says: 'Done: stitched, and made up as it was meant to be.' },

  'kit-cut': {
    word: 'Length cut',
    group: 'buying',
    says: 'A piece of thread cut for a kit. It has no join, so a put-up gives only as many as go into it whole.',
  },
  'kit-batch': {
    word: 'Kits of a number',
    group: 'buying',
    says: 'One project worked as many times, with spares: bags from one to the last, each thread if it can be from one lot.',
  },
  minimum: {
    word: 'Minimum',
    group: 'buying',
    says: 'How much of a thread is kept in the drawer. Below it, it stands on the list to reorder.',
  },
  'blind-count': {
    word: 'Count',
    group: 'buying',
    also: 'stocktake',
    says: 'Looking at what is really there, without being told what should be. Overs are not set against unders: each line is right or not.',
  },
} as const satisfies Record<string, GlossaryEntry>

export type GlossaryKey = keyof typeof glossary

export const glossaryEntries: readonly (GlossaryEntry & { key: GlossaryKey })[] = Object.entries(glossary).map(
  ([key, entry]) => ({
    ...(entry as GlossaryEntry),
    key: key as GlossaryKey,
  }),
)

/** Entries whose words hold all of these. */
export function searchGlossary(words: string): typeof glossaryEntries {
  const asked = words.toLocaleLowerCase('en').split(/\s+/).filter(Boolean)
  return glossaryEntries.filter(({ word, also = '', says }) => {
    const text = `${word} ${also} ${says}`.toLocaleLowerCase('en')
    return asked.every((one) => text.includes(one))
  })
}

export const glossaryHref = (key: GlossaryKey): string => `/glossary#${key}`
