/** Counts of one colour in a sample design, by the column names of the lists file. */
export type SampleTally = Partial<
  Record<'Full' | 'Half' | 'Quarter' | 'Three-quarter' | 'Backstitch' | 'Knots (one wrap)' | 'Beads', number>
>

const pitchesEach = {
  Full: 2 * Math.SQRT2 + 2,
  Half: Math.SQRT2 + 1,
  Quarter: 1.5,
  'Three-quarter': 3.9,
  Backstitch: 3,
  Beads: 2.41,
}

/**
 * Metres of one strand that a colour of a sample chart takes, as its publisher would reckon it: geometry of the stitch, half
 * as much again for starts, ends and travel. Only for making up plausible "skeins" columns; the application has its own.
 */
export function sampleNeedM(tally: SampleTally, strands: number, stitchesPerInch: number): number {
  const pitchM = 0.0254 / stitchesPerInch
  let pitches = 0
  for (const [stitch, each] of Object.entries(pitchesEach)) pitches += each * (tally[stitch as keyof typeof pitchesEach] ?? 0)
  const flatM = 0.012 * (tally['Knots (one wrap)'] ?? 0) + 0.003 * (tally.Beads ?? 0)
  return strands * (1.5 * pitches * pitchM + flatM)
}
