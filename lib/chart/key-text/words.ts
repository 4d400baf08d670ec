import type { Stitch } from '#lib/thread/stitches'
import type { Phrase, PhraseBook } from './vocabulary'

// The words keys are written in. Common practice, no published source.

const set = (words: string): ReadonlySet<string> => new Set(words.split(' '))

export const strandWords = set('strand strands str strs strd strds stds ply plies')
export const putUpWords = set(
  'skein skeins sk sks skn skns hank hanks spool spools reel reels card cards bobbin bobbins ball balls packet packets pkt pkts pack packs tube tubes vial vials loop loops cone cones put-up put-ups box boxes',
)
export const lengthUnits: Record<string, 'm' | 'cm' | 'mm' | 'yd' | 'in'> = {
  m: 'm',
  mtr: 'm',
  mtrs: 'm',
  metre: 'm',
  metres: 'm',
  meter: 'm',
  meters: 'm',
  cm: 'cm',
  cms: 'cm',
  centimetres: 'cm',
  centimeters: 'cm',
  mm: 'mm',
  yd: 'yd',
  yds: 'yd',
  yard: 'yd',
  yards: 'yd',
  in: 'in',
  ins: 'in',
  inch: 'in',
  inches: 'in',
}
/** Words that make the figure before them a number of stitches. */
export const stitchCountWords = set('stitch stitches st sts stit stitchs squares crosses')

export const numberWords: Record<string, number> = {
  one: 1,
  single: 1,
  two: 2,
  double: 2,
  three: 3,
  four: 4,
  five: 5,
  six: 6,
  seven: 7,
  eight: 8,
  nine: 9,
  ten: 10,
  eleven: 11,
  twelve: 12,
}

/** Kinds of stitch as they are named, longest first; a hyphen counts as a space, and `b s` stands for b/s. */
const stitchNames: [Stitch, string][] = [
  [
    'knotTwoWrap',
    'two wrap french knot|two-wrap french knots|double wrap french knots|french knots two wraps|2 wrap french knots|french knots 2 wraps',
  ],
  ['knotOneWrap', 'french knot|french knots|one wrap french knots|fr knot|fr knots|fk|fks|knot|knots|f knots|french kn'],
  [
    'threeQuarter',
    'three quarter cross stitch|three quarter cross stitches|three quarter cross|three quarter stitch|three quarter stitches|three quarters|three quarter|¾ stitch|¾ stitches|¾ cross|¾ cross stitch|3 4 stitches|3 4 stitch|3/4 stitch|3/4 stitches|3/4 cross|¾|3/4',
  ],
  [
    'quarter',
    'quarter cross stitch|quarter cross|quarter stitch|quarter stitches|quarters|quarter|¼ stitch|¼ stitches|¼ cross|1/4 stitch|1/4 stitches|1/4 cross|¼|1/4',
  ],
  [
    'half',
    'half cross stitch|half cross stitches|half crosses|half cross|half stitch|half stitches|half x|halves|half sts|½ cross|½ cross stitch|½ stitch|½ stitches|½ x|1/2 cross|1/2 stitch|1/2 stitches|½|1/2|half',
  ],
  [
    'full',
    'full cross stitch|full cross stitches|full crosses|full cross|whole cross stitch|whole cross|cross stitch|cross stitches|crosses|full stitch|full stitches|full sts|full x|x stitch|x stitches|x st|x sts|xs|xst|cs|cross|full|whole stitches',
  ],
  [
    'backstitch',
    'back stitch|back stitches|backstitch|backstitches|backstitching|back st|back sts|bs|b s|bst|bkst|outline|outlines|outlining|outline stitch|back',
  ],
  ['doubleRunning', 'double running stitch|double running|holbein stitch|holbein|double run'],
  ['tent', 'tent stitch|tent stitches|tent|continental stitch|continental'],
  ['satin', 'satin stitch|satin stitches|satin'],
  ['eyelet', 'eyelet stitch|eyelet stitches|eyelets|eyelet|eight arm eyelets|algerian eyelets|algerian eyelet'],
  ['bead', 'seed beads|seed bead|beads|bead|beading|beadwork|bead work'],
]
export const stitchPhrases: PhraseBook<Stitch> = (() => {
  const byFirst = new Map<string, Phrase<Stitch>[]>()
  for (const [stitch, names] of stitchNames) {
    for (const name of names.split('|')) {
      const words = name.split(/[ -]/)
      const first = words[0] as string
      byFirst.set(first, [...(byFirst.get(first) ?? []), { words, means: stitch }])
    }
  }
  for (const phrases of byFirst.values()) phrases.sort((left, right) => right.words.length - left.words.length)
  return byFirst
})()
/** Phrases that may be a part of a colour's name or of a sentence: they say the kind of stitch in a heading or behind a count only. */
export const weakStitchWords = set(
  'half full cross back quarter quarters tent continental satin outline cs xs bs fk ½ ¼ ¾ 1/2 1/4 3/4 bead knot knots whole crosses halves beads',
)

/** What is sold as thread, and how it was dyed: the words a line's name is made of. */
export const lineWords = set(
  'stranded cotton cottons silk silks wool wools linen metallic metallics filament filaments braid braids floss flosses thread threads pearl perle rayon hand-dyed handdyed overdyed over-dyed hand-dye variegated shaded space-dyed seed bead beads crewel tapestry mouline yarn ribbon soft fine blending bugle satin embroidery dyed spun matt viscose',
)
/** Words that stand around a maker or a kind of stitch in a heading and say nothing more. */
export const headingFiller = set(
  'key legend colour colours color colors thread threads floss flosses list chart the for in use used using with worked and of stitch stitches stitching stitched symbol symbols shade shades no numbers number required needed you will need materials palette by from all range only section also to work your detail details accent accents lines line version versions option options alternative alternatives choice set pack kit group',
)
/** Words of sentences. */
export const sentenceWords = set(
  'the a an your you is are this these to for from in on when please will all may not be it as at that then can do if before after any our we they was were has have or until once into up out but so its their which while more most other than also only should must',
)
/** Names that are a thread's code where a maker numbers all others. */
export const namedCodes = set('ecru white black blanc raw natural snow cream')
