import type { Page } from 'playwright-core'
import { shop } from './sample-files'

/** Tick one thread, say what changes, and come to the page that shows it; the change is one that no other page shows. */
export async function openBulkPreview(page: Page) {
  await page.goto('/threads/bulk?text=0311')
  await page.getByRole('table', { name: 'Threads to choose from' }).getByRole('checkbox').first().check()
  await page.getByRole('radio', { name: 'The least to keep' }).check()
  await page.getByLabel('Whole put-ups').fill('2')
  await page.getByRole('button', { name: 'Look at what would change' }).click()
  await page.getByText('Nothing is written yet.').waitFor()
}

/** From the preview to the page that says it is done. */
export async function changeAsShown(page: Page) {
  await page.getByRole('button', { name: /^Change \d/ }).click()
  await page.getByText(/^Done: \d+ lines? changed\.$/).waitFor()
}

/** A conversion list of two lines, one of which cannot be read, looked at before it is kept. */
export async function openConversionPreview(page: Page) {
  await page.goto('/threads/conversions')
  await page.getByLabel(/^Who says so/).fill('Guild card')
  await page.getByLabel(/^The list/).fill('Larkholm 0311 → Brindlequay 17\nLarkholm 0001 → nothing of the kind')
  await page.getByRole('button', { name: 'See how it reads' }).click()
  await page.waitForURL('**/threads/conversions/*')
}

/** Put down one thread as ordered, and come to the page on which it is taken in. */
export async function openOrder(page: Page) {
  await page.goto('/buy/on-order/new')
  await page.getByLabel(/^Thread/).fill('Larkholm 0311')
  await page.getByLabel(/^How many/).fill('2')
  await page.getByLabel(/^For/).selectOption({ label: shop })
  await page.getByRole('form', { name: 'Put down an order' }).getByRole('button').click()
  await page
    .getByRole('link', { name: /^Take in/ })
    .first()
    .click()
  await page.waitForURL(/\/on-order\/[0-9a-f-]{36}$/)
}
