import { say, sayings } from '#language/say'

export const glossaryGroups = sayings({
  paper: 'Charts and designs',
  cloth: 'Cloth',
  thread: 'Thread',
  stock: 'What is held, and where',
  work: 'Work, from kit to finish',
  buying: 'Buying, counting and kits',
})

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
export const glossary = () =>
  ({
    chart: {
      word: say('Chart'),
      group: 'paper',
      says: say(
        'The paper or file you own: a leaflet, booklet, card, magazine issue, kit or file. It holds one design or several.',
      ),
    },
    design: {
      word: say('Design'),
      group: 'paper',
      says: say('What is stitched from a chart. Everything reckoned here, thread, cloth and place, is reckoned for one design.'),
    },
    key: {
      word: say('Key'),
      group: 'paper',
      also: 'legend',
      says: say('The table beside a chart that says which thread each symbol stands for, and with how many strands.'),
    },
    symbol: {
      word: say('Symbol'),
      group: 'paper',
      says: say('The mark in a square of the grid; the key says what it stands for.'),
    },
    'thread-list': {
      word: say('Thread list'),
      group: 'paper',
      also: 'palette',
      says: say(
        'One set of threads a design can be worked in: a cotton list, a hand-dyed list. A design may have several, of different numbers of colours.',
      ),
    },
    cover: {
      word: say('Cover'),
      group: 'paper',
      says: say('How far what is free covers what a design needs: thread by thread, and the worst of them for the whole.'),
    },
    theme: {
      word: say('Theme'),
      group: 'paper',
      says: say('What a design goes under: the season or occasion, the subject, and the form, each in a list of its own.'),
    },
    'working-copy': {
      word: say('Working copy'),
      group: 'paper',
      says: say('A copy of your own chart to mark off as you go. It stays with its original and is passed on to nobody.'),
    },
    'band-sampler': {
      word: say('Band sampler'),
      group: 'paper',
      says: say('A long, narrow piece of rows worked one below the other.'),
    },
    'full-coverage': { word: say('Full coverage'), group: 'paper', says: say('A design that leaves no cloth bare.') },

    count: {
      word: say('Count'),
      group: 'cloth',
      drawing: 'count',
      says: say('How many threads, or woven blocks, the cloth has to the inch. A higher count makes a smaller piece.'),
    },
    'over-one': {
      word: say('Over one'),
      group: 'cloth',
      drawing: 'over-one',
      says: say('Each stitch spans one thread or block of the cloth: 16 count gives 16 stitches to the inch.'),
    },
    'over-two': {
      word: say('Over two'),
      group: 'cloth',
      drawing: 'over-two',
      says: say('Each stitch spans two threads of the cloth each way, so 28 count gives 14 stitches to the inch.'),
    },
    weave: {
      word: say('Woven'),
      group: 'cloth',
      also: say('Aida, evenweave, linen'),
      says: say(
        'In blocks, as Aida, whose blocks are worked over one; or in single threads, as evenweave and linen. Linen has thick and thin threads and may not be square.',
      ),
    },
    ends: {
      word: say('Ends and picks'),
      group: 'cloth',
      also: say('warp and weft'),
      drawing: 'warp',
      says: say(
        'Ends run with the selvedge, picks across. Counted apart, they say whether the cloth is square, and so whether a circle stays one.',
      ),
    },
    squared: {
      word: say('Squared'),
      group: 'cloth',
      says: say(
        'Cut straight along a pulled thread on every side. What was only labelled with a size may lose a quarter or half an inch a side by it.',
      ),
    },
    margin: {
      word: say('Margin'),
      group: 'cloth',
      drawing: 'margin',
      says: say(
        'Bare cloth left round the stitching so that it can be framed or sewn up. It is on each side, so it counts twice.',
      ),
    },
    offcut: {
      word: say('Offcut'),
      group: 'cloth',
      says: say('What is left of a piece after a cut and still large enough to use.'),
    },
    'fat-quarter': {
      word: say('Fat quarter'),
      group: 'cloth',
      says: say('A yard of cloth halved both ways, about 18 by 27 in (45 by 68 cm); halved again it is a fat eighth.'),
    },

    strand: {
      word: say('Strand'),
      group: 'thread',
      says: say(
        'One separable thread of several: stranded cotton usually has six, and a stitch is worked with one or two of them.',
      ),
    },
    'put-up': {
      word: say('Put-up'),
      group: 'thread',
      also: say('skein, hank, spool, card'),
      drawing: 'put-up',
      says: say('The length sold as one: a skein, hank, spool or card. They are not equal, so lengths are reckoned, not skeins.'),
    },
    'part-skein': {
      word: say('Part skein'),
      group: 'thread',
      also: 'part',
      drawing: 'part',
      says: say(
        'What is left of a put-up. Its length is measured, guessed or only “some”; a guess counts, “some” is never counted on.',
      ),
    },
    lot: {
      word: say('Lot'),
      group: 'thread',
      also: say('dye lot'),
      drawing: 'lot',
      says: say(
        'All that came out of one dye bath. The next bath differs a little, so hand-dyed thread and silk are wanted from a single lot.',
      ),
    },
    overdyed: {
      word: say('Overdyed'),
      group: 'thread',
      also: say('hand-dyed, variegated'),
      says: say('Thread whose colour changes along its length. It is worked cross by cross, which takes a little more.'),
    },
    blend: {
      word: say('Blend'),
      group: 'thread',
      says: say('Two or more different threads in the needle at once. Each counts its own strands.'),
    },
    'stand-in': {
      word: say('Swap'),
      group: 'thread',
      also: say('stand-in, substitute'),
      says: say(
        'A thread worked in place of another: near enough in colour, far enough from its neighbours in the chart, and long enough. Look at it on the cloth in daylight first.',
      ),
    },
    need: {
      word: say('Need'),
      group: 'thread',
      says: say(
        'The thread a design takes, reckoned from its stitches, the cloth’s count and the strands, with an allowance for ends and travel.',
      ),
    },
    allowance: {
      word: say('Allowance'),
      group: 'thread',
      says: say(
        'What is used against what lies in the stitches: beginnings, ends, travel and slack. One and a half times is usual; your own log makes it your own.',
      ),
    },

    owner: {
      word: say('Owner'),
      group: 'stock',
      says: say(
        'Whose goods they are: your own, a shop’s, another person’s. One owner’s stock never answers for another’s unasked.',
      ),
    },
    place: {
      word: say('Place'),
      group: 'stock',
      drawing: 'drawer',
      says: say(
        'A room, cabinet, drawer, compartment, box, bag or person. Places stand inside one another, and each has a label.',
      ),
    },
    home: { word: say('Home'), group: 'stock', says: say('The place where a thing lives, as against where it is just now.') },
    out: {
      word: say('Out'),
      group: 'stock',
      says: say('Not in its home: in a bag, lent, or looked for and not found. It is owned, and not free.'),
    },
    promised: {
      word: say('Promised'),
      group: 'stock',
      says: say('Set aside for a project. It is free for that one and for no other.'),
    },
    free: {
      word: say('Free'),
      group: 'stock',
      says: say('What may be used: owned, less what is out, less what is promised to others. Each skein is taken off once.'),
    },
    batch: {
      word: say('Batch'),
      group: 'stock',
      says: say('Stock of one thread that belongs together: one lot, one owner, one place.'),
    },
    'walking-order': {
      word: say('Walking order'),
      group: 'stock',
      says: say(
        'The order in which you pass the drawers, so that a list is walked once and nothing is gone back for. Drawer 2 comes before drawer 10.',
      ),
    },

    project: {
      word: say('Project'),
      group: 'work',
      says: say('One working of a design: from this thread list, on this cloth, for somebody perhaps.'),
    },
    pull: {
      word: say('Pull'),
      group: 'work',
      says: say('To take what a project needs out of the drawers, in walking order, into its bag.'),
    },
    'put-back': {
      word: say('Put-back'),
      group: 'work',
      says: say('What goes home when a bag is unpacked, in walking order; what is missing stays a question until it turns up.'),
    },
    kitted: { word: say('Kitted'), group: 'work', says: say('All of it gathered in a bag: chart, cut cloth, threads, needles.') },
    resting: {
      word: say('Resting'),
      group: 'work',
      also: say('put by'),
      says: say('Begun and put by for now. It keeps its threads.'),
    },
    rotation: { word: say('Rotation'), group: 'work', says: say('A planned taking of turns among works under way.') },
    log: {
      word: say('Log'),
      group: 'work',
      says: say(
        'What was done, day by day: stitches, hours, a photo. Your pace, and so when a piece will be done, follows from it.',
      ),
    },
    stitched: { word: say('Stitched'), group: 'work', says: say('The last stitch is made; it is not yet framed or sewn up.') },
    finished: { word: say('Finished'), group: 'work', says: say('Done: stitched, and made up as it was meant to be.') },

    'kit-cut': {
      word: say('Length cut'),
      group: 'buying',
      says: say('A piece of thread cut for a kit. It has no join, so a put-up gives only as many as go into it whole.'),
    },
    'kit-batch': {
      word: say('Kits of a number'),
      group: 'buying',
      says: say(
        'One project worked as many times, with spares: bags from one to the last, each thread if it can be from one lot.',
      ),
    },
    minimum: {
      word: say('Minimum'),
      group: 'buying',
      says: say('How much of a thread is kept in the drawer. Below it, it stands on the list to reorder.'),
    },
    'blind-count': {
      word: say('Count'),
      group: 'buying',
      also: 'stocktake',
      says: say(
        'Looking at what is really there, without being told what should be. Overs are not set against unders: each line is right or not.',
      ),
    },
  }) as const satisfies Record<string, GlossaryEntry>

export type GlossaryKey = keyof ReturnType<typeof glossary>

export const glossaryEntries = (): readonly (GlossaryEntry & { key: GlossaryKey })[] =>
  Object.entries(glossary()).map(([key, entry]) => ({
    ...(entry as GlossaryEntry),
    key: key as GlossaryKey,
  }))

/** Entries whose words hold all of these. */
export function searchGlossary(words: string): ReturnType<typeof glossaryEntries> {
  const asked = words.toLocaleLowerCase('en').split(/\s+/).filter(Boolean)
  return glossaryEntries().filter(({ word, also = '', says }) => {
    const text = `${word} ${also} ${says}`.toLocaleLowerCase('en')
    return asked.every((one) => text.includes(one))
  })
}

export const glossaryHref = (key: GlossaryKey): string => `/glossary#${key}`
