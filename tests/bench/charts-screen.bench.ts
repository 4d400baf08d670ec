import http from 'node:http'
import type { Answers } from '#lib/db/answers/answers'
import { startServer } from '#tests/browser/server'
import { madeCollection } from './made-collection'
import type { Bench, Measurement } from './measurement'
import { percentile } from './timing'

const requestCount = 200
const aimedP95Ms = 50

/** A dozen ways of asking the Charts screen, with filters, words and both together. */
export function questionsOf({ world, catalogue }: Answers): string[] {
  const themeId = (axis: string, name: string): string => {
    const found = [...world.themes].find(([, theme]) => theme.axis === axis && theme.name === name)
    if (!found) throw new Error(`charts-screen: no ${axis} "${name}" in the collection`)
    return found[0]
  }
  const records = [...world.designs.keys()].slice(0, 400).map((id) => catalogue.find(id))
  const some = records.find((record) => (record?.designerIds.length ?? 0) > 0 && record?.homePlaceId)
  const clothKind = 'single 28'
  const asked: Record<string, string>[] = [
    {},
    { stitchableNow: '1' },
    { shortByAtMost: '2', clothFits: '1' },
    { season: themeId('season', 'Christmas'), stitchableNow: '1' },
    { subject: themeId('subject', 'birds'), form: themeId('form', 'ornament'), order: 'title' },
    { designer: some?.designerIds[0] as string, order: 'newest' },
    { place: some?.homePlaceId as string },
    { clothCount: clothKind, clothFits: '1', order: 'size' },
    { q: 'heron' },
    { q: 'hreon cottage', stitchableNow: '1' },
    { q: 'winter', season: themeId('season', 'Winter'), shortByAtMost: '3' },
    { owner: 'any', order: 'designer', page: '200' },
  ]
  return asked.map((choice) => `/charts?${new URLSearchParams(choice)}`)
}

/** Time to the last byte of a GET over a connection that is kept open. @throws Error unless it is answered with 200 */
function timeRequest(agent: http.Agent, url: string): Promise<{ ms: number; bytes: number }> {
  return new Promise((resolve, reject) => {
    const begun = performance.now()
    http
      .get(url, { agent }, (response) => {
        let bytes = 0
        response.on('data', (chunk: Buffer) => {
          bytes += chunk.length
        })
        response.on('error', reject)
        response.on('end', () => {
          if (response.statusCode === 200) resolve({ ms: performance.now() - begun, bytes })
          else reject(new Error(`charts-screen: ${url} was answered with ${response.statusCode}`))
        })
      })
      .on('error', reject)
  })
}

async function run(): Promise<Measurement[]> {
  const { folder, answers } = await madeCollection('shop')
  const questions = questionsOf(answers)
  const server = await startServer({ dataFolder: folder })
  const agent = new http.Agent({ keepAlive: true, maxSockets: 1 })
  try {
    for (let turn = 0; turn < 3 * questions.length; turn++) {
      await timeRequest(agent, server.url + questions[turn % questions.length])
      await timeRequest(agent, `${server.url}/api/v1/ready`)
    }
    const times = { charts: [] as number[], health: [] as number[] }
    const byQuestion = new Map<string, { ms: number; bytes: number }[]>()
    for (let turn = 0; turn < requestCount; turn++) {
      const question = questions[turn % questions.length] as string
      const answer = await timeRequest(agent, server.url + question)
      times.charts.push(answer.ms)
      byQuestion.set(question, [...(byQuestion.get(question) ?? []), answer])
      times.health.push((await timeRequest(agent, `${server.url}/api/v1/ready`)).ms)
    }
    for (const [question, found] of byQuestion) {
      const ms = percentile(
        found.map((one) => one.ms),
        0.5,
      )
      console.log(`${ms.toFixed(1).padStart(7)} ms  ${Math.round((found[0]?.bytes ?? 0) / 1024)} KiB  ${question}`)
    }
    return [
      compared('p50', times, 0.5),
      {
        ...compared('p95', times, 0.95),
        goal: { words: `under ${aimedP95Ms} ms`, isMet: percentile(times.charts, 0.95) < aimedP95Ms },
      },
    ]
  } finally {
    agent.destroy()
    await server.stop()
  }
}

function compared(name: string, times: { charts: number[]; health: number[] }, share: number): Measurement {
  const [ours, against] = [percentile(times.charts, share), percentile(times.health, share)]
  return {
    name: `/charts with filters and words, ${name}`,
    ours,
    against,
    ratio: against / ours,
    unit: 'ms',
    samples: requestCount,
    oursRange: [Math.min(...times.charts), Math.max(...times.charts)],
    againstRange: [Math.min(...times.health), Math.max(...times.health)],
    goal: null,
  }
}

export const chartsScreen: Bench = {
  name: 'charts-screen',
  about: [
    `The Charts screen of the shop-size collection as npm start serves it: ${requestCount} requests, one after another, over one open connection on the same machine, a dozen different choices of filters, words and order in turn; the time until the last byte. Held against a floor asked by turns with it, /api/v1/ready, which reads one small table.`,
  ],
  run,
}
