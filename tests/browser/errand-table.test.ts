// The big list at the desk: scrolled, chosen and changed by keyboard, and taken back; its columns, its kept filters; and the same on a phone, page by page.
import type { Page } from 'playwright-core'
import { expect, it } from 'vitest'
import { desk, expectNoSidewaysScroll, openHouse, phone } from './visitor'

const house = openHouse({ hasSample: true })
const all = '/charts?owner=any&order=title'

const main = (page: Page) => page.getByRole('main')
const windowOf = (page: Page) => page.locator('table[aria-rowcount]')
const chosenIn = (page: Page) => page.getByRole('form', { name: 'Chosen designs' })
/** "1 to 40 of 241" */
const countOf = async (page: Page): Promise<number> =>
  Number((await windowOf(page).getAttribute('aria-rowcount'))?.replace(/\D/g, '')) - 1

it('chooses the ends of the whole list by keyboard, gives them another home after a look, and takes it back', async () => {
  const page = await house.visit({ viewport: desk })
  await page.goto(all)
  const table = windowOf(page)
  await table.waitFor()
  const count = await countOf(page)
  expect(count).toBeGreaterThan(100)
  // Of a long list the page holds what is seen and a little more.
  expect(await table.getByRole('row').count()).toBeLessThan(60)

  const focused = page.locator('table[aria-rowcount] tr:has(:focus)')
  await table.getByRole('row').nth(1).getByRole('link').first().focus()
  await page.keyboard.press('x')
  await page.keyboard.press('ArrowDown')
  await page.keyboard.press('ArrowDown')
  await page.keyboard.press('Shift+X')
  await chosenIn(page).getByText('3 designs chosen').waitFor()
  await page.keyboard.press('End')
  await expect.poll(() => focused.getAttribute('aria-rowindex')).toBe(String(count + 1))
  await page.keyboard.press('x')
  await chosenIn(page).getByText('4 designs chosen').waitFor()
  await page.keyboard.press('Home')
  await expect.poll(() => focused.getAttribute('aria-rowindex')).toBe('2')
  // What was chosen at the other end is still chosen, and so it is at this one.
  expect(await focused.getByRole('checkbox').isChecked()).toBe(true)
  await page.keyboard.press('x')
  await chosenIn(page).getByText('3 designs chosen').waitFor()

  await chosenIn(page).getByRole('button', { name: 'Do something with them' }).press('Enter')
  await page.getByRole('heading', { level: 1, name: '3 designs chosen' }).waitFor()
  await page.getByLabel('New home').fill('R12')
  await page.getByRole('button', { name: 'Look at what would change' }).click()
  await page.getByText('No place is labelled R12.', { exact: false }).waitFor()
  await main(page).getByRole('link', { name: 'Back', exact: true }).click()
  await page.getByLabel('New home').fill('R2')
  await page.getByRole('button', { name: 'Look at what would change' }).click()
  await page.getByText('Nothing is written yet.').waitFor()
  await expectNoSidewaysScroll(page)
  await page.getByRole('button', { name: /^Change \d lines?$/ }).click()
  await page.getByText(/^Done: \d lines? changed\.$/).waitFor()
  await page.getByRole('button', { name: 'Take it back' }).click()
  await page.getByRole('dialog').getByRole('button', { name: 'Take it back' }).click()
  await page.getByText(/^Taken back: \d lines? as before\.$/).waitFor()
})

it('comes back to where the list was left, chooses all but one, and shows the columns asked for', async () => {
  const page = await house.visit({ viewport: desk })
  await page.goto(all)
  await windowOf(page).waitFor()
  const count = await countOf(page)
  await page.mouse.move(640, 500)
  await page.mouse.wheel(0, 4_000)
  const row = windowOf(page)
    .getByRole('row', { name: /./ })
    .filter({ has: page.getByRole('checkbox') })
    // Past those that are drawn above what is seen.
    .nth(20)
  await row.getByRole('link').first().waitFor()
  await expectRest(page)
  const href = await row.getByRole('link').first().getAttribute('href')
  // What the rows above it come to is only known of those that were drawn: the row stands where it stood, however far down that is.
  const top = async () => Math.round((await windowOf(page).locator(`a[href="${href}"]`).first().boundingBox())?.y ?? -1)
  const left = await top()
  await row.getByRole('link').first().click()
  await page.waitForURL(/\/designs\//)
  await page.goBack()
  await windowOf(page).waitFor()
  await expect.poll(async () => Math.abs((await top()) - left)).toBeLessThanOrEqual(1)

  await chosenIn(page)
    .getByRole('button', { name: `Choose all ${count}` })
    .click()
  await row.getByRole('checkbox').uncheck()
  await chosenIn(page)
    .getByText(`${count - 1} designs chosen`)
    .waitFor()

  await page.getByText('Columns', { exact: true }).click()
  await page.getByRole('form', { name: 'Columns of this list' }).getByLabel('Owner').check()
  await page.getByRole('button', { name: 'Show these' }).click()
  await windowOf(page).getByRole('columnheader', { name: 'Owner' }).waitFor()
})

it('cuts nothing off in a long list, and the rows about the screen follow one another without a gap', async () => {
  const page = await house.visit({ viewport: { width: 1_000, height: 800 } })
  await page.goto(all)
  await windowOf(page).waitFor()
  await page.mouse.move(500, 400)
  await page.mouse.wheel(0, 3_000)
  await expectRest(page)
  const { cut, gaps } = await windowOf(page).evaluate((table) => {
    const cells = [...table.querySelectorAll('td, td *')].filter(
      (element) => !element.closest('svg') && !element.matches('input'),
    )
    const isCut = (element: Element) =>
      getComputedStyle(element).overflowY !== 'visible' && element.scrollHeight > element.clientHeight + 1
    const rows = [...table.querySelectorAll('tr[data-index]')]
      .map((row) => ({ index: Number(row.getAttribute('data-index')), box: row.getBoundingClientRect() }))
      .sort((a, b) => a.index - b.index)
    return {
      cut: cells.filter(isCut).map((element) => element.outerHTML.slice(0, 120)),
      gaps: rows.filter(({ index, box }, at) => {
        const before = rows[at - 1]
        return before?.index === index - 1 && Math.abs(box.top - before.box.bottom) > 1
      }).length,
    }
  })
  expect(cut).toEqual([])
  expect(gaps).toBe(0)
  await expectNoSidewaysScroll(page)
})

it('gives the projects that are found a day to be ready by, after a look, and takes it back', async () => {
  const page = await house.visit({ viewport: desk })
  await page.goto('/projects?status=planned')
  const chosen = page.getByRole('form', { name: 'Chosen projects' })
  await chosen.getByRole('button', { name: /^Choose all / }).click()
  await chosen.getByRole('button', { name: /^Do something with (?:it|them)$/ }).click()
  await page.getByRole('heading', { level: 1, name: /projects? chosen$/ }).waitFor()
  await page.getByLabel(/^Due/).fill('2030-12-24')
  await page.getByRole('button', { name: 'Look at what would change' }).click()
  await page.getByText('Nothing is written yet.').waitFor()
  await page.getByRole('button', { name: /^Change \d+ projects?$/ }).click()
  await page.getByText(/^Done: \d+ projects? changed\.$/).waitFor()
  await page.getByRole('button', { name: 'Take it back' }).click()
  await page.getByRole('dialog').getByRole('button', { name: 'Take it back' }).click()
  await page.getByText(/^Taken back: \d+ projects? as before\.$/).waitFor()
})

it('puts threads that are chosen on a list to shop by, each once, and shows how many designs use them', async () => {
  const page = await house.visit({ viewport: desk })
  await page.goto('/threads')
  await page.getByText('Columns', { exact: true }).click()
  await page.getByRole('form', { name: 'Columns of this list' }).getByLabel('Designs using it').check()
  await page.getByRole('button', { name: 'Show these' }).click()
  await main(page).getByRole('columnheader', { name: 'Designs using it' }).first().waitFor()
  const add = async () => {
    await page.goto('/threads')
    await windowOf(page).waitFor()
    const chosen = page.getByRole('form', { name: 'Chosen threads' })
    for (const at of [0, 1]) {
      const tick = windowOf(page).getByRole('checkbox').nth(at)
      if (!(await tick.isChecked())) await tick.check()
    }
    await chosen.getByText('2 threads chosen').waitFor()
    await chosen.getByRole('button', { name: 'Do something with them' }).click()
    await page.getByRole('heading', { level: 1, name: '2 threads chosen' }).waitFor()
    return page.getByRole('form', { name: 'Add to a list to shop by' })
  }
  const lists = /\/buy\/lists\/[^/]+$/
  const first = await add()
  await first.getByRole('button', { name: 'Add to the list' }).click()
  await first.getByText('Give the list a name, such as Saturday.').first().waitFor()
  await first.getByLabel('A new list is called').fill('Saturday')
  await first.getByRole('button', { name: 'Add to the list' }).click()
  await page.waitForURL(lists)
  await page.getByRole('heading', { level: 1, name: 'Saturday' }).waitFor()
  // Two, however often they are put down.
  const lines = () => main(page).locator('[data-thing]').count()
  expect(await lines()).toBe(2)
  const second = await add()
  await second.getByLabel('List', { exact: true }).selectOption({ label: 'Saturday' })
  await second.getByRole('button', { name: 'Add to the list' }).click()
  await page.waitForURL(lists)
  await page.getByRole('heading', { level: 1, name: 'Saturday' }).waitFor()
  expect(await lines()).toBe(2)
})

it('keeps a filter for the house, and the ticks of a phone from page to page', async () => {
  const page = await house.visit({ viewport: phone })
  await page.goto('/charts?owner=any&stitchableNow=1')
  await page.getByText('Keep this filter').click()
  const keep = page.getByRole('form', { name: 'Keep this filter' })
  await keep.getByLabel(/^Name/).fill('Ready today')
  await keep.getByRole('button', { name: 'Keep it' }).click()
  await page.getByRole('navigation', { name: 'Kept filters' }).getByRole('link', { name: 'Ready today' }).waitFor()

  await page.goto(all)
  expect(await windowOf(page).count()).toBe(0)
  await chosenIn(page).getByRole('button', { name: 'Choose several' }).click()
  await main(page)
    .getByRole('checkbox', { name: /^Choose / })
    .first()
    .check()
  await page.getByRole('link', { name: 'Next page' }).click()
  await page.getByText(/^Page 2 of/).waitFor()
  await main(page)
    .getByRole('checkbox', { name: /^Choose / })
    .first()
    .check()
  await chosenIn(page).getByText('2 designs chosen').waitFor()
  await expectNoSidewaysScroll(page)
  await page.getByRole('navigation', { name: 'Kept filters' }).getByRole('link', { name: 'Ready today' }).click()
  await page.waitForURL(/stitchableNow=1/)
})

/** How far down the page is once it has come to rest. */
async function expectRest(page: Page): Promise<number> {
  let before = -1
  await expect
    .poll(async () => {
      const now = await page.evaluate(() => Math.round(scrollY))
      const isStill = now === before
      before = now
      return isStill
    })
    .toBe(true)
  // The place is kept once scrolling has stopped for a moment.
  await page.waitForTimeout(400)
  return before
}
