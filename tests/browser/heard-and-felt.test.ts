// The four errands asked for most, by keyboard alone and as somebody hears them who does not see the screen: what is named, in which order, and
// what is said when an answer changes. And what each of the screens opened most brings along.
import { readFileSync } from 'node:fs'
import path from 'node:path'
import { gzipSync } from 'node:zlib'
import type { Page } from 'playwright-core'
import { describe, expect, it } from 'vitest'
import { askApi } from './api-steps'
import { press, tabTo } from './by-keyboard'
import { openHouse } from './visitor'

const house = openHouse({ hasSample: true })
const build = path.resolve(import.meta.dirname, '../../.next')

/** What a screen reader is told of the page, line by line from the top. */
const heard = (page: Page): Promise<string> => page.locator('body').ariaSnapshot()

/** These are heard, one after the other, whatever else is between them. */
async function expectHeard(page: Page, ...expected: RegExp[]) {
  const lines = (await heard(page)).split('\n')
  let from = 0
  for (const words of expected) {
    const at = lines.findIndex((line, index) => index >= from && words.test(line))
    expect(at, `${words} after line ${from} of\n${lines.join('\n')}`).toBeGreaterThanOrEqual(0)
    from = at + 1
  }
}

describe('each errand, by keyboard and by ear', () => {
  it('says which box a seasonal chart is in', async () => {
    const page = await house.visit()
    await page.goto('/')
    expect(await page.title()).toBe('Find · Chart Larder')
    const box = page.getByRole('searchbox', { name: /^Find/ })
    const isIn = () => box.evaluate((one) => one === document.activeElement, undefined, { timeout: 1_000 }).catch(() => false)
    // Pressed before the scripts run it does nothing.
    for (let turns = 100; turns > 0 && !(await isIn()); turns--) {
      await page.keyboard.press('/')
      await page.waitForTimeout(100)
    }
    await page.keyboard.type('yard gate')
    // Said without the focus leaving the box.
    await page
      .getByRole('status')
      .filter({ hasText: /found for “yard gate”/ })
      .waitFor()
    expect(await isIn()).toBe(true)
    await expectHeard(
      page,
      /link "To the content"/,
      /navigation "Main"/,
      /main:/,
      /heading "Find" \[level=1\]/,
      /searchbox "Find a chart, thread/,
      /found for “yard gate”/,
      /region "Charts"/,
      /heading "Charts.*\[level=2\]/,
      /link "Yard Gate in Frost"/,
      /link "R2-3"/,
    )
    // Its place is the next thing one comes to.
    await tabTo(page, page.getByRole('region', { name: 'Charts' }).getByRole('link', { name: 'Yard Gate in Frost' }))
    await page.keyboard.press('Tab')
    expect(await page.evaluate(() => document.activeElement?.textContent)).toBe('R2-3')
  })

  it('says what can be stitched now, and how many that leaves, as soon as it is ticked', async () => {
    const page = await house.visit()
    await page.goto('/charts')
    const tick = page.getByRole('checkbox', { name: /^Stitchable now, \d+$/ })
    await tabTo(page, tick)
    const count = Number(
      (await tick.getAttribute('aria-label')) ?? (await heard(page)).match(/checkbox "Stitchable now, (\d+)"/)?.[1],
    )
    await page.keyboard.press('Space')
    const said = page
      .locator('[aria-live="polite"]')
      .filter({ hasText: new RegExp(`^${count} of \\d+ designs, best covered first$`) })
    await said.waitFor()
    await expectHeard(
      page,
      /heading "Charts" \[level=1\]/,
      new RegExp(`${count} of \\d+ designs`),
      /form "Choose which charts to show"/,
      /checkbox "Stitchable now, \d+" \[checked\]/,
      /- table /,
      /columnheader "Cover"/,
      /columnheader "Chart"/,
      /columnheader "Place"/,
      /rowheader "Stitchable now/,
      /row "Choose .* All \d+ ready/,
    )
  })

  it('says what would go on the cloth on hand', async () => {
    const page = await house.visit()
    await page.goto('/charts')
    const counts = page.getByRole('combobox', { name: 'Count on hand' })
    await tabTo(page, counts)
    await page.keyboard.press('ArrowDown')
    await page.waitForURL(/clothCount=/)
    const fits = page.getByRole('checkbox', { name: /^Cloth that fits, \d+$/ })
    await tabTo(page, fits)
    await page.keyboard.press('Space')
    await page.waitForURL(/clothFits=1/)
    await page.getByRole('columnheader', { name: 'Cloth' }).waitFor()
    await expectHeard(
      page,
      ...[/\d+ of \d+ designs/, /combobox "Count on hand"/],
      // Sizes and pieces are on the cloth that was chosen, and the piece is where it says.
      ...[/columnheader "Inches on \d+/, /columnheader "Cloth"/, /cell "[^"]+ fits[^"]*, in [^"]+"/],
    )
    const row = page
      .getByRole('table', { name: /^Designs/ })
      .getByRole('row')
      .filter({ hasText: / fits.*, in / })
      .first()
    const piece = / ([A-Z]+-\d+) fits/.exec(
      ` ${(await row.getByRole('cell').filter({ hasText: / fits/ }).textContent()) ?? ''}`,
    )?.[1]
    expect(piece).toBeDefined()
    await row.getByRole('link').first().click()
    await page.getByText(`Cloth: ${piece} fits`).waitFor()
  })

  it('asks of a finished piece what is known already, field by field, and says that it is done', async () => {
    const { projects } = await askApi<{ projects: { projectId: string; status: string; title?: string }[] }>(
      house,
      '/projects?state=under-way',
    )
    const stitching = projects.find(({ status }) => status === 'stitching')
    const page = await house.visit()
    await page.goto(`/projects/${stitching?.projectId}/finish`)
    await expectHeard(
      page,
      /navigation "You are in"/,
      /heading .*\[level=1\]/,
      /textbox "Finished on needed"/,
      /textbox "Hours, all together/,
      /textbox "Stitches/,
      /textbox "Who has it/,
      /button "Finish it"/,
    )
    // From any field: nobody tabs through the threads one by one to get to the button.
    await press(page, page.getByRole('textbox', { name: /^Stitches/ }))
    await page.waitForURL((url) => !url.pathname.endsWith('/finish'))
    await expectHeard(page, /heading .*\[level=1\]/, /[Ff]inished/)
  })
})

it('tells what is chosen from what is not where the device chooses the colours', async () => {
  const page = await house.visit()
  await page.emulateMedia({ forcedColors: 'active' })
  await page.goto('/buy')
  const edges = (chosen: string, others: string) =>
    page.evaluate(
      (selectors) =>
        selectors.map((selector) => {
          const element = document.querySelector(selector)
          if (!element) return null
          const { borderBlockStartColor, borderBlockEndColor } = getComputedStyle(element)
          return `${borderBlockStartColor} ${borderBlockEndColor}`
        }),
      [chosen, others],
    )
  for (const group of ['nav[aria-label="Main"]', 'main nav:has([aria-current]):has(a:not([aria-current]))']) {
    const [chosen, other] = await edges(`${group} a[aria-current]`, `${group} a:not([aria-current])`)
    expect(chosen, group).toBeTruthy()
    expect(chosen, group).not.toBe(other)
  }
})

describe('what a screen brings along', () => {
  /** Bytes of the scripts a page asks for at once, packed; what is loaded when it is first used is not among them. */
  async function scriptBytes(address: string): Promise<number> {
    const page = await fetch(house.server().url + address)
    const files = new Set((await page.text()).match(/static\/chunks\/[\w.~-]+\.js/g))
    expect(files.size, address).toBeGreaterThan(3)
    return [...files].reduce((sum, file) => sum + gzipSync(readFileSync(path.join(build, file))).length, 0)
  }

  it('is at most 60 kB of scripts more than an empty page does, for Find, Charts and a design', async () => {
    const empty = await scriptBytes('/nothing-is-here')
    const { designs } = await askApi<{ designs: { designId: string }[] }>(house, '/designs?limit=1')
    const beyond = async (address: string) => (await scriptBytes(address)) - empty
    for (const address of ['/', '/charts', `/designs/${designs[0]?.designId}`])
      expect(await beyond(address), address).toBeLessThanOrEqual(60_000)
  })

  it('begins with the letters it is set in', async () => {
    const page = await house.visit()
    await page.goto('/')
    const early = page.locator('link[rel="preload"][as="font"]')
    expect(await early.count()).toBe(1)
    expect(await early.getAttribute('href')).toMatch(/source-sans-3-latin|\.woff2/)
  })
})
