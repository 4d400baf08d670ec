import type { Page } from 'playwright-core'
import { expect, it } from 'vitest'
import { press, tabTo, typeInto } from './by-keyboard'
import { openHouse } from './visitor'

const house = openHouse()

/** From anywhere: the slash, a word, and Enter on the link of that name. */
async function find(page: Page, words: string, name: string) {
  const box = page.getByRole('searchbox', { name: /^Find/ })
  const isIn = () => box.evaluate((element) => element === document.activeElement).catch(() => false)
  // Pressed before the page's scripts run, it is lost.
  for (let tries = 0; tries < 4 && !(await isIn()); tries++) {
    await page.keyboard.press('/')
    for (let looks = 0; looks < 50 && !(await isIn()); looks++) await page.waitForTimeout(100)
  }
  expect(await isIn()).toBe(true)
  await page.keyboard.type(words)
  const hit = page.getByRole('main').getByRole('link', { name }).first()
  await press(page, hit)
  await page.getByRole('heading', { level: 1, name }).waitFor()
}

it('starts empty, adds a chart with its thread list and the thread for it, and sees the answer change, all by keyboard', async () => {
  const page = await house.visit()
  const main = page.getByRole('main')
  await page.goto('/')
  await typeInto(page, page.getByLabel('Name needed'), 'Petra Lisle')
  await tabTo(page, page.getByRole('radio', { name: 'a stash at home' }))
  await page.keyboard.press('ArrowDown')
  await page.keyboard.press('ArrowUp')
  await press(page, page.getByRole('button', { name: 'Start empty' }))
  await main.getByText('No charts yet').waitFor()

  await press(page, main.getByRole('link', { name: 'Add a chart by hand' }))
  await typeInto(page, page.getByLabel('Title needed'), 'Small Blue Ship')
  await typeInto(page, page.getByLabel('Where it lives'), 'Box 3')
  await typeInto(page, page.getByLabel('Size', { exact: true }), '60 x 40')
  await typeInto(page, page.getByLabel('Count it advises'), '14')
  await page.keyboard.press('Enter')

  await page.getByRole('heading', { level: 1, name: 'Add a thread list of Small Blue Ship' }).waitFor()
  await typeInto(page, page.getByLabel('Symbol').first(), 'x')
  await typeInto(page, page.getByLabel('Maker').first(), 'Larkholm')
  await typeInto(page, page.getByLabel('Line', { exact: true }).first(), 'Stranded Cotton')
  await typeInto(page, page.getByLabel('Code').first(), '0742')
  await typeInto(page, page.getByLabel('Strands').first(), '2')
  await typeInto(page, page.getByLabel('Full crosses').first(), '900')
  await press(page, page.getByRole('button', { name: 'Save the list' }))
  // Nothing is known of this thread yet, so a slip is thought of first; the caret is at the answer.
  await main.getByRole('alert').waitFor()
  const isMeant = page.getByRole('checkbox', { name: 'It is meant: add it' })
  await expect.poll(() => isMeant.evaluate((element) => element === document.activeElement), { timeout: 20_000 }).toBe(true)
  await page.keyboard.press('Space')
  await press(page, page.getByRole('button', { name: 'Save the list' }))
  await press(page, page.getByRole('link', { name: 'Can it be stitched?' }))
  await page.getByRole('heading', { level: 1, name: 'Small Blue Ship', exact: true }).waitFor()
  await main.getByText('0 of 1 thread ready').waitFor()

  await press(page, page.getByRole('table', { name: 'Cover, thread by thread' }).getByRole('link', { name: /0742/ }))
  await press(page, main.getByRole('link', { name: /^Take/ }).first())
  await typeInto(page, page.getByLabel('Whole skeins'), '2')
  await typeInto(page, page.getByLabel('Lives in'), 'Box 3')
  await page.keyboard.press('Enter')
  await main.getByText('Came in: 2 skeins, into Box 3.').first().waitFor()

  await find(page, 'smal blue', 'Small Blue Ship')
  await main.getByText('Stitchable now.').waitFor()
  await page.getByRole('table', { name: 'Cover, thread by thread' }).getByRole('link', { name: 'Box 3' }).waitFor()
})
