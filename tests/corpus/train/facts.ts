import type { Random } from '#seed/random'
import type { TruthDesign, TruthFacts } from '../truth'
import { centimetresUm, inchesUm, noFacts, perInchCount, perTenCmCount, saidCloth } from '../writing'

export const trainTitles = [
  'Rook Hill in Snow',
  'Seven Lanterns',
  'Kettle at Wend Cross',
  'The Ropewalk Sampler',
  'Geese over Tarnbeck',
  'Wheel of Hours',
  'Hollin Staithe Alphabets',
  'Wick Lane',
  'Orchard Gate',
  'The Salt Road',
  'Nine Wrens',
  'Lamp in the Loft',
  'Quince and Compass',
  'Harbour Band Sampler',
  'Hearth and Heron',
  "The Miller's Ledger",
  'Bees for Bettony',
  'Fourth Sunday',
  'Little Barge',
  'Moth and Candle',
]
const designers = [
  'Mirabel Stoat',
  'Josune Applegarth',
  'Corvin Ashdale',
  'Tilda Quennell',
  'Nettie Vandermoor',
  'Ottoline Burrage',
  'Peregrine Tolliver',
  'Dorrit Quayle',
  'Ioana Feldspar',
  'Saskia Thrupp',
  'Brackwater Samplers',
  'Wick and Wicket',
]

export type SaidFacts = Pick<TruthDesign, 'facts' | 'notAsked'> & { lines: string[] }
const quarters = (value: number) => Math.round(value * 4) / 4
const colours = ['White', 'Antique White', 'Parchment', 'Oatmeal', 'Willow Green', 'Pale Grey']

/** The head of a leaflet: title, designer, size and cloth, in one of several wordings. */
export function sayFacts(random: Random, title = random.pick(trainTitles)): SaidFacts {
  const designer = random.pick(designers)
  const [width, height] = [random.int(40, 260), random.int(40, 320)]
  const colour = random.pick(colours)
  const facts: TruthFacts = { ...noFacts, title, designer, widthStitches: width, heightStitches: height }
  const said = (lines: string[], more: Partial<TruthFacts>, notAsked: (keyof TruthFacts)[] = []): SaidFacts => ({
    lines,
    facts: { ...facts, ...more },
    notAsked,
  })
  const block = random.pick([14, 16, 18])
  const linen = random.pick([28, 32, 36, 40])
  switch (random.int(0, 21)) {
    case 0:
      return said(
        [
          title,
          `by ${designer}`,
          '',
          `Stitch count: ${width} x ${height}`,
          `Fabric: ${linen} count Ostravane evenweave over two threads`,
        ],
        {
          count: perInchCount(linen),
          over: 2,
          weave: 'single',
          cloth: saidCloth('Ostravane evenweave', `${linen} count Ostravane evenweave over two threads`),
        },
      )
    case 1: {
      const [wide, high] = [quarters(width / block), quarters(height / block)]
      return said(
        [
          title.toUpperCase(),
          `Designed by ${designer}`,
          `Design size: ${width}w x ${height}h`,
          `Finished size ${wide} x ${high} in on ${block} count Stennick Aida, ${colour}`,
        ],
        {
          measuredWidthUm: inchesUm(wide),
          measuredHeightUm: inchesUm(high),
          count: perInchCount(block),
          weave: 'block',
          cloth: saidCloth('Stennick Aida', `${block} count Stennick Aida, ${colour}`),
        },
      )
    }
    case 2:
      return said([`${title} – ${designer}`, `${width} × ${height} stitches, ${block}-count Aida`], {
        count: perInchCount(block),
        weave: 'block',
        cloth: saidCloth('Aida', `${block}-count ${block} count Aida`),
      })
    case 3: {
      const [wide, high] = [quarters(width / block), quarters(height / block)]
      return said(
        [
          `Design: ${title}`,
          `Designer: ${designer}`,
          `Size: ${wide} x ${high} in (${block} ct)`,
          `Cloth: Stennick Aida ${block} ct, ${colour}`,
        ],
        {
          widthStitches: null,
          heightStitches: null,
          measuredWidthUm: inchesUm(wide),
          measuredHeightUm: inchesUm(high),
          count: perInchCount(block),
          weave: 'block',
          cloth: saidCloth('Stennick Aida', `Stennick Aida ${block} ct, ${colour}`),
        },
      )
    }
    case 4: {
      const metric = random.pick([100, 110, 126])
      const [wide, high] = [Math.round((width / (metric / 2)) * 100) / 10, Math.round((height / (metric / 2)) * 100) / 10]
      return said(
        [
          `"${title}"`,
          `Chart by ${designer}`,
          `Finished size: ${wide} x ${high} cm`,
          `${width} x ${height} sts`,
          `Linen, ${metric} threads per 10 cm, worked over 2`,
        ],
        {
          measuredWidthUm: centimetresUm(wide),
          measuredHeightUm: centimetresUm(high),
          count: perTenCmCount(metric),
          over: 2,
          weave: 'single',
          cloth: saidCloth('Linen', `Linen, ${metric} threads per 10 cm, worked over 2`),
        },
      )
    }
    case 5:
      return said(
        [title, designer, `Stitch Count: ${width}W x ${height}H`, `Stitched on ${linen}ct Harrowmere Linen, ${colour}, over 2`],
        {
          count: perInchCount(linen),
          over: 2,
          weave: 'single',
          cloth: saidCloth('Harrowmere Linen', `${linen}ct ${linen} ct Harrowmere Linen, ${colour}, over 2`),
        },
      )
    case 6:
      return said(
        [`Title: ${title}`, `Designer: ${designer}`, `Stitches: ${width} wide by ${height} high`, `Fabric: ${block} count`],
        { count: perInchCount(block) },
      )
    case 7:
      return said(
        [
          `${title} by ${designer}`,
          `The design is ${width} stitches wide and ${height} stitches high.`,
          `Model stitched over one on ${random.pick(['', 'Antique '])}linen, 28 count.`,
        ],
        {
          count: perInchCount(28),
          over: 1,
          weave: 'single',
          cloth: saidCloth('linen', 'Antique linen, 28 count over one'),
        },
      )
    case 8:
      return said(
        [
          `Pattern: ${title}`,
          `Pattern by ${designer}`,
          `Size: ${width} sts x ${height} sts`,
          `Recommended fabric: ${linen} ct evenweave (over two)`,
        ],
        {
          count: perInchCount(linen),
          over: 2,
          weave: 'single',
          cloth: saidCloth('evenweave', `${linen} ct evenweave (over two)`),
        },
      )
    case 9:
      return said([`${title} | ${designer}`, `Grid: ${width} x ${height}`, `Aida ${block} ct`], {
        count: perInchCount(block),
        weave: 'block',
        cloth: saidCloth('Aida', `Aida ${block} ct`),
      })
    case 10: {
      const [wide, high] = [quarters(width / block), quarters(height / block)]
      return said(
        [
          title,
          `An original chart by ${designer}`,
          `${wide} inches wide and ${high} inches high on ${block}-count Aida, ${colour}`,
        ],
        {
          widthStitches: null,
          heightStitches: null,
          measuredWidthUm: inchesUm(wide),
          measuredHeightUm: inchesUm(high),
          count: perInchCount(block),
          weave: 'block',
          cloth: saidCloth('Aida', `${block}-count ${block} count Aida, ${colour}`),
        },
      )
    }
    case 11:
      return said(
        [
          title,
          `Artist: ${designer}`,
          `Width: ${width} stitches`,
          `Height: ${height} stitches`,
          `Linen: ${linen} count, ${colour}. Work over 2.`,
        ],
        {
          count: perInchCount(linen),
          over: 2,
          weave: 'single',
          cloth: saidCloth('Linen', `Linen: ${linen} count, ${colour}. over 2`),
        },
      )
    case 12:
      return said(
        [
          `Presented by ${designer}:`,
          `“${title}”`,
          `This design is ${width} x ${height} and was worked on ${linen} count Ostravane linen over two.`,
        ],
        {
          count: perInchCount(linen),
          over: 2,
          weave: 'single',
          cloth: saidCloth('Ostravane linen', `${linen} count Ostravane linen over two`),
        },
      )
    case 13:
      return said(
        [
          `Chart no. ${random.int(3, 99)}: ${title}`,
          `Author: ${designer}`,
          `Stitches (w x h): ${width} x ${height}`,
          `Number of colours: ${random.int(6, 40)}`,
          'Skill: easy',
        ],
        {},
      )
    case 14:
      return said([designer.toUpperCase(), title, `${width} wide x ${height} high`, 'First published in spring 2019'], {}, [
        'title',
        'designer',
      ])
    case 15:
      return said([`© 2021 ${designer}`, title, `Size of the chart ${width} x ${height}`, `${linen}-ct linen over two`], {
        count: perInchCount(linen),
        over: 2,
        weave: 'single',
        cloth: saidCloth('linen', `${linen}-ct ${linen} ct linen over two`),
      })
    case 16:
      return said(
        [
          `${title}, designed and charted by ${designer}`,
          `${width} stitches across, ${height} stitches down`,
          `Aida with ${block} squares to the inch`,
        ],
        {
          count: perInchCount(block),
          weave: 'block',
          cloth: saidCloth('Aida', `Aida with ${block} squares to the inch`),
        },
      )
    case 17:
      return said([`${designer} brings you`, title.toUpperCase(), `Total size: ${width} by ${height}`], {})
    case 18:
      return said(
        [
          `Design title: ${title}`,
          `Copyright: ${designer}`,
          `Finished design: ${height} high, ${width} wide`,
          `Ground fabric: Stennick Aida ${block}-count in ${colour}`,
        ],
        {
          count: perInchCount(block),
          weave: 'block',
          cloth: saidCloth('Stennick Aida', `Stennick Aida ${block}-count ${block} count in ${colour}`),
        },
      )
    case 19: {
      const [wide, high] = [Math.round(width / 5.5), Math.round(height / 5.5)]
      return said(
        [
          `“${title}” by ${designer}`,
          `Measures about ${wide} × ${high} cm on evenweave with 11 threads per cm, over two threads`,
        ],
        {
          widthStitches: null,
          heightStitches: null,
          measuredWidthUm: centimetresUm(wide),
          measuredHeightUm: centimetresUm(high),
          count: perTenCmCount(110),
          over: 2,
          weave: 'single',
          cloth: saidCloth('evenweave', 'evenweave with 11 threads per cm, over two threads'),
        },
      )
    }
    case 20:
      return said([`The chart: ${title}`, `Its designer: ${designer}`, `Count: ${width} stitches by ${height} stitches`], {})
    default:
      return said(
        [
          title,
          `© ${designer}`,
          `Design count ${width} x ${height}`,
          `on 14 ct: ${quarters(width / 14)} x ${quarters(height / 14)} in`,
          `on 16 ct: ${quarters(width / 16)} x ${quarters(height / 16)} in`,
          `on 18 ct: ${quarters(width / 18)} x ${quarters(height / 18)} in`,
        ],
        {},
        ['count', 'measuredWidthUm', 'measuredHeightUm', 'over', 'weave', 'cloth'],
      )
  }
}

/** What stands round a key and is none of it. */
export const trainProse = [
  'Copyright: this chart is for the buyer’s own use. Please do not copy it or pass it on.',
  'Find the centre of the chart and the centre of your cloth and begin there.',
  'Cut your thread to about 18 inches. Do not knot the end; run it under a few stitches.',
  'Wash by hand in cool water if the colours are fast, and press face down on a towel.',
  'Each square of the chart is one cross stitch. Make sure that all your top legs lie the same way.',
  'Enjoy your stitching! Questions are welcome at the shop in Marl Street.',
  'Needle: tapestry, size 26. Hoop: 8 in.',
  'Number of colours: 14. Skill: some practice needed.',
  'Price 9.50. Oxmarsh Needle Room chart no. 112.',
  'Printed in Oxmarsh. Second printing, with the border put right.',
]
