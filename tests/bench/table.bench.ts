import type { Browser, Page } from 'playwright-core'
import { applyChartBulk } from '#lib/db/chart-bulk/apply-chart-bulk'
import { undoChartBulk } from '#lib/db/chart-bulk/undo-chart-bulk'
import { launchChromium } from '#tests/browser/chromium'
import { startServer } from '#tests/browser/server'
import { madeCollection } from './made-collection'
import type { Bench, Measurement } from './measurement'
import { percentile } from './timing'

/** Turns of the wheel, and how far each goes: some 700 rows, at the pace of a hand that looks for something. */
const turns = 240
const turnPx = 240
/** At 60 frames a second one lasts 16.7 ms; half as long again is a frame that came too late. */
const lateMs = 25
const rounds = 5

type Frames = { late: number; count: number }

/** Turn the wheel over a page and note how far its frames are apart. */
async function scrollFrames(page: Page): Promise<Frames> {
  // As a text: what this is compiled with puts names of its own into functions, which the page knows nothing of.
  await page.evaluate(`
    window.frameTimes = []
    window.framesAreOver = false
    requestAnimationFrame(function note(at) {
      window.frameTimes.push(at)
      if (!window.framesAreOver) requestAnimationFrame(note)
    })
  `)
  await page.mouse.move(640, 500)
  for (let turn = 0; turn < turns; turn++) {
    await page.mouse.wheel(0, turnPx)
    await page.waitForTimeout(8)
  }
  const frames = (await page.evaluate('window.framesAreOver = true; window.frameTimes')) as number[]
  const gaps = frames.slice(1).map((at, index) => at - (frames[index] as number))
  return { late: gaps.filter((gap) => gap > lateMs).length, count: gaps.length }
}

const shareOf = ({ late, count }: Frames): number => (100 * late) / Math.max(1, count)

async function openTable(browser: Browser, url: string): Promise<Page> {
  const page = await browser.newPage({ viewport: { width: 1280, height: 900 } })
  await page.goto(`${url}/charts?order=title`)
  await page.locator('table[aria-rowcount]').waitFor({ timeout: 120_000 })
  return page
}

async function openTallPage(browser: Browser, heightPx: number): Promise<Page> {
  const page = await browser.newPage({ viewport: { width: 1280, height: 900 } })
  await page.setContent(`<title>Tall</title><div style="height:${heightPx}px"></div>`)
  return page
}

async function run(): Promise<Measurement[]> {
  const { folder, answers } = await madeCollection('shop')
  const server = await startServer({ dataFolder: folder })
  const browser = await launchChromium()
  const ours: number[] = []
  const against: number[] = []
  let rows = 0
  let drawn = 0
  try {
    const table = await openTable(browser, server.url)
    rows = Number(await table.locator('table[aria-rowcount]').getAttribute('aria-rowcount'))
    const height = await table.evaluate(() => document.documentElement.scrollHeight)
    const tall = await openTallPage(browser, height)
    for (let round = 0; round < rounds; round++) {
      // Each has the screen to itself: a page that is not in front draws nothing.
      await table.bringToFront()
      ours.push(shareOf(await scrollFrames(table)))
      drawn = await table.locator('table[aria-rowcount] tr').count()
      await tall.bringToFront()
      against.push(shareOf(await scrollFrames(tall)))
    }
  } finally {
    await browser.close()
    await server.stop()
  }
  console.log(`${rows} rows, of which ${drawn} stand in the page`)
  const [share, bare] = [percentile(ours, 0.5), percentile(against, 0.5)]
  return [
    {
      name: `frames later than ${lateMs} ms while ${rows.toLocaleString('en-GB')} rows are scrolled by the wheel`,
      ours: share,
      against: bare,
      ratio: null,
      unit: '%',
      samples: rounds,
      oursRange: [Math.min(...ours), Math.max(...ours)],
      againstRange: [Math.min(...against), Math.max(...against)],
      goal: { words: 'within 5 of 100 of what an empty page drops', isMet: share - bare <= 5 },
    },
    await timeBulk([...answers.world.designs.keys()]),
  ]
}

/** How long the write gate is held while every chart of the shop gets another home; taken back afterwards. */
async function timeBulk(designIds: readonly string[]): Promise<Measurement> {
  const { answers } = await madeCollection('shop')
  const [place] = [...answers.world.places.values()].filter(({ kind }) => kind === 'box' || kind === 'rack')
  if (!place) throw new Error('table: the collection has no box')
  const begun = performance.now()
  const done = await applyChartBulk({
    designIds: designIds.slice(0, 20_000),
    change: { kind: 'home', toPlaceId: place.id },
    what: 'Bench',
  })
  const ms = performance.now() - begun
  if (!done.ok) throw new Error(`table: ${done.error.kind}`)
  const undone = await undoChartBulk({ bulkEditId: done.value.bulkEditId })
  if (!undone.ok) throw new Error(`table: ${undone.error.kind}`)
  return {
    name: `${done.value.changed.toLocaleString('en-GB')} charts given another home in one write`,
    ours: ms,
    against: null,
    ratio: null,
    unit: 'ms',
    samples: 1,
    oursRange: null,
    againstRange: null,
    goal: { words: 'under 10 s with the write gate held', isMet: ms < 10_000 },
  }
}

export const table: Bench = {
  name: 'table',
  about: [
    `Charts of the shop-size collection at a desk of 1,280 × 900, in Chromium: ${turns} turns of the wheel of ${turnPx} px each over the table that holds all designs found, and the share of frames more than ${lateMs} ms after the one before. Held against an empty page of the same height, scrolled by turns with it: what the machine drops by itself.`,
    'Then one change of 20,000 designs, as the screen makes it: read, planned, written with a line of the journal for each chart.',
  ],
  run,
}
