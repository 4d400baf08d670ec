// Which wishes go together, from one small stash: every figure below is worked by hand from these rows. And number 52 of the questions this
// is for: what has every colour in common, so that two are kitted at once.
import type { Page } from 'playwright-core'
import { beforeAll, describe, expect, it } from 'vitest'
import { askApi, bringRows, designCalled, ownerCalled } from './api-steps'
import { hanne } from './sample-files'
import { desk, expectNoSidewaysScroll, openHouse, phone } from './visitor'

const house = openHouse()

const [kettle, barge, quince, wrens] = ['Kettle at Wend Cross', 'Little Barge', 'Quince and Compass', 'Nine Wrens']
const [lamp, jugs, moth] = ['Lamp in the Loft', 'Three Jugs', 'Moth and Candle']
/** What each needs of threads of 8 m, in parts of a put-up. */
const keys: Record<string, Record<string, string>> = {
  [kettle]: { '0311': '1', '0742': '1' },
  [barge]: { '0311': '1' },
  [quince]: { '0742': '1' },
  [wrens]: { Ecru: '1' },
  [lamp]: { '0905': '0.3' },
  [jugs]: { '0905': '0.3' },
  [moth]: { '0905': '0.3' },
}
/** Whole put-ups held; of 0905 none. */
const held = { '0311': 1, '0742': 1, Ecru: 2, '0905': 0 }

const rows = {
  charts: [
    'Chart,Design,Kind,Owner,Copies,Width,Height',
    ...Object.keys(keys).map((title) => `${title},${title},leaflet,${hanne},1,60,60`),
  ].join('\n'),
  threads: [
    'Owner,Maker,Line,Code,Strands,Put-up,Put-up word,Dyed,Lots matter,Skeins',
    ...Object.entries(held).map(([code, skeins]) => `${hanne},Larkholm,Stranded Cotton,${code},6,8 m,skein,solid,no,${skeins}`),
  ].join('\n'),
  lists: [
    'Chart,Design,Maker,Line,Code,Strands,Skeins,Put-up',
    ...Object.entries(keys).flatMap(([title, needs]) =>
      Object.entries(needs).map(([code, skeins]) => `${title},${title},Larkholm,Stranded Cotton,${code},2,${skeins},8 m`),
    ),
  ].join('\n'),
}

beforeAll(async () => {
  for (const kind of ['threads', 'charts', 'lists'] as const) await bringRows(house, kind, rows[kind])
  const ownerId = await ownerCalled(house, hanne)
  for (const title of Object.keys(keys)) {
    const { designId } = await designCalled(house, title)
    await askApi(house, '/projects', { designId, ownerId, isWish: true })
  }
}, 120_000)

async function atTogether(viewport = desk): Promise<Page> {
  const page = await house.visit({ viewport })
  await page.goto('/projects')
  await page.getByRole('link', { name: 'Which together' }).click()
  await page.getByRole('heading', { level: 1, name: 'Which together' }).waitFor()
  await page.getByLabel('Buying').waitFor()
  return page
}

async function find(page: Page) {
  await page.getByRole('button', { name: 'Find the best set' }).click()
  await page.getByRole('navigation', { name: 'You are in' }).getByText('The answer').waitFor({ timeout: 90_000 })
}

const chosen = (page: Page) => page.getByRole('table', { name: /^The designs chosen/ })
const titlesIn = async (page: Page): Promise<string[]> =>
  (await chosen(page).getByRole('row').allInnerTexts())
    .map((row) => Object.keys(keys).find((title) => row.includes(title)))
    .filter((title) => title !== undefined)
    .sort()

describe('which together', () => {
  it('gives stars in one press, and with nothing bought takes what counts most of the thread there is', async () => {
    const page = await atTogether(phone)
    const stars = page.getByRole('group', { name: `Stars of ${barge}` })
    await stars.getByRole('button', { name: '5 stars' }).click()
    await stars.getByText('5 of 5').waitFor()
    // A wish without stars counts 6, one of five 10.
    await page.getByText(/^5 stars → 10/).waitFor()
    await expectNoSidewaysScroll(page)
    await find(page)
    // Little Barge 10, Quince and Compass 6, Nine Wrens 6: the kettle wants the threads of the first two.
    await page.getByText('3 designs, nothing bought.').waitFor()
    expect(await titlesIn(page)).toEqual([barge, wrens, quince].sort())
    await page.getByText(/Worth 22 together: no other choice is worth more/).waitFor()
    await expectNoSidewaysScroll(page)
  })

  it('says why one is left out, by how much and who has it, and asks again with it in', async () => {
    const page = await atTogether()
    await find(page)
    const left = page.getByRole('region', { name: 'Left out, and why' })
    await left.getByText(`Larkholm 0311: needs 8 m, nothing is left: 8 m, 1 put-up, short; ${barge} takes it.`).waitFor()
    await left.getByText(`Larkholm 0742: needs 8 m, nothing is left: 8 m, 1 put-up, short; ${quince} takes it.`).waitFor()
    await left
      .getByRole('form', { name: `Ask again with ${kettle} in` })
      .getByRole('button')
      .click()
    await page.getByText('2 designs, nothing bought.').waitFor({ timeout: 90_000 })
    expect(await titlesIn(page)).toEqual([kettle, wrens].sort())
  })

  it('shows what one thread would unlock and what each put-up brings, and leads to the list to buy by', async () => {
    const page = await atTogether()
    await page.getByLabel('Buying').selectOption({ label: 'So many put-ups at most' })
    await page.getByLabel('How many, or how much').fill('1')
    await find(page)
    // One put-up of 0905 holds three times 0.3 of it: 22 and three wishes of 6.
    await page.getByText(/^6 designs, 1 put-up bought/).waitFor()
    await page.getByText(/Worth 40 together/).waitFor()
    const bought = page.getByRole('table', { name: 'Thread to buy for the designs chosen' })
    await bought.getByRole('row').filter({ hasText: '0905' }).getByText('× 1').waitFor()
    const unlock = page
      .getByRole('table', { name: /^Threads that buying alone/ })
      .getByRole('row')
      .filter({ hasText: '0905' })
    expect(await unlock.textContent()).toContain('3 designs')
    const ladder = page.getByRole('table', { name: 'What each limit to buying brings' })
    const worths = (await ladder.getByRole('row').allInnerTexts()).map((row) => row.replace(/\s+/g, ' '))
    expect(worths.find((row) => row.startsWith('0 put-ups'))).toContain('22')
    expect(worths.find((row) => row.startsWith('1 put-up, as asked'))).toContain('40 (+18)')
    // The kettle wants a put-up of each of its two.
    expect(worths.find((row) => row.startsWith('3 put-ups'))).toContain('46 (+6)')
    await page.getByRole('link', { name: 'The list to buy by' }).click()
    await page.getByRole('heading', { level: 1, name: 'Buy' }).waitFor()
    await page.getByText('0905').first().waitFor()
  })

  it('buys nothing for money that has no price, and says so; and a limit that does not read is said at its field', async () => {
    const page = await atTogether()
    await page.getByText('4 threads have no price').waitFor()
    await page.getByLabel('Buying').selectOption({ label: 'For so much money at most' })
    await page.getByLabel('How many, or how much').fill('a little')
    await page.getByRole('button', { name: 'Find the best set' }).click()
    await page.getByRole('link', { name: 'Money is a figure above nought: 12.50.' }).waitFor()
    await page.getByLabel('How many, or how much').fill('12.50')
    await find(page)
    await page.getByText('3 designs, nothing bought.').waitFor()
    const never = page.getByRole('region', { name: 'Not to be had from this at all' })
    expect((await never.getByText('none free, needs 2.4 m, 1 put-up short').all()).length).toBe(3)
  })

  it('keeps out what is pinned out, and refuses pins that cannot be together with the threads that stop them', async () => {
    const page = await atTogether()
    await page.getByLabel(`${quince}, whether it is in`).selectOption({ label: 'Not in' })
    await find(page)
    expect(await titlesIn(page)).toEqual([barge, wrens].sort())

    await page.getByRole('link', { name: 'Ask again' }).first().click()
    for (const title of [kettle, barge]) await page.getByLabel(`${title}, whether it is in`).selectOption({ label: 'Must be in' })
    await find(page)
    await page.getByText('Those that must be in cannot all be').waitFor()
    await page
      .getByRole('region', { name: 'What stops the others' })
      .getByText(/0311: needs 8 m, nothing is left/)
      .waitFor()
  })
})

describe('plan', () => {
  it('52 What has every colour in common, so I kit two at once?', async () => {
    const page = await atTogether(phone)
    await page.getByRole('link', { name: 'Kit two at once' }).click()
    const pairs = page.getByRole('table', { name: /^Pairs of designs/ })
    const row = pairs.getByRole('row').filter({ hasText: barge }).filter({ hasText: kettle })
    const words = ((await row.textContent()) ?? '').replace(/\s+/g, ' ')
    // One thread of one and two: two pulls for both, three one after the other.
    expect(words).toContain(`every colour of ${barge}: its one thread`)
    expect(words).toContain('1 saved, 2 left')
    // Three designs of 0905 alone make three pairs; the kettle has every colour of two more; Nine Wrens shares nothing.
    expect(
      await pairs
        .getByRole('row')
        .filter({ hasText: /\d saved/ })
        .count(),
    ).toBe(5)
    expect(await pairs.textContent()).not.toContain(wrens)
    await expectNoSidewaysScroll(page)
    await row.getByRole('link', { name: /^Pull both/ }).click()
    await page.getByRole('heading', { level: 1, name: 'Pull for projects' }).waitFor()
  })
})
