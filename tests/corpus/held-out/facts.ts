import type { Random } from '#seed/random'
import { type SaidFacts, widerDesigners, widerTitles } from '../train/wider-facts'
import type { TruthFacts } from '../truth'
import { centimetresUm, inchesUm, noFacts, perInchCount, perTenCmCount, saidCloth } from '../writing'

/** The names are those of the wider texts: it is the wording that is new. */
export const heldOutTitles = widerTitles

export type { SaidFacts }

const quarters = (value: number) => Math.max(0.25, Math.round(value * 4) / 4)
const quarterText = (value: number): string => {
  const part = ['', '1/4', '1/2', '3/4'][(value % 1) * 4] as string
  return value < 1 ? part : part === '' ? String(value) : `${Math.floor(value)} ${part}`
}
const colours = ['White', 'Antique White', 'Raw', 'Dove', 'Slate', 'Straw', 'Moss']

/** The head of a leaflet, in wordings that no text of the train half has. */
export function sayFacts(random: Random, title = random.pick(heldOutTitles)): SaidFacts {
  const designer = random.pick(widerDesigners)
  const [width, height] = [random.int(28, 260), random.int(40, 310)]
  const colour = random.pick(colours)
  const facts: TruthFacts = { ...noFacts, title, designer, widthStitches: width, heightStitches: height }
  const said = (lines: string[], more: Partial<TruthFacts>, notAsked: (keyof TruthFacts)[] = []): SaidFacts => ({
    lines,
    facts: { ...facts, ...more },
    notAsked,
  })
  const block = random.pick([11, 14, 16, 18])
  const linen = random.pick([28, 30, 32, 40])
  switch (random.int(0, 8)) {
    case 0:
      return said(
        [
          title,
          `by ${designer}`,
          '',
          `Size: ${width} x ${height} st.`,
          `Fabric: ${linen} ct Harrowmere Looms linen ‘${colour}’ (over 2)`,
        ],
        {
          count: perInchCount(linen),
          over: 2,
          weave: 'single',
          cloth: saidCloth('Harrowmere Looms linen', `${linen} ct Harrowmere Looms linen ‘${colour}’ (over 2) over 2`),
        },
      )
    case 1: {
      const [wide, high] = [quarters(width / block), quarters(height / block)]
      return said(
        [
          designer,
          title,
          `Stitches: ${width} across and ${height} down`,
          `Finished on ${block}-count Aida: ${quarterText(wide)} x ${quarterText(high)} inches`,
        ],
        {
          measuredWidthUm: inchesUm(wide),
          measuredHeightUm: inchesUm(high),
          count: perInchCount(block),
          weave: 'block',
          cloth: saidCloth('Aida', `${block}-count Aida ${block} count`),
        },
      )
    }
    case 2:
      return said(
        [
          `TITLE: ${title}`,
          `DESIGNER: ${designer}`,
          `WIDTH: ${width} stitches`,
          `HEIGHT: ${height} stitches`,
          `CLOTH: Ostravane Evenweave, ${linen} count, ${colour}`,
          'OVER: two threads',
        ],
        {
          count: perInchCount(linen),
          over: 2,
          weave: 'single',
          cloth: saidCloth('Ostravane Evenweave', `Ostravane Evenweave, ${linen} count, ${colour} two threads over`),
        },
      )
    case 3: {
      const metric = random.pick([54, 70, 79])
      const [wide, high] = [Math.round(width / (metric / 10)), Math.round(height / (metric / 10))]
      return said(
        [
          `${title} (${designer})`,
          `Motif size ${wide} × ${high} cm, ${width} × ${height} crosses`,
          `On Aida with ${metric} blocks to 10 cm`,
        ],
        {
          measuredWidthUm: centimetresUm(wide),
          measuredHeightUm: centimetresUm(high),
          count: perTenCmCount(metric),
          weave: 'block',
          cloth: saidCloth('Aida', `Aida with ${metric} blocks to 10 cm`),
        },
      )
    }
    case 4:
      return said(
        [
          title,
          `designed and charted by ${designer}`,
          `Model worked on 28-count linen over two. The model counts ${width}w by ${height}h.`,
        ],
        {
          count: perInchCount(28),
          over: 2,
          weave: 'single',
          cloth: saidCloth('linen', '28-count 28 count linen over two'),
        },
      )
    case 5:
      return said([`${designer} · ${title}`, `Grid ${width} × ${height}`, `Stennick Mill Aida ${block}`], {
        count: perInchCount(block),
        weave: 'block',
        cloth: saidCloth('Stennick Mill Aida', `Stennick Mill Aida ${block}`),
      })
    case 6:
      return said([title, `© ${random.int(2009, 2025)} ${designer}`, `${width} wide, ${height} high (in stitches)`], {})
    case 7: {
      const [wide, high] = [quarters(width / 14), quarters(height / 14)]
      return said(
        [
          title,
          `${designer} designs`,
          `Stitch count ${width}W ${height}H`,
          `${wide.toFixed(2)}" by ${high.toFixed(2)}" when worked on 28 ct evenweave over 2`,
        ],
        {
          measuredWidthUm: inchesUm(Number(wide.toFixed(2))),
          measuredHeightUm: inchesUm(Number(high.toFixed(2))),
          count: perInchCount(28),
          over: 2,
          weave: 'single',
          cloth: saidCloth('evenweave', '28 ct evenweave over 2'),
        },
      )
    }
    default:
      return said([`“${title}” by ${designer}`, `Stitch count: ${width} × ${height}`], {})
  }
}

export const heldOutProse = [
  'This chart is for your own use; please do not copy it or pass it on.',
  'Begin in the middle and count outwards; grid lines stand at every tenth stitch.',
  'Press the finished piece face down on a towel, with a cool iron.',
  'Dark reds and blues may bleed: try them on a damp white cloth before you wash the work.',
  'Leave three inches of cloth on every side for the framer.',
  'Find the kit and other charts at your needlework shop.',
  'Use a hoop of 6 inches and a tapestry needle, size 26.',
  'Page 2 of 4',
  'First printed 2018; second printing 2021 with the roof corrected.',
]
