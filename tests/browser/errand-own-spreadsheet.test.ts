import path from 'node:path'
import type { Page } from 'playwright-core'
import { expect, it } from 'vitest'
import { bringInFile, countDesigns, factOf, openPreview, rowOf } from './bring-in-steps'
import { openHouse } from './visitor'

const house = openHouse()

const file = (name: string) => path.join(import.meta.dirname, 'data', name)

async function fillIn(page: Page, name: string, inDrawers: string | null) {
  await openPreview(page, file(name))
  const mapping = page.getByRole('form', { name: 'Which column is which' })
  if (inDrawers !== null) {
    await mapping.getByRole('button', { name: /more fields/ }).click()
    await mapping.getByLabel('Place: column of the file').selectOption(inDrawers)
  }
  await mapping
    .getByRole('row', { name: /^Owner/ })
    .getByLabel('For every row')
    .fill('Hanne Drewitt')
  await mapping.getByRole('button', { name: 'Read it this way' }).click()
  await page.getByText('Every column of the file is taken.').waitFor()
}

it('brings in her own four files, reads what can be stitched and where it is, stitches it, and the stock is less by what was used', async () => {
  const page = await house.visit()
  const main = page.getByRole('main')

  await page.goto('/')
  const choices = ['Bring in my spreadsheet', 'Load the sample', 'Start empty']
  for (const choice of choices) await page.getByRole('region', { name: choice }).waitFor()
  await page.getByRole('link', { name: 'Choose a file' }).click()
  await page.getByRole('heading', { name: 'Bring in', level: 1 }).waitFor()

  // Threads: old letters, semicolons, decimal commas, a heading nobody could guess, one row that cannot be right, and
  // not a word on how a line is dyed but its name.
  await fillIn(page, 'threads-held.csv', 'Wo es liegt')
  expect(await factOf(page, 'New')).toBe('6')
  expect(await factOf(page, 'Refused')).toBe('1')
  const refused = page.getByRole('table', { name: 'Rows that are refused, and why' })
  expect(await refused.getByRole('row', { name: /^Row 5/ }).textContent()).toMatch(/Skeins \(column “Stränge”\): “zwei” is not a/)
  const doubtful = page.getByRole('table', { name: 'Rows worth a look, and why' })
  await doubtful.getByText(/“Hand-dyed Cotton” sounds dyed by hand/).waitFor()
  await bringInFile(page, 'threads-held.csv')
  expect(await factOf(page, 'New')).toBe('6')
  await page.getByText('1 row was left out').waitFor()

  await fillIn(page, 'cloth-held.csv', null)
  await bringInFile(page, 'cloth-held.csv')
  await fillIn(page, 'my-charts.csv', null)
  await bringInFile(page, 'my-charts.csv')
  await openPreview(page, file('my-keys.csv'))
  await bringInFile(page, 'my-keys.csv')

  // Of four designs one can be stitched now: one is a skein short, one has lots that do not match, one has no list.
  await page.getByRole('link', { name: 'Charts', exact: true }).click()
  const designs = page.getByRole('table', { name: /^Designs/ })
  await designs.waitFor()
  expect(await rowOf(designs, 'Three Jugs').textContent()).toContain('Short by 1')
  expect(await rowOf(designs, 'Quince and Compass').textContent()).toContain("lots don't match")
  expect(await rowOf(designs, 'Winter Post').textContent()).toContain('No thread list')
  await page.getByRole('checkbox', { name: 'Stitchable now, 1' }).check()
  await page.waitForURL('**/charts?stitchableNow=1')
  await page.getByText('1 of 4 designs').waitFor()
  const links = designs.getByRole('row').getByRole('link', { name: /Nine Wrens|Three Jugs|Quince and Compass|Winter Post/ })
  expect(await links.count()).toBe(1)
  await links.click()

  // What is needed, by the stitch counts and cloth of her own files.
  await page.getByRole('heading', { name: 'Nine Wrens', level: 1 }).waitFor()
  await main.getByText('Stitchable now.').waitFor()
  const route = page.getByRole('region', { name: 'Where everything is' })
  for (const place of ['Mappe A', 'Lade 1', 'Stoffkorb']) await route.getByRole('link', { name: place }).waitFor()
  await page.getByRole('region', { name: 'Cloth' }).getByRole('link', { name: 'L1' }).first().waitFor()

  // 1,500 crosses worked in rows, 2 + 2√2 pitches each, over two threads of the 28 count advised, with two strands.
  const cover = page.getByRole('table', { name: 'Cover, thread by thread' })
  await cover
    .getByRole('row', { name: /0017/ })
    .getByRole('button', { name: /^Enough/ })
    .click()
  const crosses = 1_500 * (2 + 2 * Math.SQRT2) * ((2 * 25.4) / 28) * 2
  await page.getByText(Math.round(crosses).toLocaleString('en-GB'), { exact: true }).waitFor()

  await page.getByRole('link', { name: 'Start this' }).click()
  await page.getByLabel('Bag', { exact: true }).fill('Beutel 1')
  await page.getByRole('button', { name: 'Start it' }).click()
  await page.getByRole('heading', { name: 'Nine Wrens', level: 1 }).waitFor()
  const promised = page.getByRole('table', { name: /^Thread promised/ })
  await promised.getByRole('row', { name: /0017/ }).getByRole('link', { name: 'Lade 1' }).waitFor()
  await page.getByRole('button', { name: /^Kit it/ }).click()
  await promised.getByRole('rowheader', { name: 'In Beutel 1' }).waitFor()
  await page.getByRole('button', { name: 'Start stitching' }).click()
  const log = page.getByRole('region', { name: 'Log' })
  await log.getByLabel('Hours').fill('1½')
  await log.getByLabel('Stitches').fill('2400')
  await log.getByRole('button', { name: 'Add to the log' }).click()
  await log.getByText('2,400 of 2,400 stitches, 1.5 h').waitFor()

  await page.getByRole('link', { name: 'Finish it' }).click()
  await page.getByLabel('Used of Larkholm 0017 Ash').fill('5,5 m')
  await page.getByLabel('Used of Larkholm 0311 Barn Red').fill('3 m')
  await page.getByLabel('Who has it').fill('Ines Coldwell')
  // The drawer is at hand: what is left lies in it again already.
  await page.getByRole('radio', { name: /^lies in its places already/ }).check()
  await page.getByRole('button', { name: 'Finish it' }).click()
  await page.getByText('Finished', { exact: true }).first().waitFor()

  await page.getByRole('link', { name: 'Finishes', exact: true }).click()
  const finishes = page.getByRole('list', { name: /^Finished in \d{4}/ })
  const finish = await finishes.getByRole('listitem').filter({ hasText: 'Nine Wrens' }).textContent()
  expect(finish).toContain('2,400')
  expect(finish).toContain('Ines Coldwell')

  // 2 × 8 m − 5.5 m, and 8 m + 2.5 m − 3 m; both home again.
  await page.getByRole('link', { name: 'Threads', exact: true }).click()
  const threads = page.getByRole('table', { name: /^Threads/ })
  const ash = rowOf(threads, '0017 Ash')
  expect(await ash.textContent()).toContain('10.5 m')
  await ash.getByText('Lade 1').waitFor()
  expect(await rowOf(threads, '0311 Barn Red').textContent()).toContain('7.5 m')
})

it('changes nothing when a file comes again, and takes the last import back', async () => {
  const page = await house.visit()
  // Another person's goods, so that this does not lean on the errand above.
  const before = await countDesigns(page)
  await openPreview(page, {
    name: 'petra.csv',
    content: Buffer.from('Heft;Entwurf;Mappe\nLittle Barge;Wilf Sarratt;P1\nOrchard Gate;Wilf Sarratt;P1\n'),
  })
  await page
    .getByRole('row', { name: /^Owner/ })
    .getByLabel('For every row')
    .fill('Petra Lisle')
  await page.getByRole('button', { name: 'Read it this way' }).click()
  await page.getByText('For every row').first().waitFor()
  await bringInFile(page, 'petra.csv')
  expect(await countDesigns(page)).toBe(before + 2)

  await openPreview(page, {
    name: 'petra.csv',
    content: Buffer.from('Heft;Entwurf;Mappe\nOrchard Gate;Wilf Sarratt;P1\nLittle Barge;Wilf Sarratt;P1\n'),
  })
  await page.getByText('Everything in this file is here already; nothing would change.').waitFor()
  expect(await factOf(page, 'The same')).toBe('2')
  expect(await page.getByRole('button', { name: /^Bring in/ }).count()).toBe(0)

  await page.getByRole('link', { name: 'Leave it' }).click()
  await page.getByRole('button', { name: 'Undo petra.csv' }).click()
  await page.getByRole('dialog').getByRole('button', { name: 'Take it back' }).click()
  await page.getByRole('heading', { name: 'petra.csv was taken back' }).waitFor()
  expect(await countDesigns(page)).toBe(before)
})
