import { describe, expect, it } from 'vitest'
import { errands, walkErrand } from './errands-counted'
import { desk, expectNoSidewaysScroll, openHouse, phone } from './visitor'

const house = openHouse({ hasSample: true })

describe('the fewest steps', () => {
  // One page for all: what is fetched once is there from then on, as on anybody’s device.
  it('on a phone with one thumb', async () => {
    const page = await house.visit({ viewport: phone })
    const taken: Record<string, number> = {}
    for (const { name, phone: walk } of errands) {
      taken[name] = (await walkErrand(page, walk)).steps
      await expectNoSidewaysScroll(page)
    }
    for (const { name, most } of errands) expect(taken[name], name).toBeLessThanOrEqual(most.phone)
  })

  it('at a desk without a mouse', async () => {
    const page = await house.visit({ viewport: desk })
    const taken: Record<string, number> = {}
    for (const { name, desk: walk } of errands) taken[name] = (await walkErrand(page, walk)).steps
    for (const { name, most } of errands) expect(taken[name], name).toBeLessThanOrEqual(most.desk)
  })
})

describe('go to or do', () => {
  it('goes by keys alone, comes first with where one was lately, shuts by Escape, and gives the caret back', async () => {
    const page = await house.visit()
    await page.goto('/charts')
    await page.locator('button[aria-keyshortcuts]').waitFor()
    const dialog = page.getByRole('dialog', { name: 'Go to or do' })
    const box = dialog.getByRole('combobox')
    await page.getByLabel('Words', { exact: true }).focus()
    await page.keyboard.press('Control+k')
    await dialog.getByRole('group', { name: 'Stitchable now', exact: true }).waitFor()
    expect(await box.getAttribute('aria-expanded')).toBe('true')
    await page.keyboard.press('Escape')
    await dialog.waitFor({ state: 'detached' })
    expect(await page.getByLabel('Words', { exact: true }).evaluate((element) => element === document.activeElement)).toBe(true)

    await page.keyboard.press('Control+k')
    await box.waitFor()
    await page.keyboard.type('orchard gate')
    const marked = () => dialog.locator('[role=option][aria-selected=true]')
    await dialog
      .getByRole('option', { name: /^Orchard Gate/ })
      .first()
      .waitFor()
    const first = await marked().textContent()
    await page.keyboard.press('ArrowDown')
    await page.keyboard.press('ArrowUp')
    expect(await marked().textContent()).toBe(first)
    expect(await box.getAttribute('aria-activedescendant')).toBe(await marked().getAttribute('id'))
    await page.keyboard.press('Enter')
    await page.getByRole('heading', { level: 1, name: 'Orchard Gate' }).waitFor()

    await page.keyboard.press('Control+k')
    const lately = dialog.getByRole('group', { name: 'Lately' }).getByRole('option')
    await lately.first().waitFor()
    expect(await lately.first().textContent()).toContain('Orchard Gate')
  })

  it('opens the best answer of Find by Enter, also before it has come', async () => {
    const page = await house.visit()
    await page.goto('/')
    await page.getByRole('searchbox').fill('kettle at wend')
    await page.keyboard.press('Enter')
    await page.getByRole('heading', { level: 1, name: 'Kettle at Wend Cross' }).waitFor()
  })
})

it('drags a chart onto a place, says so, and takes it back', async () => {
  const page = await house.visit()
  await page.goto('/charts?q=rook+hill')
  const row = page.getByRole('row', { name: /Rook Hill in Snow/ })
  await row.and(page.locator('[draggable=true]')).waitFor()
  const start = await row.boundingBox()
  await page.mouse.move((start?.x ?? 0) + 300, (start?.y ?? 0) + 20)
  await page.mouse.down()
  await page.mouse.move((start?.x ?? 0) + 310, (start?.y ?? 0) + 60, { steps: 5 })
  const place = page.getByRole('list', { name: 'Places used last' }).getByRole('listitem').first()
  await place.waitFor()
  const label = (await place.textContent()) ?? ''
  const end = await place.boundingBox()
  await page.mouse.move((end?.x ?? 0) + 20, (end?.y ?? 0) + 20, { steps: 5 })
  await page.mouse.up()
  await page.getByText(`Rook Hill in Snow lives in ${label} now.`).waitFor()
  await row.getByRole('link', { name: label, exact: true }).waitFor()
  await page.getByRole('button', { name: 'Undo' }).click()
  await page.getByText('It is back as it lay.').waitFor()
  await row.getByRole('link', { name: 'R2-3' }).waitFor()
})

it('takes a picture pasted into the form one is in, and shows it before it is sent', async () => {
  const page = await house.visit()
  await page.goto('/charts/read')
  const field = page.getByLabel('PDFs or pictures')
  await field.waitFor()
  // A dot of a PNG: what an image editor lays in the clipboard, made by the page since a test has no clipboard to share.
  const paste = () =>
    field.evaluate((input: HTMLInputElement) => {
      const bytes = Uint8Array.from(
        atob('iVBORw0KGgoAAAANSUhEUgAAAAEAAAABCAYAAAAfFcSJAAAADUlEQVR42mNk+M9QDwADhgGAWjR9awAAAABJRU5ErkJggg=='),
        (letter) => letter.charCodeAt(0),
      )
      const data = new DataTransfer()
      data.items.add(new File([bytes], 'cover.png', { type: 'image/png' }))
      input.focus()
      input.dispatchEvent(new ClipboardEvent('paste', { clipboardData: data, bubbles: true, cancelable: true }))
      return input.files?.length ?? 0
    })
  // The part that listens is fetched once the page is there.
  await expect.poll(paste, { timeout: 20_000 }).toBe(1)
  await page.getByText('cover.png, 1 KB, not sent yet').waitFor()
})
