import type { Random } from '#seed/random'
import type { TruthDesign, TruthFacts } from '../truth'
import { centimetresUm, inchesUm, noFacts, perInchCount, perTenCmCount, saidCloth } from '../writing'

export const widerTitles = [
  'Verse for a Pantry',
  'The Weighhouse',
  'Larch in October',
  'Ferryman’s Coat',
  'Three Jugs',
  'Plum Stone Rhyme',
  'Winter Post',
  'The Tallow House',
  'Acorn Reckoner',
  'Market Day at Oxmarsh',
  'Hare by the Pump',
  'A Row of Coats',
  'Snowdrop Inventory',
  'Frost on the Staithe',
  'Bell Tower Band',
  'Small Blue Ship',
  'Pear Tree Census',
  'The Last Lantern',
]
export const widerDesigners = [
  'Wilf Sarratt',
  'Agatha Renfrow-Lisle',
  'Bettony Crake',
  'Marsh Elder Press',
  'Kestrel Yard',
  'Tin Kettle Row',
  'Halfpenny Staithe',
  'Mirabel Stoat',
]

export type SaidFacts = Pick<TruthDesign, 'facts' | 'notAsked'> & { lines: string[] }
const halves = (value: number) => Math.round(value * 2) / 2
const halfText = (value: number) => (value % 1 === 0 ? String(value) : `${Math.floor(value)}½`)
const colours = ['Natural', 'Flax', 'Cream', 'Blue Grey', 'Night Blue', 'Pale Pink']

/** The head of a leaflet, in other wordings. */
export function sayFacts(random: Random, title = random.pick(widerTitles)): SaidFacts {
  const designer = random.pick(widerDesigners)
  const [width, height] = [random.int(30, 280), random.int(44, 300)]
  const colour = random.pick(colours)
  const facts: TruthFacts = { ...noFacts, title, designer, widthStitches: width, heightStitches: height }
  const said = (lines: string[], more: Partial<TruthFacts>, notAsked: (keyof TruthFacts)[] = []): SaidFacts => ({
    lines,
    facts: { ...facts, ...more },
    notAsked,
  })
  const block = random.pick([11, 14, 16, 18])
  const linen = random.pick([25, 28, 32, 36])
  switch (random.int(0, 7)) {
    case 0:
      return said(
        [
          title,
          `A design by ${designer}`,
          `Stitch area: ${width} by ${height} stitches`,
          `Cloth advised: Harrowmere linen, ${linen} threads to the inch, ${colour}, worked over two`,
        ],
        {
          count: perInchCount(linen),
          over: 2,
          weave: 'single',
          cloth: saidCloth('Harrowmere linen', `Harrowmere linen, ${linen} threads to the inch, ${colour}, worked over two`),
        },
      )
    case 1: {
      const [wide, high] = [halves(width / block), halves(height / block)]
      return said(
        [
          title,
          `Design © ${designer}`,
          `Design area ${halfText(wide)}" x ${halfText(high)}" on ${block} count Aida`,
          `Width ${width} stitches, height ${height} stitches`,
        ],
        {
          measuredWidthUm: inchesUm(wide),
          measuredHeightUm: inchesUm(high),
          count: perInchCount(block),
          weave: 'block',
          cloth: saidCloth('Aida', `${block} count Aida`),
        },
      )
    }
    case 2:
      return said(
        [
          `Chart: ${title}`,
          `Design: ${designer}`,
          `Chart size in stitches: ${width} (w) x ${height} (h)`,
          `Ground: ${linen}-count Ostravane Evenweave (${colour}), stitched over 2 threads`,
        ],
        {
          count: perInchCount(linen),
          over: 2,
          weave: 'single',
          cloth: saidCloth(
            'Ostravane Evenweave',
            `${linen}-count ${linen} count Ostravane Evenweave (${colour}), stitched over 2 threads`,
          ),
        },
      )
    case 3: {
      const metric = random.pick([90, 110, 126])
      const [wide, high] = [halves(width / (metric / 20)), halves(height / (metric / 20))]
      return said(
        [
          title.toUpperCase(),
          designer.toUpperCase(),
          `Approx. ${wide} cm by ${high} cm`,
          `Worked over two threads of evenweave, ${metric} threads/10 cm`,
        ],
        {
          widthStitches: null,
          heightStitches: null,
          measuredWidthUm: centimetresUm(wide),
          measuredHeightUm: centimetresUm(high),
          count: perTenCmCount(metric),
          over: 2,
          weave: 'single',
          cloth: saidCloth('evenweave', `evenweave, ${metric} threads/10 cm worked over two threads of`),
        },
      )
    }
    case 4:
      return said(
        [
          `${title}, a chart from ${designer}`,
          `W ${width} × H ${height}`,
          `Material: Stennick Mill Aida, ${block}ct, ${colour.toLowerCase()}`,
        ],
        {
          count: perInchCount(block),
          weave: 'block',
          cloth: saidCloth('Stennick Mill Aida', `Stennick Mill Aida, ${block}ct ${block} ct, ${colour.toLowerCase()}`),
        },
      )
    case 5:
      return said(
        [
          `Name of design: ${title}`,
          `Charted by: ${designer}`,
          `Size in stitches: ${height}h x ${width}w`,
          `Our model is on ${linen} ct linen over 1.`,
        ],
        {
          count: perInchCount(linen),
          over: 1,
          weave: 'single',
          cloth: saidCloth('linen', `${linen} ct linen over 1`),
        },
      )
    case 6:
      return said([`“${title}”`, `from ${designer}`, `${width} stitches x ${height} stitches`], {})
    default:
      return said(
        [
          `${designer} presents`,
          title,
          `The stitched area measures ${width} x ${height} crosses`,
          `(14 ct = ${halves(width / 14)} x ${halves(height / 14)} in, 18 ct = ${halves(width / 18)} x ${halves(height / 18)} in)`,
        ],
        {},
        ['count', 'measuredWidthUm', 'measuredHeightUm', 'over', 'weave', 'cloth'],
      )
  }
}

export const widerProse = [
  'All rights reserved. One copy of this leaflet is meant for one stitcher.',
  'Each symbol stands for one stitch; a line on the chart is worked when the crosses are done.',
  'Measure the middle of the cloth by folding it in quarters, and mark it with a tacking thread.',
  'Should you run short of a colour, take the new length from the same bath if you can.',
  'Keep needles and scissors out of the reach of children.',
  'Lace the finished work over acid-free board before framing.',
  'Tapestry needle no. 24; embroidery frame, 12 in.',
  'From the winter issue, pages 14 to 17.',
  'We hope that you have as much pleasure from it as we had in making it in 2024.',
]
