// npx tsx --conditions=react-server tests/corpus/dump.ts train <folder> [texts|pdfs|photos]: writes the train half of the corpus out, each
// document beside its truth as JSON, to be looked at. The other half is for scoring and is not written.

import { mkdirSync, writeFileSync } from 'node:fs'
import path from 'node:path'
import { makePdfs } from './pdfs'
import { makePhotos } from './photos'
import { makeTexts } from './texts'
import type { Made } from './truth'

const [half, folder, only] = process.argv.slice(2)
if (half !== 'train' || folder === undefined) {
  console.error('dump: say "train" and a folder; the held-out half is not for looking at')
  process.exit(2)
}
mkdirSync(folder, { recursive: true })
const put = (made: Made, ending: string, content: string | Uint8Array) => {
  writeFileSync(path.join(folder, `${made.name}.${ending}`), content)
  const { name, template, known, designs } = made
  writeFileSync(path.join(folder, `${name}.truth.json`), `${JSON.stringify({ name, template, designs, known }, null, 1)}\n`)
}
if (only === undefined || only === 'texts') for (const made of makeTexts('train')) put(made, 'txt', made.text)
if (only === undefined || only === 'pdfs') for await (const made of makePdfs('train')) put(made, 'pdf', made.bytes)
if (only === undefined || only === 'photos') for await (const made of makePhotos('train')) put(made, 'jpg', made.bytes)
