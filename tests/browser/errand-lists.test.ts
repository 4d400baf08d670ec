// Questions 80, 81 and 82: doubles to pass on, wants for the family, the stash for others; no price and no person on any of them.
import { readFileSync } from 'node:fs'
import Papa from 'papaparse'
import type { Page } from 'playwright-core'
import { beforeAll, expect, it } from 'vitest'
import { shop } from './sample-files'
import { expectNoSidewaysScroll, openHouse, phone } from './visitor'

const house = openHouse()

const threads = `Owner,Maker,Line,Code,Name,Have,Lot,Place,Minimum
${shop},Larkholm,Stranded Cotton,0017,Straw,6,,T2.1,
${shop},Larkholm,Stranded Cotton,0018,Rush,1,,T2.1,3
`
const charts = `Chart,Designer,Kind,Owner,Copies,Price,Place
Seven Lanterns,Dorrit Quayle,leaflet,${shop},2,987.65,C1
=Nine Wrens,Corvin Ashdale,leaflet,${shop},1,987.65,C1
`

beforeAll(async () => {
  for (const [kind, body] of Object.entries({ threads, charts })) {
    const answer = await fetch(`${house.server().url}/api/v1/imports?kind=${kind}`, {
      ...{ method: 'POST', headers: { 'content-type': 'text/csv' }, body },
    })
    expect(answer.status, await answer.text()).toBe(200)
  }
})

/** What the file of the ticked lines says, row by row. */
async function download(page: Page): Promise<string[][]> {
  const coming = page.waitForEvent('download')
  await page.getByRole('button', { name: 'Download what is ticked (CSV)' }).click()
  const text = readFileSync(await (await coming).path(), 'utf8').replace(/^\uFEFF/, '')
  return Papa.parse<string[]>(text, { skipEmptyLines: true }).data
}

it('lists doubles by a rule one sets, and hands over what is ticked', async () => {
  const page = await house.visit()
  await page.goto('/lists')
  await page.getByRole('link', { name: 'Doubles to pass on' }).click()
  const main = page.getByRole('main')
  await main
    .getByRole('row', { name: /0017 Straw/ })
    .getByText('3 skeins')
    .waitFor()
  await main.getByRole('row', { name: /Seven Lanterns/ }).waitFor()
  expect(await main.getByRole('row', { name: /0018/ }).count()).toBe(0)
  await main.getByRole('checkbox', { name: /Seven Lanterns/ }).uncheck()
  const rows = await download(page)
  expect(rows.slice(1).map((row) => [row[2], row[3], row[5]])).toEqual([['Larkholm Stranded Cotton 0017 Straw', '0017', '3']])
  await page.emulateMedia({ media: 'print' })
  expect(await main.getByText('Seven Lanterns').isVisible()).toBe(false)
  expect(await main.getByText('0017 Straw').isVisible()).toBe(true)
  expect(await page.getByText('whose name is not on it').isVisible()).toBe(false)
  await page.emulateMedia({ media: null })
  await page.goto('/lists/doubles?keep=5')
  await main
    .getByRole('row', { name: /0017 Straw/ })
    .getByText('1 skein')
    .waitFor()
})

it('lists wants and the stash, without a price, and with places only when asked', async () => {
  const page = await house.visit({ viewport: phone })
  await page.goto('/lists/wants')
  const main = page.getByRole('main')
  await main
    .getByRole('row', { name: /0018 Rush/ })
    .getByText('2 skeins')
    .waitFor()
  await expectNoSidewaysScroll(page)
  await page.goto('/lists/stash')
  await main.getByRole('row', { name: /Nine Wrens/ }).waitFor()
  await expectNoSidewaysScroll(page)
  expect((await main.textContent()) ?? '').not.toMatch(/987|T2\.1|C1/)
  const rows = await download(page)
  expect(rows.find((row) => row[2]?.includes('Nine Wrens'))?.[2]).toBe("'=Nine Wrens")
  expect(JSON.stringify(rows)).not.toMatch(/987|T2\.1|C1/)
  await page.goto('/lists/stash?places=1')
  await main
    .getByRole('row', { name: /Seven Lanterns/ })
    .getByText('C1')
    .waitFor()
})
