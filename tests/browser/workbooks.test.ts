import * as XLSX from '@e965/xlsx'
import { expect, it } from 'vitest'
import { bringInFile, chooseFile, factOf } from './bring-in-steps'
import { openHouse, phone } from './visitor'

const house = openHouse()

function workbook(): Buffer {
  const book = XLSX.utils.book_new()
  const threads = [
    ['What we hold, March'],
    [],
    ['Drawer', 'Maker', 'Line', 'Code', 'Skeins'],
    ['W1', 'Larkholm', 'Stranded Cotton', '0017', 2],
    ['W2', 'Larkholm', 'Stranded Cotton', '0018', 1],
    ['Total', '', '', '', 3],
  ]
  const chest = [
    ['X1', 'X2', 'X3'],
    ['0411 (2)', '0412', '0420'],
    ['0413', '0414 Pine (3)', ''],
  ]
  XLSX.utils.book_append_sheet(book, XLSX.utils.aoa_to_sheet(chest), 'Chest')
  XLSX.utils.book_append_sheet(book, XLSX.utils.aoa_to_sheet(threads), 'Threads')
  XLSX.utils.book_append_sheet(book, XLSX.utils.aoa_to_sheet([]), 'Blank')
  return XLSX.write(book, { type: 'buffer', bookType: 'xlsx' })
}

it('brings a workbook in sheet by sheet, one of them a sheet of drawers', async () => {
  const page = await house.visit({ viewport: phone })
  const main = page.getByRole('main')
  await chooseFile(page, { name: 'stash.xlsx', content: workbook() })

  // The first is a sheet of drawers: who makes the threads does not stand in it.
  await page.getByRole('heading', { name: 'Say how to read stash.xlsx, Chest' }).waitFor()
  await main.getByText('a column for each drawer, labels in row 1').waitFor()
  await page.getByRole('button', { name: 'Another layout, or other headings' }).click()
  await page.getByLabel('It is laid out as').selectOption('a row for each drawer')
  await page.getByRole('button', { name: 'Look again' }).click()
  await main.getByText('Workbook (xlsx); a row for each drawer').waitFor()
  // What was chosen stays in sight.
  await page.getByLabel('It is laid out as').selectOption('a column for each drawer')
  await page.getByRole('button', { name: 'Look again' }).click()
  await main.getByText('a column for each drawer, labels in row 1').waitFor()

  await page.getByLabel('For every row: Maker').fill('Larkholm')
  await page.getByRole('button', { name: 'Read it this way' }).click()
  await page.getByRole('heading', { name: 'stash.xlsx, Chest', level: 1, exact: true }).waitFor()
  expect(await factOf(page, 'New')).toBe('5')
  await bringInFile(page, 'stash.xlsx, Chest')

  await page.getByRole('link', { name: 'On to stash.xlsx, Threads' }).click()
  await page.getByRole('heading', { name: 'stash.xlsx, Threads', level: 1, exact: true }).waitFor()
  await main.getByText('headings in row 3').waitFor()
  expect(await factOf(page, 'New')).toBe('2')
  await main.getByText('“Total | 3” reads as a sum of other rows and is passed over.').waitFor()
  await bringInFile(page, 'stash.xlsx, Threads')

  const places = (await (await fetch(`${house.server().url}/api/v1/places`)).json()) as { places: { label: string }[] }
  expect(places.places.map(({ label }) => label)).toEqual(expect.arrayContaining(['X1', 'X2', 'X3', 'W1', 'W2']))
})

it('takes one sheet of a workbook through the API', async () => {
  const form = new FormData()
  form.set('file', new File([new Uint8Array(workbook())], 'stash.xlsx'))
  const response = await fetch(`${house.server().url}/api/v1/imports?dry-run=true&sheet=Threads&ownerName=Nell`, {
    method: 'POST',
    body: form,
  })
  expect(response.status).toBe(200)
  expect(await response.json()).toMatchObject({
    ...{ sheet: 'Threads', layout: 'rows', headerRow: 3, encoding: null, separator: null },
    sheets: [{ name: 'Chest' }, { name: 'Threads' }, { name: 'Blank' }],
  })
})
