import type { Locator, Page } from 'playwright-core'

type MadeUpFile = { name: string; content: Buffer }

/** Choose a file under Bring in and send it: a file of that path, or one made up here. */
export async function chooseFile(page: Page, file: string | MadeUpFile) {
  await page.goto('/bring-in')
  const sent = typeof file === 'string' ? file : { name: file.name, mimeType: 'application/octet-stream', buffer: file.content }
  await page.getByLabel('Files needed').setInputFiles(sent)
  await page.getByRole('button', { name: 'Look at it' }).click()
}

/** Choose a file and come to its preview. */
export async function openPreview(page: Page, file: string | MadeUpFile) {
  await chooseFile(page, file)
  await page.getByRole('region', { name: 'How it is read' }).waitFor()
}

/** Press the button of a preview and come to the page that says the file is in. */
export async function bringInFile(page: Page, name: string) {
  await page.getByRole('button', { name: /^Bring in \d/ }).click()
  await page.getByRole('heading', { name: `${name} is in` }).waitFor({ timeout: 60_000 })
}

/** The value beside a term: "New" → "6". */
export async function factOf(page: Page, term: string): Promise<string | undefined> {
  const terms = await page.getByRole('term').allInnerTexts()
  return (await page.getByRole('definition').allInnerTexts())[terms.indexOf(term)]
}

/** The first row of a table with these words in it. */
export const rowOf = (table: Locator, name: string): Locator => table.getByRole('row').filter({ hasText: name }).first()

/** How many designs are here, whoever's they are. */
export async function countDesigns(page: Page): Promise<number> {
  await page.goto('/charts?owner=any')
  await page.getByRole('heading', { name: 'Charts', level: 1 }).waitFor()
  const count = /of ([\d,]+) designs?/.exec((await page.getByRole('main').textContent()) ?? '')?.[1]
  return Number(count?.replace(',', '') ?? 0)
}
