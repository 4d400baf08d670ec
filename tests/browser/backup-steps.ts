import type { Page } from 'playwright-core'

/** Make a backup from its page, and wait until it was checked. @returns the address of its own page */
export async function makeBackup(page: Page): Promise<string> {
  await page.goto('/settings/backups')
  const main = page.getByRole('main')
  await main.getByRole('button', { name: 'Back up now' }).click()
  await main.getByText('The backup is made, and good').waitFor({ timeout: 90_000 })
  return (await main.getByRole('table').getByRole('link').first().getAttribute('href')) as string
}
