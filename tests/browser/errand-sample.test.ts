import { readFileSync } from 'node:fs'
import path from 'node:path'
import { beforeAll, expect, it } from 'vitest'
import { rowOf } from './bring-in-steps'
import { showStockOf } from './load-sample'
import { expectNoSidewaysScroll, openHouse, phone } from './visitor'

const house = openHouse()

/** Codes of the shop's threads that live in a drawer, in the order of the file, which is that of the drawer. */
function codesIn(place: string): string[] {
  const rows = readFileSync(path.resolve(import.meta.dirname, '../../seed/oxmarsh/threads.csv'), 'utf8').split(/\r?\n/)
  return rows
    .map((row) => row.split(','))
    .filter((cells) => cells[0] === 'The Oxmarsh Needle Room' && cells[14] === place)
    .map((cells) => cells[3] as string)
}

beforeAll(async () => {
  const page = await house.visit()
  await page.goto('/')
  await page.getByRole('button', { name: 'Load the sample' }).click()
  await page.getByRole('progressbar', { name: 'Bringing in the files of the sample' }).waitFor()
  await page.getByRole('heading', { name: 'The sample is in' }).waitFor({ timeout: 120_000 })
  const files = page.getByRole('table', { name: 'Files of the sample' })
  expect(await rowOf(files, 'charts.csv').textContent()).toContain('220 new')
  expect(await files.textContent()).not.toContain('refused')
  await page.context().close()
}, 300_000)

it('finds a chart by a mistyped word, says what can be stitched of it and where everything is', async () => {
  const page = await house.visit()
  await page.goto('/')
  await showStockOf(page, 'The Oxmarsh Needle Room')
  await page.getByRole('searchbox').fill('ketle')
  const hit = page.getByRole('region', { name: 'Charts' }).getByRole('listitem').filter({ hasText: 'Kettle at Wend Cross' })
  await hit.getByRole('link', { name: 'R2-3' }).waitFor()
  expect(await hit.textContent()).toContain('3 of 8 ready')
  await hit.getByRole('link', { name: 'Kettle at Wend Cross' }).click()

  // Worked through by hand beforehand: ready 3 of 8, 1 swap, 1 out, 1 whose lots do not match, 2 to buy.
  const main = page.getByRole('main')
  const verdict = main.getByText('3 of 8 threads ready')
  await verdict.waitFor()
  expect(await verdict.textContent()).toMatch(
    /3 of 8 threads ready, 1 swap held, 1 out or promised, 1 whose lots don't match, and 2 to buy: \S+ 0742 and \S+ 0905\./,
  )
  const cover = page.getByRole('table', { name: 'Cover, thread by thread' })
  expect(await rowOf(cover, '0742').textContent()).toContain('Short by 1 skein')
  expect(await rowOf(cover, '0087').textContent()).toContain('K-07')

  // Stated as two skeins of 8 m on 28 over two; on 36 over two it takes 14 ÷ 18 of that.
  const kinds = page.getByRole('table', { name: 'On every count on hand' })
  await rowOf(kinds, 'linen 36 over two')
    .getByRole('link', { name: /^Reckon the threads on/ })
    .click()
  await main.getByRole('link', { name: 'Reckon on the chart’s own cloth' }).waitFor()
  expect(await rowOf(cover, '0742').textContent()).toContain('12.44 m')
  await main.getByRole('link', { name: 'Reckon on the chart’s own cloth' }).click()
  await rowOf(cover, '0742').getByText('16 m').first().waitFor()

  await showStockOf(page, 'Hanne Drewitt')
  await main.getByText('0 of 8 threads ready').waitFor()
})

it('walks down to a drawer and shows what is in it, in the order it lies there', async () => {
  const page = await house.visit()
  await page.goto('/places')
  await showStockOf(page, 'The Oxmarsh Needle Room')
  const main = page.getByRole('main')
  for (const place of ['Kitting room', 'Cabinet T', 'T2', 'T2.1']) {
    await main.getByRole('link', { name: place }).first().click()
    await page.getByRole('heading', { level: 1, name: new RegExp(`${place.replace('.', '\\.')}$`) }).waitFor()
  }
  const compartments = page.getByRole('list', { name: /^Compartments/ }).getByRole('listitem')
  const shown = (await compartments.allInnerTexts()).join('\n')
  const places = codesIn('T2.1').map((code) => shown.search(new RegExp(`\\b${code}\\b`)))
  expect(places.length).toBeGreaterThan(10)
  expect(places).not.toContain(-1)
  expect(places).toEqual([...places].sort((a, b) => a - b))

  await compartments.getByRole('link').first().click()
  await page.waitForURL('**/threads/*')
  await page.getByRole('main').getByRole('link', { name: 'T2.1' }).first().waitFor()
})

it('shows cloth, projects, and finishes by year', async () => {
  const page = await house.visit()
  await page.goto('/')
  await showStockOf(page, 'everyone')
  const navigation = page.getByRole('navigation', { name: 'Main' })
  await navigation.getByRole('link', { name: 'Cloth' }).click()
  await page.getByText('90 pieces').waitFor()
  await navigation.getByRole('link', { name: 'Projects' }).click()
  await page.getByRole('rowheader', { name: /^Under the needle/ }).waitFor()
  await navigation.getByRole('link', { name: 'Finishes' }).click()
  const years = page.getByRole('main').getByRole('heading', { level: 2, name: /^\d{4}$/ })
  await years.first().waitFor()
  const heads = (await years.allInnerTexts()).map((head) => Number(head.slice(0, 4)))
  expect(heads.length).toBeGreaterThan(1)
  expect(heads).toEqual([...heads].sort((a, b) => b - a))
})

it('is two steps from Find to the place on a phone, and never scrolls sideways', async () => {
  const page = await house.visit({ viewport: phone })
  await page.goto('/')
  await page.getByRole('searchbox').fill('ketle')
  const hit = page.getByRole('region', { name: 'Charts' }).getByRole('listitem').filter({ hasText: 'Kettle at Wend Cross' })
  await hit.waitFor()
  await expectNoSidewaysScroll(page)
  await hit.getByRole('link', { name: 'R2-3' }).click()
  await page.getByRole('heading', { level: 1, name: /R2-3$/ }).waitFor()
  await expectNoSidewaysScroll(page)
})
