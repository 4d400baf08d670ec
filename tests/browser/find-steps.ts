import type { Locator, Page } from 'playwright-core'
import { expectNoSidewaysScroll } from './visitor'

/** Look for words on Find, and wait for what it says of them. */
export async function lookFor(page: Page, words: string): Promise<Locator> {
  await page.getByRole('searchbox').fill(words)
  await page
    .getByRole('status')
    .filter({ hasText: `for “${words}”` })
    .waitFor()
  await expectNoSidewaysScroll(page)
  return page.getByRole('main')
}

/** From Find to the page of a place by its label. */
export async function openPlace(page: Page, label: string): Promise<Locator> {
  const main = await lookFor(page, label)
  await main.getByRole('link', { name: label, exact: true }).first().click()
  await page.getByRole('heading', { level: 1, name: new RegExp(`${label.replace('.', '\\.')}$`) }).waitFor()
  await expectNoSidewaysScroll(page)
  return page.getByRole('main')
}
