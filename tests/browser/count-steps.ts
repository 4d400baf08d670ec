import type { Page } from 'playwright-core'

/** Count a drawer of the sample, wrongly, and compare: the address of the sheet, and of what differs. */
export async function openCounted(page: Page): Promise<{ sheet: string; differences: string }> {
  await page.goto('/count')
  const place = page.getByLabel('Place, with everything inside it')
  const drawers = await place.getByRole('option').allInnerTexts()
  await place.selectOption({ label: drawers.find((drawer) => drawer.trim().endsWith('T2.2')) as string })
  await page.getByLabel('Who counts').fill('Joss Tarrow')
  await page.getByRole('button', { name: 'Begin' }).click()
  await page.getByRole('button', { name: 'Save what is counted' }).waitFor()
  const sheet = page.url()
  await page
    .getByLabel(/: how many/)
    .first()
    .fill('41')
  await page.getByRole('button', { name: 'Save what is counted' }).click()
  await page.getByRole('button', { name: 'Counting is over: compare' }).click()
  await page.getByRole('button', { name: 'Carry out what is chosen' }).waitFor()
  return { sheet, differences: page.url() }
}

/** Add a hoop, and come to its page. */
export async function addHoop(page: Page) {
  await page.goto('/notions/new')
  await page.getByRole('combobox', { name: /^What it is/ }).selectOption({ label: 'Hoops' })
  await page.getByLabel(/^What it is called/).fill('Beech hoop')
  await page.getByLabel('Size').fill('10 in')
  await page.getByRole('button', { name: 'Add the notion' }).click()
  await page.getByRole('heading', { level: 1, name: /Beech hoop/ }).waitFor()
}
