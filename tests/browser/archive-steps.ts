import type { Page } from 'playwright-core'

/** Write everything into an archive and give that back to the page of archives: the addresses that say it is written, and what is in it. */
export async function giveArchive(page: Page): Promise<string[]> {
  await page.goto('/archive')
  const main = page.getByRole('main')
  await main.getByRole('button', { name: 'Write an archive' }).click()
  await main.getByText(/^Written: [\d,]+ rows/).waitFor({ timeout: 60_000 })
  const written = page.url()
  const href = await main.getByRole('link', { name: 'Download it' }).getAttribute('href')
  const buffer = await (await page.request.get(href as string)).body()
  await page.goto('/archive')
  await main.getByLabel('Archive', { exact: true }).setInputFiles({ name: 'whole.zip', mimeType: 'application/zip', buffer })
  await main.getByRole('button', { name: 'Look at it' }).click()
  await main.getByText(/^It holds /).waitFor()
  return [written, page.url()]
}
