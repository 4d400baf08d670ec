import type { Page } from 'playwright-core'

/** From the page of what a search for cuts found: keep it under this name, and come to the plan's own page. */
export async function keepPlan(page: Page, title: string) {
  await page.getByLabel('What it is for').fill(title)
  await page.getByRole('button', { name: 'Keep this plan' }).click()
  await page.getByRole('heading', { level: 1, name: title, exact: true }).waitFor()
}

/** Look for a way to cut two plain pieces, large ones, from what is held: the address of the form as it was filled in, and of what was found. */
export async function openFoundCut(page: Page): Promise<{ form: string; found: string }> {
  await page.goto('/cloth/cut/new?size=30+x+20+in&limit=5')
  await page.getByLabel('Copies').fill('2')
  await page.getByLabel('Copies').press('Enter')
  await page.waitForURL('**n1=2*')
  const form = page.url()
  await page.getByRole('button', { name: 'Find the best way to cut it' }).click()
  await page.getByRole('heading', { level: 1, name: 'A way to cut it' }).waitFor()
  return { form, found: page.url() }
}

/** Ask which wishes go together by their thread, and come to the answer. */
export async function openTogetherAnswer(page: Page) {
  await page.goto('/projects/together')
  await page.getByLabel('Search for at most').selectOption({ label: '5 seconds' })
  await page.getByRole('button', { name: 'Find the best set' }).click()
  await page.getByRole('navigation', { name: 'You are in' }).getByText('The answer').waitFor()
}

/** Ask what the free cloth can become, and come to the answer. */
export async function openChoiceAnswer(page: Page) {
  await page.goto('/cloth/choose')
  await page.getByLabel('Search for at most').selectOption({ label: '5 seconds' })
  await page.getByRole('button', { name: 'Find the best set' }).click()
  await page.getByRole('navigation', { name: 'You are in' }).getByText('The answer').waitFor()
}
