import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import path from 'node:path'
import type { Page } from 'playwright-core'
import { afterAll, beforeAll, expect, it } from 'vitest'
import { type RunningServer, startServer } from './server'
import { expectNoSidewaysScroll, openHouse, phone } from './visitor'

// Charts in the sample's file by owner and title: 150.
const house = openHouse({ hasSample: true })

let empty: RunningServer
let folder = ''
beforeAll(async () => {
  folder = mkdtempSync(path.join(tmpdir(), 'larder-errand-'))
  empty = await startServer()
})
afterAll(async () => {
  await empty.stop()
  rmSync(folder, { recursive: true, force: true })
})

/** Choose a file on the page of archives, and look at it. */
async function give(page: Page, file: string): Promise<void> {
  const main = page.getByRole('main')
  await main.getByLabel('Archive', { exact: true }).setInputFiles(file)
  await main.getByRole('button', { name: 'Look at it' }).click()
}

it('takes everything out with a phone, and brings it back where there is nothing', async () => {
  const page = await house.visit({ viewport: phone })
  await page.goto('/settings')
  const main = page.getByRole('main')
  await main.getByRole('link', { name: 'everything in a file' }).click()
  await page.getByRole('heading', { level: 1, name: 'Everything in a file' }).waitFor()
  await expectNoSidewaysScroll(page)
  await main.getByRole('button', { name: 'Write an archive' }).click()
  await main.getByText(/^Written: [\d,]+ rows/).waitFor()
  await expectNoSidewaysScroll(page)
  const coming = page.waitForEvent('download')
  await main.getByRole('link', { name: 'Download it' }).click()
  const download = await coming
  expect(download.suggestedFilename()).toMatch(/^chart-larder-\d{4}-\d\d-\d\d\.zip$/)
  const file = path.join(folder, 'whole.zip')
  await download.saveAs(file)

  // Here there is a collection already: it says so, and what to do.
  await page.goto('/archive')
  await give(page, file)
  await main.getByText(/^There is a collection here already: 150 charts/).waitFor()
  await main.getByText(/start it with another, empty data folder/).waitFor()
  expect(await main.getByRole('button', { name: /^Bring .* back$/ }).count()).toBe(0)
  await expectNoSidewaysScroll(page)

  // In another house there is none.
  await page.goto(`${empty.url}/archive`)
  await give(page, file)
  await main.getByText(/^It holds 150 charts/).waitFor()
  await main.getByRole('button', { name: /^Bring [\d,]+ rows back$/ }).click()
  await main.getByText(/^Brought back: [\d,]+ rows/).waitFor()
  await main.getByRole('link', { name: 'To Find' }).click()
  await page.goto(`${empty.url}/charts?q=kettle`)
  await main
    .getByRole('link', { name: /Kettle at Wend Cross/ })
    .first()
    .waitFor()
})

it('says what is wrong with a file, and changes nothing', async () => {
  const page = await house.visit()
  await page.goto('/archive')
  const main = page.getByRole('main')
  await main.getByRole('button', { name: 'Look at it' }).click()
  await main.getByText('Choose an archive first').waitFor()
  const bytes = readFileSync(path.join(folder, 'whole.zip'))
  const torn = path.join(folder, 'torn.zip')
  writeFileSync(torn, bytes.subarray(0, bytes.length / 2))
  await give(page, torn)
  await main.getByText(/^The file is cut off or broken/).waitFor()
  await main.getByRole('link', { name: 'Choose another' }).click()
  const other = path.join(folder, 'other.zip')
  writeFileSync(other, 'Maker,Code\nLarkholm,0017\n')
  await give(page, other)
  await main.getByText(/^That is not an archive of Chart Larder/).waitFor()
})

it('hands over sheets to read and lists in every form', async () => {
  const page = await house.visit()
  await page.goto('/archive')
  const main = page.getByRole('main')
  const sheet = page.waitForEvent('download')
  await main.getByRole('link', { name: 'All of them in one workbook' }).click()
  expect((await sheet).suggestedFilename()).toBe('everything.xlsx')
  await page.goto('/lists')
  await main.getByRole('link', { name: 'Charts for the guild' }).click()
  await main.getByRole('heading', { level: 2, name: 'Mirabel Stoat' }).waitFor()
  for (const [button, ending] of [
    ['as XLSX', 'xlsx'],
    ['as PDF', 'pdf'],
  ] as const) {
    const coming = page.waitForEvent('download')
    await main.getByRole('button', { name: button }).click()
    expect((await coming).suggestedFilename()).toBe(`guild.${ending}`)
  }
  await page.goto('/lists/guild?by=theme')
  await main.getByRole('heading', { level: 2, name: 'Season: Winter' }).waitFor()
})
