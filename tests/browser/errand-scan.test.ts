// A label held before the phone's camera opens what it is on; a code from elsewhere is shown and not gone to; without a camera the page says why.
import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import path from 'node:path'
import type { Browser, Page } from 'playwright-core'
import { afterAll, beforeAll, expect, it } from 'vitest'
import { filmArguments, filmCode } from './camera-film'
import { launchChromium } from './chromium'
import { expectNoSidewaysScroll, openHouse, phone } from './visitor'

const house = openHouse()
const folder = mkdtempSync(path.join(tmpdir(), 'larder-film-'))
const film = path.join(folder, 'label.y4m')
const browsers: Browser[] = []

const places = `Label,Kind,Inside
T2,cabinet,
T2.1,drawer,T2
T2.1-14,compartment,T2.1
`

const threads = `Maker,Line,Code,Skeins,Place
Larkholm,Stranded Cotton,0311,2,T2.1-14
`

beforeAll(async () => {
  for (const [kind, body] of Object.entries({ places, threads })) {
    const answer = await fetch(`${house.server().url}/api/v1/imports?kind=${kind}`, {
      ...{ method: 'POST', headers: { 'content-type': 'text/csv' }, body },
    })
    expect(answer.status, await answer.text()).toBe(200)
  }
})

afterAll(async () => {
  await Promise.all(browsers.map((browser) => browser.close()))
  rmSync(folder, { recursive: true, force: true })
})

/** A phone whose camera sees this code, and every address it asks for. */
async function before(code: string): Promise<{ page: Page; asked: string[] }> {
  filmCode(code, film)
  const browser = await launchChromium(filmArguments(film))
  browsers.push(browser)
  const page = await browser.newPage({ viewport: phone, baseURL: house.server().url })
  page.setDefaultTimeout(60_000)
  const asked: string[] = []
  page.on('request', (request) => asked.push(request.url()))
  return { page, asked }
}

async function idOf(label: string): Promise<string> {
  const answer = await fetch(`${house.server().url}/api/v1/scan?text=${label}`)
  const { things } = (await answer.json()) as { things: { id: string }[] }
  return things[0]?.id as string
}

const isOurs = (url: string): boolean => url.startsWith(`${house.server().url}/`) || /^(?:data|blob):/.test(url)

it('opens the place of a label, printed with another address, through the camera', async () => {
  const id = await idOf('T2.1-14')
  const { page, asked } = await before(`http://larder.example:4300/places/${id}`)
  await page.goto('/')
  await page.getByRole('main').getByRole('link', { name: 'Scan a label' }).click()
  await page.getByRole('button', { name: 'Scan with the camera' }).click()
  await page.waitForURL(`**/places/${id}`, { timeout: 60_000 })
  await page.getByRole('heading', { level: 1, name: /T2\.1-14/ }).waitFor()
  expect(new URL(page.url()).origin).toBe(house.server().url)
  // The reader itself comes from our own server, too.
  expect(asked.filter((url) => !isOurs(url))).toEqual([])
})

it('shows a code from elsewhere and does not go there', async () => {
  const { page, asked } = await before('https://elsewhere.example/places?next=javascript:alert(1)')
  await page.goto('/scan')
  await page.getByRole('button', { name: 'Scan with the camera' }).click()
  await page.getByText('None of ours').waitFor({ timeout: 60_000 })
  const main = page.getByRole('main')
  expect(await main.getByText('https://elsewhere.example/places?next=javascript:alert(1)').count()).toBe(1)
  expect(await main.getByRole('link', { name: /elsewhere/ }).count()).toBe(0)
  expect(asked.filter((url) => !isOurs(url))).toEqual([])
})

it('opens by typing what a label says, and says why there is no camera where the connection is not secure', async () => {
  const page = await house.visit({ viewport: phone })
  await page.addInitScript(() => Object.defineProperty(window, 'isSecureContext', { value: false }))
  await page.goto('/scan')
  const main = page.getByRole('main')
  await main.getByText(/The camera needs a secure connection/).waitFor()
  expect(await main.getByText(/the phone’s own camera/).count()).toBe(1)
  await expectNoSidewaysScroll(page)
  await main.getByLabel('Or type what the label says').fill('t2.1-14')
  await page.keyboard.press('Enter')
  await page.getByRole('heading', { level: 1, name: /T2\.1-14/ }).waitFor()
  await page.goto('/scan?text=nothing-of-the-kind')
  await main.getByText('None of ours').waitFor()
})
