// npm run screenshots: the pictures in README.md, taken from the sample.
import { mkdirSync, writeFileSync } from 'node:fs'
import path from 'node:path'
import type { Page } from 'playwright-core'
import sharp from 'sharp'
import { launchChromium } from './chromium'
import { leaflet } from './leaflet'
import { loadSample, showStockOf } from './load-sample'
import { startServer } from './server'

const folder = path.join(import.meta.dirname, 'screenshots')
const mostBytes = 250 * 1024

/** What is in sight of a page, in the few colours it has. */
async function keep(page: Page, name: string) {
  await page.evaluate(() => document.fonts.ready)
  const picture = await sharp(await page.screenshot())
    .png({ palette: true, compressionLevel: 9 })
    .toBuffer()
  if (picture.length > mostBytes) throw new RangeError(`keep: ${name}.png has ${picture.length} bytes, more than ${mostBytes}`)
  writeFileSync(path.join(folder, `${name}.png`), picture)
  console.log(`${name}.png, ${Math.ceil(picture.length / 1024)} KB`)
}

mkdirSync(folder, { recursive: true })
const [server, browser] = await Promise.all([startServer(), launchChromium()])
try {
  const look = { baseURL: server.url, colorScheme: 'light', locale: 'en-GB', reducedMotion: 'reduce' } as const
  const desk = await browser.newContext({ ...look, viewport: { width: 1280, height: 860 } })
  const page = await desk.newPage()
  await loadSample(page)
  await page.goto('/')
  await showStockOf(page, 'The Oxmarsh Needle Room')

  await page.goto('/charts')
  await page.getByRole('table', { name: /^Designs/ }).waitFor()
  await keep(page, 'charts')

  await page.goto('/?q=kettle')
  await page.getByRole('region', { name: 'Charts' }).getByRole('link', { name: 'Kettle at Wend Cross' }).click()
  await page.getByRole('heading', { level: 1, name: 'Kettle at Wend Cross' }).waitFor()
  await page.setViewportSize({ width: 1280, height: 1180 })
  await keep(page, 'design')

  await page.goto('/cloth?count=28')
  await page.getByRole('link', { name: /^E-10/ }).click()
  await page.getByRole('link', { name: 'Plan a cut from it' }).click()
  await page.waitForURL('**/cloth/cut/new?piece=*')
  const sizes = ['11 x 11 in', '8 x 8 in', '8 x 8 in', '6 x 12 in'].map((size): [string, string] => ['size', size])
  await page.goto(`${page.url()}&${new URLSearchParams(sizes)}`)
  await page.getByRole('button', { name: 'Find the best way to cut it' }).click()
  await page.getByRole('heading', { level: 1, name: 'A way to cut it' }).waitFor()
  await page.getByRole('heading', { level: 2, name: /^E-10/ }).evaluate((heading) => heading.scrollIntoView())
  await page.setViewportSize({ width: 1280, height: 860 })
  await keep(page, 'cut-plan')

  await page.goto('/charts/read')
  const leafletFile = { name: 'plum-tree-census.pdf', mimeType: 'application/pdf', buffer: await leaflet('Plum Tree Census') }
  await page.getByLabel('PDFs or pictures').setInputFiles([leafletFile])
  await page.getByRole('button', { name: 'Read the files' }).click()
  await page.getByRole('heading', { name: 'Save it' }).waitFor({ timeout: 60_000 })
  await page.getByRole('img', { name: 'Page 1' }).waitFor()
  await keep(page, 'reading-a-key')

  const phone = await browser.newContext({ ...look, viewport: { width: 390, height: 844 }, deviceScaleFactor: 2 })
  await phone.addCookies(await desk.cookies())
  const hand = await phone.newPage()
  await hand.goto('/?q=ketle')
  await hand.getByRole('link', { name: 'Kettle at Wend Cross' }).first().waitFor()
  await keep(hand, 'find-phone')
} finally {
  await browser.close()
  await server.stop()
}
