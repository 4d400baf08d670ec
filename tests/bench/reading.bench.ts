import { type CorpusKind, corpusKinds, holdAgainstTruth } from '#tests/corpus/hold'
import type { ScoredField, Tally } from '#tests/corpus/score'
import { askedOf, overall, sumScores } from '#tests/corpus/score-table'
import type { Bench, Measurement } from './measurement'

const leastRight: Record<CorpusKind, number> = { texts: 97, pdfs: 97, photos: 90 }
const mostConfidentlyWrong = 1

const shareOf = (tally: Tally | undefined): number | null =>
  tally === undefined || askedOf(tally) === 0 ? null : (100 * tally.right) / askedOf(tally)

/** Fields as a reader of the table calls them. */
const words: Partial<Record<ScoredField, string>> = {
  line: 'key lines found',
  'drawn symbol': 'symbols that are drawings, counted apart',
  thread: 'the thread meant',
  stitches: 'kind of stitch',
  'stitch count': 'number of stitches',
  widthStitches: 'width in stitches',
  heightStitches: 'height in stitches',
  measuredWidthUm: 'width as measured',
  measuredHeightUm: 'height as measured',
}

async function measureKind(kind: CorpusKind): Promise<Measurement[]> {
  const heldOut = sumScores((await holdAgainstTruth(kind, 'held-out')).map(({ score }) => score))
  const train = sumScores((await holdAgainstTruth(kind, 'train')).map(({ score }) => score))
  const row = (
    name: string,
    ours: number | null,
    against: number | null,
    samples: number,
    goal: Measurement['goal'] = null,
  ): Measurement[] =>
    ours === null
      ? []
      : [{ name: `${kind}: ${name}`, ours, against, ratio: null, unit: '%', samples, oursRange: null, againstRange: null, goal }]
  const [of, ofTrain] = [overall(heldOut), overall(train)]
  const right = 100 * of.shareRight
  const confidentlyWrong = 100 * of.shareConfidentlyWrong
  return [
    ...row('fields read right', right, 100 * ofTrain.shareRight, of.asked, {
      words: `at least ${leastRight[kind]} %`,
      isMet: right >= leastRight[kind],
    }),
    ...row('fields read wrong and yet as sure', confidentlyWrong, 100 * ofTrain.shareConfidentlyWrong, of.asked, {
      words: `at most ${mostConfidentlyWrong} %`,
      isMet: confidentlyWrong <= mostConfidentlyWrong,
    }),
    ...[...heldOut].flatMap(([field, tally]) =>
      row(words[field] ?? field, shareOf(tally), shareOf(train.get(field)), askedOf(tally)),
    ),
  ]
}

async function run(): Promise<Measurement[]> {
  const measured: Measurement[] = []
  for (const kind of corpusKinds) measured.push(...(await measureKind(kind)))
  return measured
}

export const reading: Bench = {
  name: 'reading',
  about: [
    'How much of a key is read right, not how fast: 300 texts, 108 PDFs and 84 photographs of keys, made by a script that knows nothing of the reader (tests/corpus), each with what it says. The column “ours” is the held-out half, 100 texts, 30 PDFs and 30 photographs, whose templates, makers, wording and fonts the reader was not written by; the column “against” is the other half, which it was. The samples are fields of the held-out half.',
    'A field is right when it stands as the document says it; all others that the document says, and all that were read where nothing stands, count against it. A thread is right when it is the very one of the vocabulary that is meant, or none where none is. A symbol that is a drawing, or in a photograph neither letter nor digit, is counted apart and has no part in the first row; what was made of it and said to be sure has in the second.',
  ],
  run,
}
