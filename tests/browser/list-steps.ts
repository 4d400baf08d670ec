import type { Page } from 'playwright-core'

type Change = { label: RegExp; value: string }

/**
 * Tick the first thing of a big list at the desk and give it another home, or change something else of it, after a look.
 *
 * @returns the addresses of what is chosen, of what would change, and of what was done
 */
export async function moveFirstOf(
  page: Page,
  room: 'charts' | 'cloth' | 'notions' | 'projects',
  noun: string,
  { label, value }: Change = { label: /^New home/, value: 'R2-1' },
): Promise<string[]> {
  await page.goto(`/${room}`)
  const tick = page
    .getByRole('main')
    .getByRole('checkbox', { name: /^Choose / })
    .first()
  const goOn = page.getByRole('form', { name: `Chosen ${noun}s` }).getByRole('button', { name: 'Do something with it' })
  // A tick before the scripts run is forgotten when they draw the list.
  for (let tries = 0; tries < 40 && !(await goOn.isVisible()); tries++) {
    await tick.setChecked(false)
    await tick.setChecked(true)
    await page.waitForTimeout(250)
  }
  await goOn.click()
  await page.waitForURL(`**/${room}/bulk?chosen=*`)
  const chosen = page.url()
  await page.getByLabel(label).fill(value)
  await page.getByRole('button', { name: 'Look at what would change' }).click()
  await page.getByText('Nothing is written yet.').waitFor()
  const preview = page.url()
  await page.getByRole('button', { name: /^Change / }).click()
  await page.waitForURL(`**/${room}/bulk/done/*`)
  return [chosen, preview, page.url()]
}
