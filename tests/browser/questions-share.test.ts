// What is asked when things are lent, borrowed and passed on: numbers 79 to 84 of the questions this is for. The loan is scenario A15 of
// the project's trade notes: Tue 3 Mar 2026 for 8 weeks is due Tue 28 Apr, and a plan from 20 Apr clashes with nine days of it.
import type { Locator, Page } from 'playwright-core'
import { beforeAll, describe, expect, it } from 'vitest'
import { askApi, bringRows, designCalled, ownerCalled } from './api-steps'
import { rowOf } from './bring-in-steps'
import { shop } from './sample-files'
import { desk, expectNoSidewaysScroll, openHouse, phone } from './visitor'

const house = openHouse()

const alphabets = 'Hollin Staithe Alphabets'
const letters = ['Alphabet one', 'Alphabet two', 'Alphabet three', 'Alphabet four', 'Alphabet five']
const price = '987.65'
const rows = {
  charts: [
    'Chart,Design,Designer,Kind,Owner,Copies,Width,Height,Price,Place,Note',
    ...letters.map((letter) => `${alphabets},${letter},Tilda Quennell,booklet,${shop},1,60,60,${price},R2-3,`),
    `Nine Wrens,Nine Wrens,Corvin Ashdale,leaflet,${shop},3,90,90,${price},R2-3,From Ines at Marl Street`,
    `Lamp in the Loft,Lamp in the Loft,Saskia Thrupp,file,${shop},1,80,80,${price},,`,
  ].join('\n'),
  threads: [
    'Owner,Maker,Line,Code,Name,Have,Place,Minimum',
    `${shop},Larkholm,Stranded Cotton,0017,Straw,6,T2.1,`,
    `${shop},Larkholm,Stranded Cotton,0018,Rush,1,T2.1,4`,
    `${shop},Larkholm,Stranded Cotton,0019,Sedge,3,T2.1,`,
  ].join('\n'),
}

beforeAll(async () => {
  for (const kind of ['charts', 'threads'] as const) await bringRows(house, kind, rows[kind])
  const ownerId = await ownerCalled(house, shop)
  const { chart } = await designCalled(house, 'Alphabet one')
  const { designId } = await designCalled(house, 'Alphabet four')
  await askApi(house, '/projects', { designId, threadListId: null, ownerId, plannedOn: '2026-04-20' })
  const agreed = { ownerId, with: 'Ines Coldwell', fromOn: '2026-03-03', dueOn: '2026-04-28' }
  await askApi(house, '/loans/lend', {
    ...{ ...agreed, reason: 'to stitch the alphabet', acceptsClash: true },
    things: [{ noun: 'chart', id: chart.chartId }],
  })
  await askApi(house, '/loans/borrow', {
    ...{ ...agreed, reason: 'too big a piece for mine' },
    things: [{ noun: 'text', text: 'her 12 in scroll frame' }],
  })
}, 120_000)

async function textOf(seen: Locator): Promise<string> {
  await seen.first().waitFor()
  return (await seen.allInnerTexts()).join(' ').replace(/\s+/g, ' ')
}

async function openOutAndBack(viewport = phone): Promise<{ page: Page; main: Locator }> {
  const page = await house.visit({ viewport })
  await page.goto('/places')
  const main = page.getByRole('main')
  await main.getByRole('link', { name: 'Out and back' }).click()
  await page.getByRole('heading', { level: 1, name: 'Out and back' }).waitFor()
  await expectNoSidewaysScroll(page)
  return { page, main }
}

/** From Find to one of the lists that are handed on. */
async function openList(name: string): Promise<{ page: Page; main: Locator }> {
  const page = await house.visit({ viewport: desk })
  await page.goto('/')
  await page.getByRole('link', { name: 'Lists to share' }).click()
  await page.getByRole('link', { name, exact: true }).click()
  await page.getByRole('heading', { level: 1, name }).waitFor()
  await expectNoSidewaysScroll(page)
  return { page, main: page.getByRole('main') }
}

describe('share and lend', () => {
  it('79 Who has which of my charts, due when?', async () => {
    const { page, main } = await openOutAndBack()
    const lent = rowOf(main.getByRole('table', { name: 'Overdue' }), alphabets)
    expect(await textOf(lent)).toMatch(
      /Hollin Staithe Alphabets.*Ines Coldwell.*lent to.*Tue 3 Mar 2026.*overdue.*Tue 28 Apr 2026/,
    )
    // All five of its designs say so, and the plan for the fourth.
    await page.getByRole('navigation', { name: 'Main' }).getByRole('link', { name: 'Charts', exact: true }).click()
    await main.getByText('chart out').nth(4).waitFor()
    expect(await main.getByText('chart out').count()).toBe(5)
    await main.getByRole('link', { name: 'Alphabet four' }).first().click()
    await main.getByText('Chart out: with Ines Coldwell').waitFor()
    await main.getByText('Tue 28 Apr 2026').first().waitFor()
  })

  it('80 A list of doubles to destash', async () => {
    const { page, main } = await openList('Doubles to pass on')
    // Of each thread three are kept: of six 0017 three are over, of three 0019 none. Of three copies of a chart two are.
    expect(await textOf(rowOf(main.getByRole('table', { name: 'Threads' }), '0017 Straw'))).toContain('3 skeins')
    expect(await main.getByText('0019').count()).toBe(0)
    expect(await textOf(rowOf(main.getByRole('table', { name: 'Charts' }), 'Nine Wrens'))).toMatch(/Corvin Ashdale.* 2$/)
    expect(await main.getByText(alphabets).count()).toBe(0)
    await page.getByRole('textbox', { name: /^Of each thread keep/ }).fill('5')
    await page.getByRole('textbox', { name: /^Of each thread keep/ }).press('Enter')
    await rowOf(main.getByRole('table', { name: 'Threads' }), '0017 Straw')
      .getByText('1 skein')
      .waitFor()
  })

  it('81 A want list for my family', async () => {
    // The least that is kept of 0018 is four, and one is there.
    const { main } = await openList('Wants')
    expect(await textOf(rowOf(main.getByRole('table', { name: 'Threads' }), '0018 Rush'))).toContain('3 skeins')
    expect(await textOf(main)).not.toMatch(/0017|987/)
  })

  it('82 A stash list for the guild without prices or addresses', async () => {
    const { page, main } = await openList('Stash')
    const said = await textOf(main)
    for (const name of ['0017 Straw', '0018 Rush', 'Nine Wrens', alphabets]) expect(said).toContain(name)
    for (const kept of [price, 'Ines', 'Marl Street', 'R2-3', 'T2.1']) expect(said).not.toContain(kept)
    // As it prints, it has no more.
    await page.emulateMedia({ media: 'print' })
    for (const kept of [price, 'Ines', 'Marl Street', 'R2-3', shop])
      expect(await main.getByText(kept).first().isVisible()).toBe(false)
  })

  it('83 What have I borrowed from others?', async () => {
    const { page, main } = await openOutAndBack()
    await main.getByRole('link', { name: 'her 12 in scroll frame' }).click()
    await page.getByRole('heading', { level: 1, name: 'Borrowed from Ines Coldwell' }).waitFor()
    await main.getByRole('heading', { level: 2, name: 'What to give back' }).waitFor()
    await main.getByText('too big a piece for mine').first().waitFor()
    await main.getByText('Tue 28 Apr 2026').first().waitFor()
  })

  it('84 Can I lend this: is it a file?', async () => {
    const page = await house.visit({ viewport: phone })
    await page.goto('/')
    await page.getByRole('searchbox').fill('lamp in the loft')
    const main = page.getByRole('main')
    await main.getByRole('link', { name: 'Lamp in the Loft' }).first().click()
    await page.getByRole('navigation', { name: 'You are in' }).getByRole('link', { name: 'file', exact: true }).click()
    await main.getByText('This is a file for one person; lend the bought paper copy or suggest they buy it.').waitFor()
    expect(await main.getByRole('link', { name: 'Lend it' }).count()).toBe(0)
    const { chart } = await designCalled(house, 'Nine Wrens')
    await page.goto(`/charts/${chart.chartId}`)
    await main.getByText('It can be lent').waitFor()
    await main.getByRole('link', { name: 'Lend it' }).click()
    await page.getByRole('heading', { level: 1, name: 'Lend' }).waitFor()
    await expectNoSidewaysScroll(page)
  })
})
