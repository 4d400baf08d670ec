// Backups from Settings: one made and checked, what came after it lost again by a restore, and one brought in from a stick.
import { existsSync, mkdirSync, mkdtempSync, readdirSync, rmSync, utimesSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import path from 'node:path'
import { afterAll, beforeAll, expect, it } from 'vitest'
import { makeBackup } from './backup-steps'
import { shop } from './sample-files'
import { expectNoSidewaysScroll, openHouse, phone } from './visitor'

const house = openHouse({ isShared: false })
const stick = mkdtempSync(path.join(tmpdir(), 'larder-stick-'))
afterAll(() => rmSync(stick, { recursive: true, force: true }))

const threads = `Owner,Maker,Line,Code,Name,Have,Lot,Place
${shop},Larkholm,Stranded Cotton,0017,Straw,6,,T2.1
`
const charts = `Chart,Designer,Kind,Owner,Copies,Price,Place
Seven Lanterns,Dorrit Quayle,leaflet,Hanne Drewitt,1,11.00,C1
Nine Wrens,Corvin Ashdale,leaflet,Hanne Drewitt,1,9.00,C1
`

async function bringIn(kind: string, body: string): Promise<void> {
  const answer = await fetch(`${house.server().url}/api/v1/imports?kind=${kind}`, {
    ...{ method: 'POST', headers: { 'content-type': 'text/csv' }, body },
  })
  expect(answer.status, await answer.text()).toBe(200)
}

beforeAll(() => bringIn('threads', threads))

it('makes a backup, checks it, and has it back after a change', { timeout: 240_000 }, async () => {
  const page = await house.visit()
  await page.goto('/settings')
  await page.getByRole('link', { name: 'Backups' }).click()
  const main = page.getByRole('main')
  await main.getByText('No backup yet').waitFor()
  const made = await makeBackup(page)
  await main.getByRole('row', { name: /asked for.*checked/ }).waitFor()
  await main.getByText('These lie on the same disk as the collection').waitFor()

  await bringIn('charts', charts)
  await page.goto('/charts?owner=any')
  await main.getByRole('link', { name: 'Nine Wrens' }).first().waitFor()

  await page.goto(made)
  await main.getByText(/since this backup would be lost/).waitFor()
  await main.getByRole('textbox', { name: 'Type the word restore' }).fill('yes')
  await main.getByRole('button', { name: 'Restore this backup' }).click()
  await main.getByRole('link', { name: 'Type the word restore to go on.' }).waitFor()
  await main.getByRole('textbox', { name: 'Type the word restore' }).fill('restore')
  await main.getByRole('button', { name: 'Restore this backup' }).click()
  await main.getByText('Restored', { exact: true }).waitFor({ timeout: 60_000 })
  await main.getByRole('row', { name: /set aside before a restore.*checked/ }).waitFor()

  await page.goto('/charts?owner=any')
  await main.getByRole('heading', { level: 1, name: 'Charts' }).waitFor()
  expect(await main.getByRole('link', { name: 'Nine Wrens' }).count()).toBe(0)
  await page.goto('/threads')
  await main.getByText('0017').first().waitFor()
  // Writing goes on in what was restored.
  await bringIn('charts', charts)
})

it('takes one in from a stick, says what is none, and removes it', { timeout: 120_000 }, async () => {
  const page = await house.visit({ viewport: phone })
  await page.goto('/settings/backups')
  const main = page.getByRole('main')
  await main
    .getByRole('link', { name: /\d\d:\d\d/ })
    .first()
    .click()
  await main.getByRole('link', { name: 'Download' }).waitFor()
  await expectNoSidewaysScroll(page)
  const coming = page.waitForEvent('download')
  await main.getByRole('link', { name: 'Download' }).click()
  const copy = path.join(stick, 'from-home.zip')
  await (await coming).saveAs(copy)

  await page.goto('/settings/backups')
  await expectNoSidewaysScroll(page)
  await main.getByLabel('A backup, as it was downloaded or copied').setInputFiles(copy)
  await main.getByRole('button', { name: 'Bring it in' }).click()
  await page.waitForURL(/brought-in\.zip/)
  await main.getByText('It is good', { exact: true }).waitFor({ timeout: 60_000 })
  await main.getByRole('button', { name: 'Remove', exact: true }).click()
  await page.getByRole('dialog').getByRole('button', { name: 'Remove it' }).click()
  await main.getByRole('heading', { name: 'The backups' }).waitFor()
  expect(readdirSync(path.join(house.server().dataFolder, 'backups')).some((name) => name.endsWith('brought-in.zip'))).toBe(false)
})

it('says loudly on Find that a backup failed, until one is good again', { timeout: 120_000 }, async () => {
  const page = await house.visit()
  const main = page.getByRole('main')
  const disk = path.join(stick, 'disk')
  await page.goto('/settings/backups')
  await main.getByRole('textbox', { name: 'Folder' }).fill(disk)
  await main.getByRole('button', { name: 'Keep these' }).click()
  await main.getByRole('link', { name: 'Give the whole path of a folder that is there.' }).waitFor()
  mkdirSync(disk)
  await main.getByRole('button', { name: 'Keep these' }).click()
  await main.getByText('Kept.', { exact: true }).waitFor()
  rmSync(disk, { recursive: true })
  await main.getByRole('button', { name: 'Back up now' }).click()
  await main.getByText('The last backup did not come off').waitFor()
  await page.goto('/')
  await main.getByText('There is no good backup of late').waitFor()
  await main.getByText(/If it is on a disk, connect the disk/).waitFor()
  await main.getByRole('link', { name: 'To the backups' }).click()
  await main.getByRole('textbox', { name: 'Folder' }).fill('')
  await main.getByRole('button', { name: 'Keep these' }).click()
  await main.getByText('Kept.', { exact: true }).waitFor()
  await makeBackup(page)
  await page.goto('/')
  await main.getByRole('heading', { name: 'How things stand' }).waitFor()
  expect(await main.getByText('There is no good backup of late').count()).toBe(0)
})

it('lists what is insured at home and not in the shop, with what is out of print apart', { timeout: 120_000 }, async () => {
  const page = await house.visit()
  const main = page.getByRole('main')
  const owners = (await (await fetch(`${house.server().url}/api/v1/owners`)).json()).owners as { id: string; name: string }[]
  const hanne = owners.find(({ name }) => name === 'Hanne Drewitt')?.id as string
  await page.goto(`/insurance?owner=${hanne}`)
  await main.getByRole('row', { name: /Charts 2 copies.*20\.00/ }).waitFor()
  expect(await main.getByText('0017').count()).toBe(0)
  const found = (await (await fetch(`${house.server().url}/api/v1/insurance?owner=${hanne}`)).json()).things as {
    id: string
    title: string
  }[]
  await page.goto(`/charts/${found.find(({ title }) => title === 'Nine Wrens')?.id}`)
  await main.getByRole('checkbox', { name: /Out of print/ }).check()
  await main.getByRole('region', { name: 'For the insurer' }).getByRole('button', { name: 'Keep' }).click()
  await main.getByText('Kept.', { exact: true }).waitFor()
  await page.goto(`/insurance?owner=${hanne}`)
  await main.getByRole('row', { name: /Charts 1 copy.*11\.00/ }).waitFor()
  await main.getByRole('heading', { name: 'Charts out of print' }).waitFor()
  await main.getByText('out of print', { exact: true }).waitFor()
  await main.getByRole('textbox', { name: 'Cloth' }).fill('14.50')
  await main.getByRole('button', { name: 'Keep these' }).click()
  await main.getByText('Kept.', { exact: true }).waitFor()
  const pdf = await page.request.get(`/insurance/insurance.pdf?owner=${hanne}`)
  expect(pdf.headers()['content-type']).toBe('application/pdf')
  expect((await pdf.body()).subarray(0, 5).toString()).toBe('%PDF-')
  const csv = await (await page.request.get(`/insurance/insurance.csv?owner=${hanne}`)).text()
  expect(csv).toContain('Nine Wrens')
  expect(csv).not.toContain('Larkholm')
})

it('looks through the collection, and sets a file aside that nothing names only when asked', { timeout: 120_000 }, async () => {
  const page = await house.visit({ viewport: phone })
  const main = page.getByRole('main')
  const photos = path.join(house.server().dataFolder, 'uploads', 'photos')
  const name = '01a22b73-27a1-73d3-987a-1943a46840aa.webp'
  const left = path.join(photos, name)
  mkdirSync(photos, { recursive: true })
  writeFileSync(left, 'left behind')
  const hours = (Date.now() - 3 * 3_600_000) / 1_000
  utimesSync(left, hours, hours)

  await page.goto('/settings')
  await main.getByRole('link', { name: 'Check the whole collection' }).click()
  await main.getByText('Nothing looked at yet').waitFor()
  await main.getByRole('button', { name: 'Check now' }).click()
  await main.getByText(/^All is well: .* add up, and 1 thing is worth a look$/).waitFor({ timeout: 60_000 })
  await expectNoSidewaysScroll(page)
  expect(existsSync(left)).toBe(true)
  await main.getByRole('button', { name: 'Set it aside' }).click()
  const dialog = page.getByRole('dialog')
  await dialog.getByText(/stays there until you remove it/).waitFor()
  await dialog.getByRole('button', { name: 'Leave it' }).click()
  expect(existsSync(left)).toBe(true)
  await main.getByRole('button', { name: 'Set it aside' }).click()
  await dialog.getByRole('button', { name: 'Set it aside' }).click()
  await main.getByText('Done: set it aside.').waitFor()
  expect(existsSync(left)).toBe(false)

  const aside = main.getByRole('region', { name: 'Set aside' })
  await aside.getByRole('row', { name: /1 file/ }).waitFor()
  await expectNoSidewaysScroll(page)
  await aside.getByRole('button', { name: 'Remove' }).click()
  await page.getByRole('dialog').getByRole('button', { name: 'Remove it' }).click()
  await aside.waitFor({ state: 'detached' })
  await main.getByRole('button', { name: 'Check again' }).click()
  await main.getByText(/^All is well: \d+ movements add up$/).waitFor({ timeout: 60_000 })
})
