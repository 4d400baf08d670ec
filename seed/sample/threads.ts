import { seededRandom } from '../random'
import {
  beads,
  braid,
  cottonFamilies,
  cottonNeutrals,
  ecru,
  filament,
  handDyedCotton,
  handDyedSilk,
  type Lch,
  madderRun,
  shadedRuns,
  silkNumbers,
} from './colours'
import { cottonDrawers } from './places'

/** What a maker's line is like, in the words of the threads file. */
export type SampleLine = {
  maker: string
  line: string
  fibre: string
  strands: number
  putUp: string
  /** Length of one put-up in metres: 5 yd is 4.572 m. */
  putUpM: number
  putUpWord: string
  dyed: 'solid' | 'variegated' | 'hand-dyed'
  lotsMatter: boolean
}

export type SampleThread = {
  line: SampleLine
  code: string
  name: string
  lab: [number, number, number]
  /** Threads of one run or neighbourhood share it; palettes are drawn by it. */
  run: string
  drawer: string
}

const line = (
  maker: string,
  name: string,
  fibre: string,
  rest: Pick<SampleLine, 'strands' | 'putUp' | 'putUpM' | 'putUpWord' | 'dyed' | 'lotsMatter'>,
): SampleLine => ({ maker, line: name, fibre, ...rest })

const skein8m = { strands: 6, putUp: '8 m', putUpM: 8, putUpWord: 'skein' }
const skein5yd = { strands: 6, putUp: '5 yd', putUpM: 4.572, putUpWord: 'skein' }

export const lines = {
  cotton: line('Larkholm', 'Stranded Cotton', 'cotton', { ...skein8m, dyed: 'solid', lotsMatter: false }),
  shaded: line('Larkholm', 'Shaded Cotton', 'cotton', { ...skein8m, dyed: 'variegated', lotsMatter: false }),
  handDyed: line('Oddny Loft', 'Hand-dyed Cotton', 'cotton', { ...skein5yd, dyed: 'hand-dyed', lotsMatter: true }),
  handDyedSilk: line('Oddny Loft', 'Hand-dyed Silk', 'silk', { ...skein5yd, dyed: 'hand-dyed', lotsMatter: true }),
  silk: line('Brindlequay', 'Stranded Silk', 'silk', {
    ...{ strands: 12, putUp: '5 m', putUpM: 5, putUpWord: 'hank' },
    ...{ dyed: 'solid', lotsMatter: true },
  }),
  filament: line('Quillwater', 'Filament', 'metallic', {
    ...{ strands: 1, putUp: '50 m', putUpM: 50, putUpWord: 'spool' },
    ...{ dyed: 'solid', lotsMatter: false },
  }),
  braid: line('Quillwater', 'Braid', 'metallic', {
    ...{ strands: 1, putUp: '10 m', putUpM: 10, putUpWord: 'spool' },
    ...{ dyed: 'solid', lotsMatter: false },
  }),
  beads: line('Varnaby', 'Seed Beads', 'glass', {
    ...{ strands: 1, putUp: '6 m', putUpM: 6, putUpWord: 'hank' },
    ...{ dyed: 'solid', lotsMatter: false },
  }),
} satisfies Record<string, SampleLine>

const tenth = (value: number) => Math.round(value * 10) / 10 + 0

function labOf([lightness, chroma, hueDeg]: Lch): [number, number, number] {
  const hue = (hueDeg * Math.PI) / 180
  return [tenth(lightness), tenth(chroma * Math.cos(hue)), tenth(chroma * Math.sin(hue))]
}

/**
 * The numbers of the cotton range: Ecru and 479 four-figure codes. Those the worked examples name are fixed, and so is how
 * many lie between them, so that 0087 is the fourteenth colour (first drawer) and 0311 the forty-fifth (second drawer, fifth).
 */
function listCottonCodes(): string[] {
  const random = seededRandom('oxmarsh cotton codes')
  const anchors = [
    { code: 0, place: 1 },
    { code: 17, place: 4 },
    { code: 87, place: 14 },
    { code: 311, place: 45 },
    { code: 742, place: 106 },
    { code: 905, place: 129 },
    ...madderRun.map(({ code }, step) => ({ code: Number(code), place: 172 + step })),
    { code: 3420, place: 480 },
  ]
  const codes: number[] = []
  anchors.forEach(({ code, place }, at) => {
    const before = anchors[at - 1]
    if (before) {
      const between = Array.from({ length: code - before.code - 1 }, (_, step) => before.code + 1 + step)
      codes.push(...random.sample(between, place - before.place - 1).sort((one, other) => one - other))
    }
    codes.push(code)
  })
  return codes.map((code) => (code === 0 ? 'Ecru' : String(code).padStart(4, '0')))
}

const shades = ['Pale', 'Light', '', 'Deep', 'Dark']
const chromaShares = [0.45, 0.75, 1, 0.92, 0.7]

function listCotton(): SampleThread[] {
  const random = seededRandom('oxmarsh cotton colours')
  const runs = cottonFamilies.flatMap(({ lightest, darkest, runs: ofFamily }) =>
    ofFamily.map(([name, chroma, hueDeg]) => {
      const top = lightest + random.normal(0, 1.5)
      const bottom = darkest + random.normal(0, 1.5)
      return shades.map((shade, step) => ({
        name: `${shade} ${name}`.trim(),
        run: name,
        lab: labOf([
          top + ((bottom - top) * step) / 4 + random.normal(0, 0.8),
          Math.max(0.5, chroma * (chromaShares[step] as number) + random.normal(0, 0.8)),
          hueDeg + random.normal(0, 1.2),
        ]),
      }))
    }),
  )
  const mixed = random.shuffle(runs)
  const neutrals = cottonNeutrals.map(({ name, lch }) => ({ name, run: 'Neutrals', lab: labOf(lch) }))
  const madder = madderRun.map(({ name, lab }) => ({ name, run: 'Madder', lab }))
  const colours = [
    { name: 'Ecru', run: 'Neutrals', lab: labOf(ecru) },
    ...mixed.slice(0, 34).flat(),
    ...madder,
    ...mixed.slice(34).flat(),
    ...neutrals,
  ]
  return listCottonCodes().map((code, at) => {
    const colour = colours[at]
    if (!colour) throw new RangeError(`listCotton: no colour for ${code}`)
    return { line: lines.cotton, code, drawer: cottonDrawers[Math.floor(at / 40)] as string, ...colour }
  })
}

function listSilk(): SampleThread[] {
  return silkNumbers.flatMap(([number, lightness, chroma, hueDeg]) =>
    ['', 'A', 'B'].map((depth, step) => ({
      line: lines.silk,
      code: `${number}${depth}`,
      name: '',
      lab: labOf([lightness - 12 * step, chroma * (1 + 0.1 * step), hueDeg]),
      run: `silk ${number}`,
      drawer: number <= 60 ? 'T9.1' : 'T9.2',
    })),
  )
}

const numbered = (of: SampleLine, drawer: string, colours: [code: string, name: string, ...lch: Lch][]): SampleThread[] =>
  colours.map(([code, name, ...lch]) => ({ line: of, code, name, lab: labOf(lch), run: of.line, drawer }))

const named = (of: SampleLine, drawer: string, colours: [name: string, ...lch: Lch][]): SampleThread[] =>
  colours.map(([name, ...lch]) => ({ line: of, code: name, name: '', lab: labOf(lch), run: drawer, drawer }))

/** Every thread of the sample, line by line in code order. */
export function listSampleThreads(): SampleThread[] {
  const cotton = listCotton()
  const shaded = shadedRuns.map((run, at) => {
    const middle = cotton.find(({ name }) => name === run)
    if (!middle) throw new RangeError(`listSampleThreads: there is no run ${run} to shade`)
    return {
      line: lines.shaded,
      code: `S${String(at + 1).padStart(2, '0')}`,
      name: `${run} Shades`,
      lab: middle.lab,
      run: 'shaded',
      drawer: 'T4.4',
    }
  })
  return [
    ...cotton,
    ...shaded,
    ...Object.entries(handDyedCotton).flatMap(([drawer, colours]) => named(lines.handDyed, drawer, colours)),
    ...named(lines.handDyedSilk, 'T10.4', handDyedSilk),
    ...listSilk(),
    ...numbered(lines.filament, 'T4.3', filament),
    ...numbered(lines.braid, 'T4.3', braid),
    ...numbered(lines.beads, 'T9.3', beads),
  ]
}
