import qrcode from 'qrcode'
import type { Label } from '#lib/label/label'
import { type LabelSheet, labelSheets } from '#lib/printing/label-sheets'
import { labelsPdf } from '#lib/printing/pdf/labels-pdf'
import { seededRandom } from '#seed/random'
import type { Bench, Measurement } from './measurement'
import { measuredBytes } from './memory'
import { comparedTimes, spreadOf } from './timing'

const labelCount = 1_200
const rounds = 7
const warmUps = 2
const base = 'http://192.168.1.20:4300'
const mostBytes = 150 * 1024 * 1024

const sheet = labelSheets.find(({ key }) => key === 'a4-3x8') as LabelSheet

function makeLabels(): Label[] {
  const random = seededRandom('labels')
  const digits = (count: number) => Array.from({ length: count }, () => Math.floor(random.next() * 16).toString(16)).join('')
  return Array.from({ length: labelCount }, (_, at): Label => {
    const id = `0192f0c1-${digits(4)}-7${digits(3)}-9${digits(3)}-${digits(12)}`
    const drawer = `T${1 + Math.floor(at / 160)}.${1 + (Math.floor(at / 40) % 4)}`
    const title = `${drawer}-${String(1 + (at % 40)).padStart(2, '0')}`
    return { noun: 'place', thingId: id, title, note: `Kitting room › Cabinet T › ${drawer}`, path: `/places/${id}` }
  })
}

async function run(): Promise<Measurement[]> {
  const labels = makeLabels()
  const print = () =>
    labelsPdf(labels, {
      ...{ stock: { kind: 'sheet', sheet, startAt: 1 }, base, hasOutlines: false },
      ...{ title: 'Labels', createdAt: new Date('2026-03-03T10:00:00Z') },
    })
  const matricesAlone = () => {
    let dark = 0
    for (const { path } of labels) dark += qrcode.create(base + path, { errorCorrectionLevel: 'M' }).modules.data[0] ?? 0
    // Every symbol begins with the dark corner of its finder.
    if (dark !== labelCount) throw new Error(`labels: ${dark} of ${labelCount} symbols begin dark`)
  }

  const samples = { ours: [] as number[], against: [] as number[] }
  const time = async (work: () => unknown) => {
    const begun = performance.now()
    await work()
    return performance.now() - begun
  }
  let mostUsed = 0
  for (let round = -warmUps; round < rounds; round++) {
    const before = process.memoryUsage().rss
    const turns = round % 2 === 0 ? (['ours', 'against'] as const) : (['against', 'ours'] as const)
    for (const turn of turns) {
      const ms = await time(turn === 'ours' ? print : matricesAlone)
      if (round >= 0) samples[turn].push(ms)
    }
    mostUsed = Math.max(mostUsed, process.memoryUsage().rss - before)
  }
  const times = { ours: spreadOf(samples.ours), against: spreadOf(samples.against) }
  const count = labelCount.toLocaleString('en')
  return [
    comparedTimes(`${count} labels with codes in one PDF, against making the codes alone`, times, {
      samples: rounds,
      timesFaster: 1 / 2.2,
    }),
    measuredBytes('memory it takes beside that', mostUsed, { words: 'under 150 MB', isMet: mostUsed < mostBytes }),
  ]
}

export const labels: Bench = {
  name: 'labels',
  about: [
    '1,200 labels on sheets of 24, words and QR code on each, laid out and written as one PDF; against making the same 1,200 QR symbols with the library ours uses and doing nothing with them, by turns in the same run. Memory is the most that the process’s resident memory grew by in a round.',
  ],
  run,
}
