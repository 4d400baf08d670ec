import type { Page } from 'playwright-core'

/** From a first run to the page that says the sample is in. */
export async function loadSample(page: Page) {
  await page.goto('/')
  await page.getByRole('button', { name: 'Load the sample' }).click()
  await page.getByRole('heading', { name: 'The sample is in' }).waitFor({ timeout: 120_000 })
}

/** Whose stock the pages show from now on. */
export async function showStockOf(page: Page, owner: string) {
  const shown = page.waitForResponse((response) => response.request().method() === 'POST' && response.ok())
  await page.getByLabel('Stock of').selectOption({ label: owner })
  await shown
}
