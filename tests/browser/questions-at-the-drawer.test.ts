// What is asked standing at a drawer, phone in one hand: numbers 1 to 6, 12 and 39 to 43 of the questions this is for.
import type { Locator, Page } from 'playwright-core'
import { describe, expect, it } from 'vitest'
import { rowOf } from './bring-in-steps'
import { lookFor, openPlace } from './find-steps'
import { showStockOf } from './load-sample'
import { hanne, readSample, shop, threadRows, walkTurns } from './sample-files'
import { expectNoSidewaysScroll, openHouse, phone } from './visitor'

const house = openHouse({ hasSample: true })

/** Find, on the phone, with the stock of one owner. */
async function atFind(owner: string = shop): Promise<Page> {
  const page = await house.visit({ viewport: phone })
  await page.goto('/')
  await showStockOf(page, owner)
  return page
}

async function openThread(page: Page, words: string, title: string): Promise<Locator> {
  const main = await lookFor(page, words)
  await main.getByRole('link', { name: title }).first().click()
  await page.waitForURL('**/threads/*')
  await page.getByRole('heading', { level: 1 }).waitFor()
  await expectNoSidewaysScroll(page)
  return page.getByRole('main')
}

/** Open what can be done with a batch of a thread's page, and one of its doings. */
async function chooseDoing(page: Page, batch: string, doing: string, title = doing) {
  await page.getByRole('button', { name: `What to do with ${batch}` }).click()
  await page.getByRole('link', { name: doing, exact: true }).first().click()
  await page.getByRole('form', { name: title }).waitFor()
  await expectNoSidewaysScroll(page)
}

/** What is seen of it, cell from cell apart. */
const textOf = async (seen: Locator): Promise<string> => (await seen.allInnerTexts()).join('\n')

/** Names as they stand in a table, by the codes looked for; each code once, in the order met. */
const codesIn = (text: string, codes: readonly string[]): string[] =>
  codes
    .filter((code) => new RegExp(`\\b${code}\\b`).test(text))
    .sort((a, b) => text.search(new RegExp(`\\b${a}\\b`)) - text.search(new RegExp(`\\b${b}\\b`)))

describe('find', () => {
  it('1 Which drawer is Larkholm 0311 in?', async () => {
    const [row] = threadRows('0311')
    const main = await lookFor(await atFind(), 'Larkholm 0311')
    await main
      .getByRole('link', { name: row?.Place as string })
      .first()
      .waitFor()
    expect(await main.textContent()).toContain(`${Number(row?.Skeins) * 8} m free`)
  })

  it('2 What is in drawer T2.1, left to right?', async () => {
    const main = await openPlace(await atFind(), 'T2.1')
    const codes = readSample('threads')
      .filter((row) => row.Owner === shop && row.Place === 'T2.1')
      .map((row) => row.Code as string)
    const lying = main.getByRole('table', { name: 'What lies in T2.1, left to right' })
    const shown = await textOf(lying)
    expect(codesIn(shown, codes)).toEqual([...new Set(codes)])
  })

  it('3 Have I any 0311 anywhere, project bags too? And any 3398?', async () => {
    const page = await atFind('everyone')
    const rows = threadRows('0311')
    expect(rows).toHaveLength(1)
    const main = await lookFor(page, '0311')
    expect(await textOf(main.getByRole('list', { name: 'Where each batch is' }))).toMatch(/T2\.2\s+2 skeins/)

    // Three in the drawer and one that is out of it, in the bag of a project.
    const others = threadRows('3398').filter((row) => row.Owner === shop)
    expect(others.map((row) => [row.Skeins, row.Place, row['Now at']])).toEqual([
      ['3', 'T4.2', ''],
      ['1', 'T4.2', 'K-07'],
    ])
    await showStockOf(page, shop)
    await lookFor(page, '3398')
    const batches = main.getByRole('list', { name: 'Where each batch is' }).getByRole('listitem')
    await batches.filter({ hasText: 'K-07' }).getByText('in the bag of Nine Wrens').waitFor()
    expect(await batches.filter({ hasText: 'K-07' }).textContent()).toMatch(/lives in T4\.2.*1 skein.*out since/)
    expect(await batches.filter({ hasText: '3 skeins' }).textContent()).toContain('T4.2')
  })

  it('4 Which of my greens are in the T4.2 drawer?', async () => {
    const page = await atFind()
    const main = await openPlace(page, 'T4.2')
    await main.getByRole('link', { name: 'Its threads by colour and stock' }).click()
    await page.getByRole('heading', { level: 1, name: 'Threads' }).waitFor()
    await page.getByRole('button', { name: /Change$/ }).click()
    const family = page.getByRole('combobox', { name: 'Colour family' })
    const label = (await family.getByRole('option').allInnerTexts()).find((option) => /^green \(\d+\)/.test(option))
    await family.selectOption({ label: label as string })
    await page.getByRole('button', { name: /^green, in T4\.2/ }).waitFor()
    const shown = await textOf(main.getByRole('table'))
    await expectNoSidewaysScroll(page)
    const held = readSample('threads').filter((row) => row.Owner === shop && row.Place === 'T4.2')
    // Plainly green: its hue angle lies between yellow-green and blue-green, and it is no grey.
    const isGreen = ({ a, b }: { a: number; b: number }) => {
      const hue = (Math.atan2(b, a) * 180) / Math.PI
      return Math.hypot(a, b) > 15 && hue > 115 && hue < 190
    }
    const green = held.filter((row) => isGreen({ a: Number(row.a), b: Number(row.b) })).map((row) => row.Code as string)
    expect(green.length).toBeGreaterThan(1)
    expect(codesIn(shown, green)).toEqual([...new Set(green)])
    const plainlyNot = held.filter((row) => Number(row.a) > -1.5).map((row) => row.Code as string)
    expect(codesIn(shown, plainlyNot)).toEqual([])
  })

  it('5 Where is the rook chart: rack, box or bag?', async () => {
    const row = readSample('charts').find(({ Chart }) => Chart === 'Rook Hill in Snow')
    const main = await lookFor(await atFind(), 'rook')
    // A room has a word that is like it, and no rook: it comes after.
    const nouns = await main.getByRole('region').getByRole('heading', { level: 2 }).allInnerTexts()
    expect(nouns.findIndex((noun) => noun.startsWith('Charts'))).toBeLessThan(
      nouns.findIndex((noun) => noun.startsWith('Places')),
    )
    const hit = main.getByRole('region', { name: 'Charts' }).getByRole('listitem').filter({ hasText: 'Rook Hill in Snow' })
    await hit.getByRole('link', { name: row?.Place as string }).waitFor()
  })

  it('6 What charts by this designer do I own?', async () => {
    const page = await atFind()
    const main = await lookFor(page, 'Dorrit Quayle')
    await main.getByRole('link', { name: 'Seven Lanterns' }).first().click()
    await page.getByRole('heading', { level: 1, name: 'Seven Lanterns' }).waitFor()
    await page.getByRole('navigation', { name: 'You are in' }).getByRole('link', { name: 'Dorrit Quayle' }).click()
    const own = readSample('charts').filter((row) => row.Owner === shop && row.Designer === 'Dorrit Quayle')
    await main.getByText(`${own.length} of`).first().waitFor()
    const titles = await textOf(main.getByRole('table'))
    for (const { Design } of own) expect(titles).toContain(Design)
    await expectNoSidewaysScroll(page)
  })

  it('12 What is this loose skein with no band likely to be?', async () => {
    const page = await atFind()
    await page.getByRole('navigation', { name: 'Main' }).getByText('More').click()
    await page.getByRole('navigation', { name: 'Main' }).getByRole('link', { name: 'Threads' }).click()
    await page.getByRole('link', { name: 'Which thread is this?' }).click()
    // The colour the file gives for 0311, read off with a little error.
    const [row] = threadRows('0311')
    await page
      .getByLabel('Its colour')
      .first()
      .fill(`${Number(row?.L) + 0.4} ${row?.a} ${Number(row?.b) - 0.3}`)
    await page.getByRole('button', { name: 'Look for it' }).click()
    const likely = page.getByRole('region', { name: 'What it is likely to be' })
    expect(await likely.textContent()).toContain('0311')
    await expectNoSidewaysScroll(page)
  })
})

describe('where does it go back?', () => {
  it('39 I am unpacking this bag: put-back list in drawer order, please', async () => {
    const page = await atFind()
    const main = await openPlace(page, 'K-07')
    const list = main.getByRole('table', { name: 'In K-07, living elsewhere' })
    const here = [...readSample('threads'), ...readSample('cloth'), ...readSample('charts')].filter(
      (row) => row.Owner === shop && row['Now at'] === 'K-07',
    )
    expect(here.length).toBeGreaterThan(10)
    const rows = list.getByRole('row').filter({ has: page.getByRole('button', { name: 'Put back' }) })
    expect(await rows.count()).toBe(here.length)
    const turns = walkTurns()
    const labels = here.map((row) => row.Place as string)
    const shown = (await rows.allInnerTexts()).map((text) => labels.find((label) => text.includes(label)) as string)
    expect(shown.map((label) => turns.get(label))).toEqual(
      labels.map((label) => turns.get(label) as number).sort((a, b) => a - b),
    )

    const milk = rowOf(list, '3398')
    expect(await milk.textContent()).toContain('Nine Wrens')
    await milk.getByRole('button', { name: 'Put back' }).click()
    await milk.waitFor({ state: 'detached' })
    await openPlace(await atFind(), 'T4.2')
  })

  it('40 What is still out, since when, in which bag?', async () => {
    const page = await atFind()
    await page.getByRole('navigation', { name: 'Main' }).getByRole('link', { name: 'Places' }).click()
    await page.getByRole('link', { name: /things are out$/ }).click()
    const out = page.getByRole('table', { name: /[Oo]ut/ }).first()
    const damson = rowOf(out, '0087')
    expect(await damson.textContent()).toMatch(/T2\.1[\s\S]*K-07/)
    expect(await damson.textContent()).toContain(String(new Date().getFullYear()))
    await expectNoSidewaysScroll(page)
  })

  it('41 Which lot does this leftover belong to?', async () => {
    // Two lots of Tarn Blue lie in one drawer; some of one is taken into a bag, and comes to hand there.
    const lots = threadRows('Tarn Blue').filter((row) => row.Owner === shop)
    expect(lots.map((row) => row.Lot)).toEqual(['18', '22'])
    const page = await atFind()
    await openThread(page, 'Tarn Blue', 'Tarn Blue')
    await chooseDoing(page, '1 skein of lot 22', 'Take to another place')
    const form = page.getByRole('form', { name: 'Take to another place' })
    await form.getByLabel('Whole skeins').fill('1')
    await form.getByLabel(/^To\b/).fill('K-07')
    await form.getByLabel('For').selectOption({ label: 'Nine Wrens' })
    await form.getByRole('button', { name: 'Take it' }).click()
    await page.getByRole('status').first().waitFor()
    const main = await openPlace(await atFind(), 'K-07')
    const leftover = rowOf(main.getByRole('table', { name: 'In K-07, living elsewhere' }), 'Tarn Blue')
    expect(await leftover.textContent()).toMatch(/T10\.1[\s\S]*lot 22[\s\S]*Nine Wrens/)
  })

  it('42 The compartment is full: where is the overflow?', async () => {
    // Two more of 0311 come in and are laid elsewhere.
    const page = await atFind()
    await openThread(page, '0311', '0311 Deep Mussel')
    await page.getByRole('link', { name: 'Take some in' }).click()
    const form = page.getByRole('form', { name: 'Take thread in' })
    await form.getByLabel('Whole skeins').fill('2')
    await form.getByLabel('Lives in').fill('T3.5')
    await form.getByRole('button', { name: 'Take it in' }).click()
    await page.getByRole('heading', { name: 'Stock' }).waitFor()
    const main = await openPlace(await atFind(), 'T2.2')
    const elsewhere = main.getByRole('table', { name: /^More of what lives in T2\.2/ })
    expect(await rowOf(elsewhere, '0311').textContent()).toMatch(/2 skeins[\s\S]*T3\.5/)
  })

  it('43 This colour has moved: what does the old label say?', async () => {
    const page = await atFind()
    await openThread(page, '3420', '3420 Black')
    await chooseDoing(page, '3 skeins', 'Move', 'Move all of it')
    const form = page.getByRole('form', { name: 'Move all of it' })
    await form.getByLabel(/^To\b/).fill('T4.4')
    await form.getByRole('button', { name: 'Move it' }).click()
    const before = page.getByRole('region', { name: 'Where it lived before' })
    expect(await before.textContent()).toMatch(/T4\.2.*lives in T4\.4 now/)

    const main = await openPlace(await atFind(), 'T4.2')
    await main.getByRole('link', { name: 'What lived here before' }).click()
    const lived = main.getByRole('table', { name: 'Thread that lived in T4.2 before' })
    expect(await rowOf(lived, '3420').textContent()).toContain('T4.4')
  })

  it('goes by the owner: nothing of the shop stands in what is Hanne’s', async () => {
    const main = await lookFor(await atFind(hanne), '0311')
    expect(threadRows('0311').some((row) => row.Owner === hanne)).toBe(false)
    await main.getByText('None held').first().waitFor()
  })
})
