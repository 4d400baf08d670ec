import type { Page } from 'playwright-core'
import sharp from 'sharp'
import { expect, it } from 'vitest'
import { leaflet } from './leaflet'
import { showStockOf } from './load-sample'
import { pasteKey } from './reading-steps'
import { expectNoSidewaysScroll, openHouse, phone } from './visitor'

const house = openHouse({ hasSample: true })
const slow = 240_000

/** Codes and names as the sample has them; 9911 is in no line of it. */
const key = [
  'Larkholm Stranded Cotton',
  'Symbol\tNo.\tColour\tStrands\tStitches\tSkeins',
  '●\t0311\tDeep Mussel\t2\t1,240\t2',
  '■\t0742\tDark Harbour Blue\t2\t980\t1',
  '▲\t0087\tDamson\t2\t640\t1',
  '★\t1204\tMadder\t2\t120\t1',
  '×\t9911\tKiln Orange\t2\t44\t1',
]
const pasted = ['Ten Wrens', 'Designed by Wilf Sarratt', 'Stitch count: 120 x 84', '28 count, over 2', '', ...key].join('\n')

/** The key as a picture, large and level. */
function pictureOf(lines: readonly string[]): Promise<Buffer> {
  const cells = (text: string, row: number) =>
    text.split('\t').map((cell, at) => `<text x="${40 + at * 220}" y="${80 + row * 60}" font-size="30">${cell}</text>`)
  const svg = `<svg xmlns="http://www.w3.org/2000/svg" width="1400" height="700"><rect width="1400" height="700" fill="#fff"/>
    <g font-family="sans-serif">${lines.flatMap(cells).join('')}</g></svg>`
  return sharp(Buffer.from(svg)).jpeg().toBuffer()
}

const line = (page: Page, number: number) => page.getByRole('group', { name: `Line ${number}`, exact: true })

it(
  'reads a pasted key, has it mended by keyboard, saves it with its new thread, shows its cover, and takes it back',
  async () => {
    const page = await house.visit()
    await page.goto('/charts')
    await page.getByRole('link', { name: 'Read a key' }).click()
    await page.getByLabel('The key’s text').fill(pasted)
    await page.getByRole('button', { name: 'Read the text' }).click()
    await page.getByRole('heading', { name: 'Save it' }).waitFor()
    await page.getByText(/^5 lines read/).waitFor()
    await line(page, 1).getByText('Larkholm Stranded Cotton 0311').first().waitFor()
    await line(page, 5).getByText('would be new').waitFor()
    expect(await page.getByLabel('Size', { exact: true }).inputValue()).toBe('120 × 84')

    // What is sure is a press of an arrow key away; typed over and entered, it is kept at once.
    const symbol = line(page, 1).getByLabel('Line 1, symbol')
    await symbol.focus()
    await page.keyboard.press('ArrowDown')
    expect(await page.evaluate(() => document.activeElement?.getAttribute('aria-label'))).toBe('Line 2, symbol')
    await page.keyboard.type('□')
    await page.keyboard.press('Enter')
    await page.getByRole('button', { name: 'Undo the last correction', disabled: false }).waitFor()
    await page.reload()
    expect(await line(page, 2).getByLabel('Line 2, symbol').inputValue()).toBe('□')
    await page.getByRole('button', { name: 'Undo the last correction' }).click()
    await expect.poll(() => line(page, 2).getByLabel('Line 2, symbol').inputValue()).toBe('■')

    // A word where a figure is wanted is said at its field, and nothing is changed.
    const strands = line(page, 3).getByLabel('Line 3, strands')
    await strands.fill('many')
    await strands.press('Enter')
    await line(page, 3).getByRole('alert').getByText('Strands are a whole number from 1 to 24.').waitFor()
    await strands.press('Escape')
    expect(await strands.inputValue()).toBe('2')

    // Not ticked, the new thread holds it back.
    const form = page.getByRole('form', { name: 'Save the reading' })
    await form.getByRole('button', { name: 'Save it' }).click()
    await form
      .getByText(/1 line cannot be saved yet: line 5 has a new thread that is not ticked/)
      .first()
      .waitFor()
    await form.getByLabel('It is meant: add it').check()
    await form.getByRole('button', { name: 'Save it' }).click()
    await page.getByText('Saved: 5 lines').waitFor()
    const designs = page.getByRole('table', { name: /^The designs saved/ })
    await designs.getByText(/ready/).first().waitFor()
    await designs.getByRole('link', { name: 'Ten Wrens' }).click()
    await page.waitForURL('**/designs/*')
    await page.getByText('120 wide × 84 high').waitFor()
    await page.goBack()
    await page.getByRole('button', { name: 'Undo: take it back' }).click()
    await page.getByRole('heading', { name: 'Save it' }).waitFor()
    await page.goto('/charts?q=Ten+Wrens')
    await page.getByRole('heading', { name: 'Charts', level: 1 }).waitFor()
    expect(await page.getByRole('link', { name: 'Ten Wrens' }).count()).toBe(0)
  },
  slow,
)

it(
  'reads a folder of PDFs one after another, keeps each as its owner’s own, and says so when one comes again',
  async () => {
    const page = await house.visit()
    await page.goto('/')
    await showStockOf(page, 'Hanne Drewitt')
    const files = [
      { name: 'great-barge.pdf', mimeType: 'application/pdf', buffer: await leaflet('Great Barge') },
      { name: 'plum-tree.pdf', mimeType: 'application/pdf', buffer: await leaflet('Plum Tree Census') },
    ]
    await page.goto('/charts/read')
    await page.getByRole('form', { name: 'Read files' }).getByLabel('PDFs or pictures').setInputFiles(files)
    await page.getByRole('button', { name: 'Read the files' }).click()
    const readings = page.getByRole('table', { name: /^Keys that are being read/ })
    for (const name of ['great-barge.pdf', 'plum-tree.pdf'])
      await readings
        .getByRole('row', { name: new RegExp(`${name}.*(To be looked over|Ready to save)`) })
        .waitFor({ timeout: 60_000 })

    await readings.getByRole('link', { name: 'great-barge.pdf' }).click()
    await page.getByText('1 of 2').waitFor()
    await page.getByRole('img', { name: 'Page 1' }).waitFor()
    await page.getByRole('button', { name: /^Line 2, thread: .*0742/ }).waitFor()
    await page.getByRole('button', { name: 'Save it' }).click()
    await page.getByText('Saved: 3 lines').waitFor()
    await page.getByRole('link', { name: 'Next: plum-tree.pdf' }).waitFor()

    await page.getByRole('link', { name: 'To the chart' }).click()
    await page.waitForURL('**/charts/*')
    await page.getByRole('heading', { name: 'Great Barge', level: 1 }).waitFor()
    await page.getByRole('img', { name: 'Cover of Great Barge' }).waitFor()
    const kept = page.getByRole('table', { name: 'Files kept with it' })
    const href = await kept.getByRole('link', { name: 'great-barge.pdf' }).getAttribute('href')
    const served = await page.request.get(href ?? '')
    expect(served.headers()['content-disposition']).toContain('attachment')
    expect(await served.body()).toEqual(files[0]?.buffer)

    // Nobody else is shown it.
    await showStockOf(page, 'The Oxmarsh Needle Room')
    await page.getByText(/A file is kept for Hanne Drewitt/).waitFor()
    expect((await page.request.get(href ?? '')).status()).toBe(404)
    await showStockOf(page, 'Hanne Drewitt')

    await page.goto('/charts/read')
    await page.getByRole('form', { name: 'Read files' }).getByLabel('PDFs or pictures').setInputFiles(files.slice(0, 1))
    await page.getByRole('button', { name: 'Read the files' }).click()
    await page.getByText('You have this very file already').waitFor({ timeout: 60_000 })
  },
  slow,
)

it(
  'lets the first of two people save, and tells the other; a phone shows each line under its own text',
  async () => {
    const [page, other] = [await house.visit({ viewport: phone }), await house.visit()]
    await pasteKey(page, pasted.replace('Ten Wrens', 'Hare by the Ropewalk'))
    await expectNoSidewaysScroll(page)
    await line(page, 1).getByText('● 0311 Deep Mussel').first().waitFor()
    await other.goto(page.url())
    await other.getByRole('heading', { name: 'Save it' }).waitFor()
    for (const one of [page, other]) await one.getByLabel('Leave out for now what cannot be saved yet').check()
    await page.getByRole('button', { name: 'Save it' }).click()
    await page.getByText('Saved: 4 lines').waitFor()
    await page.getByText('1 line was left out, and the list is marked as not whole.').waitFor()
    await other.getByRole('button', { name: 'Save it' }).click()
    await other
      .getByText(/Nothing was saved/)
      .first()
      .waitFor()
  },
  slow,
)

it(
  'stops reading a photograph when asked, and the file is there still to be read again',
  async () => {
    const page = await house.visit()
    await page.goto('/charts/read')
    const photo = { name: 'key-on-the-table.jpg', mimeType: 'image/jpeg', buffer: await pictureOf(key) }
    await page.getByRole('form', { name: 'Read files' }).getByLabel('PDFs or pictures').setInputFiles([photo])
    await page.getByRole('button', { name: 'Read the files' }).click()
    await page.getByRole('button', { name: 'Stop' }).click()
    await page.getByText('It was stopped before it was read.').first().waitFor()
    await page.getByRole('button', { name: 'Read it again' }).click()
    await page.getByRole('heading', { name: 'Save it' }).waitFor({ timeout: 120_000 })
    await page.getByText(/^\d+ lines? read/).waitFor()
  },
  slow,
)
