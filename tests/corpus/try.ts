// npx tsx --conditions=react-server tests/corpus/try.ts <folder> [texts|pdfs|photos] [train|held-out]: reads the corpus and writes the counts by
// field to <folder>/<kind>-<half>.txt; for the train half the share of each template too, and each field that was not read right. Texts take
// seconds, PDFs about a second and photographs some seconds each.

import { mkdirSync, writeFileSync } from 'node:fs'
import path from 'node:path'
import { corpusKinds, holdAgainstTruth } from './hold'
import { overall, scoreTable, sumScores } from './score-table'

const [folder, onlyKind, onlyHalf] = process.argv.slice(2)
if (folder === undefined) {
  console.error('try: say a folder for the tables')
  process.exit(2)
}
mkdirSync(folder, { recursive: true })
for (const kind of corpusKinds) {
  if (onlyKind !== undefined && onlyKind !== kind) continue
  for (const half of ['train', 'held-out'] as const) {
    if (onlyHalf !== undefined && onlyHalf !== half) continue
    const held = await holdAgainstTruth(kind, half)
    const out = [scoreTable(sumScores(held.map(({ score }) => score)))]
    for (const { name, refusal } of held) if (refusal !== null) out.push(`${name} was refused: ${refusal}`)
    if (half === 'train') {
      for (const template of new Set(held.map((one) => one.template))) {
        const of = held.filter((one) => one.template === template)
        const { right, asked, confidentlyWrong } = overall(sumScores(of.map(({ score }) => score)))
        out.push(
          `${template.padEnd(24)} ${right} of ${asked} (${((100 * right) / asked).toFixed(1)} %), sure and wrong ${confidentlyWrong}`,
        )
      }
      for (const { name, template, score } of held) {
        for (const { field, kind: fault, wanted, read, confidence, at } of score.faults) {
          out.push(
            `${name} (${template}) ${at}: ${field} ${fault}: wanted ${wanted}, read ${read}${confidence === null ? '' : ` (${confidence.toFixed(2)})`}`,
          )
        }
      }
    }
    writeFileSync(path.join(folder, `${kind}-${half}.txt`), `${out.join('\n')}\n`)
    console.log(`${kind}, ${half}\n${out[0]}\n`)
  }
}
