// What is asked of the cloth, at its drawer and at the cutting counter: numbers 10, 18, 19, 31 to 38 and 58 of the questions this is for.
import type { Locator, Page } from 'playwright-core'
import { describe, expect, it } from 'vitest'
import { factOf, rowOf } from './bring-in-steps'
import { showStockOf } from './load-sample'
import { hanne, readSample, type SampleRow, shop } from './sample-files'
import { desk, expectNoSidewaysScroll, openHouse, phone } from './visitor'

const house = openHouse({ hasSample: true })

/** Find, with the stock of one owner; on the phone unless it is asked at a desk. */
async function atFind(owner: string = shop, viewport = phone): Promise<Page> {
  const page = await house.visit({ viewport })
  await page.goto('/')
  await showStockOf(page, owner)
  return page
}

/** From Find to the page of what is called so. */
async function openHit(page: Page, words: string, name: string): Promise<Locator> {
  await page.getByRole('searchbox').fill(words)
  await page
    .getByRole('status')
    .filter({ hasText: `for “${words}”` })
    .waitFor()
  const main = page.getByRole('main')
  await main.getByRole('link', { name }).first().click()
  await page.getByRole('heading', { level: 1, name: new RegExp(words.split(' ').slice(-1)[0] as string, 'i') }).waitFor()
  return main
}

async function openCloth(page: Page): Promise<Locator> {
  const navigation = page.getByRole('navigation', { name: 'Main' })
  const link = navigation.getByRole('link', { name: 'Cloth', exact: true })
  if (!(await link.isVisible())) await navigation.getByText('More').click()
  await link.click()
  await page.getByRole('heading', { level: 1, name: 'Cloth' }).waitFor()
  return page.getByRole('main')
}

/** From a design's page to the page of its cloth. */
async function openItsCloth(page: Page, words: string, title: string): Promise<Locator> {
  const main = await openHit(page, words, title)
  await main.getByRole('link', { name: 'Other margins, counts and ways round' }).click()
  await page.getByRole('heading', { level: 1, name: `Cloth for ${title}` }).waitFor()
  await expectNoSidewaysScroll(page)
  return main
}

/** The choices of a page, which are folded away on a phone. */
async function openChoices(page: Page, label: string): Promise<Locator> {
  const form = page.getByRole('form', { name: label })
  const change = page.getByRole('main').getByRole('button', { name: /Change$/ })
  for (const button of await change.all()) if (!(await form.isVisible())) await button.click()
  await form.waitFor()
  return form
}

/** Choose how it is to be finished, and wait until the page goes by it. */
async function finishAs(page: Page, finishing: string) {
  const form = await openChoices(page, 'What it is cut for')
  await form.getByLabel('Finished as').selectOption(finishing)
  await page.waitForURL(`**finishing=${finishing}*`)
  await page.getByText(`${finishing}, as above`).waitFor()
}

/** What is seen of it, cell from cell apart. */
const textOf = async (seen: Locator): Promise<string> => (await seen.allInnerTexts()).join('\n')

/** The rows of a table by the pieces they name, as they stand. */
const labelsIn = async (rows: Locator): Promise<string[]> =>
  (await rows.allInnerTexts()).flatMap((text) => /\b[A-Z]{1,3}-\d\d\b/.exec(text)?.[0] ?? [])

const piece = (label: string): SampleRow => readSample('cloth').find(({ Label }) => Label === label) as SampleRow
const design = (title: string): SampleRow => readSample('charts').find(({ Design }) => Design === title) as SampleRow

/** "18 x 26 1/2 in" and "50 x 70 cm" in inches. */
function inchesOf(size: string): [number, number] {
  const [width = '', height = ''] = size.replace(/ (?:in|cm)$/, '').split(' x ')
  const read = (text: string) =>
    text.split(/ (?=\d+\/)/).reduce(
      (sum, part) =>
        sum +
        part
          .split('/')
          .map(Number)
          .reduce((a, b) => a / b),
      0,
    )
  const perInch = size.endsWith('cm') ? 2.54 : 1
  return [read(width) / perInch, read(height) / perInch]
}

describe('find', () => {
  it('10 Have I 32-count in anything grey-blue at least 14 x 18?', async () => {
    // By the file: 32 to the inch, or 126 to 10 cm, which is 32.0; blue-grey by its name; 14 along one side and 18 along the other.
    const fits = readSample('cloth').filter(({ Count = '', Colour, Size = '' }) => {
      const [short = 0, long = 0] = inchesOf(Size).sort((a, b) => a - b)
      return ['32', '126/10cm'].includes(Count) && Colour === 'Blue Grey' && short >= 14 && long >= 18
    })
    expect(fits.map(({ Owner, Label, Size }) => [Owner, Label, Size])).toEqual([
      [shop, 'L-10', '36 x 27 in'],
      [hanne, 'HL-10', '18 x 27 in'],
    ])
    const page = await atFind()
    const main = await openCloth(page)
    const form = await openChoices(page, 'Which cloth')
    await form.getByLabel('Count, or near it').selectOption('32')
    await page.waitForURL('**count=32*')
    await form.getByLabel('Colour').selectOption('grey blue')
    await page.waitForURL('**colour=grey*')
    await form.getByLabel('At least').fill('14 x 18')
    await form.getByLabel('At least').press('Enter')
    await page.waitForURL('**size=14*')
    await main.getByText(/^1 of \d+ pieces$/).waitFor()
    const found = main.getByRole('table', { name: /^Cloth/ })
    expect(await labelsIn(found.getByRole('row'))).toEqual(['L-10'])
    await expectNoSidewaysScroll(page)
    await showStockOf(page, hanne)
    await found.getByText('HL-10').waitFor()
    expect(await labelsIn(found.getByRole('row'))).toEqual(['HL-10'])
  })
})

describe('can I stitch it?', () => {
  it('18 Would it fit any cloth I own, at any count, either way round? With which margin would it?', async () => {
    expect([design('Rook Hill in Snow').Width, design('Rook Hill in Snow').Height]).toEqual(['140', '98'])
    const main = await openItsCloth(await atFind(), 'rook hill', 'Rook Hill in Snow')
    // 140 × 98 over two of 28 is 10 × 7 in; with 3 in all round 16 × 13: on a fat eighth of 13 × 18 only turned, with nothing spare.
    expect([piece('L-09').Count, piece('L-09').Size]).toEqual(['28', '13 x 18 in'])
    expect(await textOf(main)).toMatch(/Cut 16 × 13 in from L-09[\s\S]*turned: it fits no other way[\s\S]*Nothing to spare/)
    // The fat eighth that squared to 12.75 × 17.5 lacks a quarter of an inch: (12.75 − 7) ÷ 2 = 2.875 in of margin is left.
    expect([piece('E-01').Count, piece('E-01').Size]).toEqual(['28', '12.75 x 17.5 in'])
    await main.getByRole('button', { name: 'Which piece wastes least' }).click()
    const ranked = main.getByRole('table', { name: /^Pieces of the right cloth/ })
    expect(await textOf(rowOf(ranked, 'E-01'))).toMatch(/drops to 2.875 in, turned/)

    // On every count that is held free, whatever the weave: so many to the inch over one of a block cloth, over two of the others.
    const counts = main.getByRole('table', { name: 'On every count on hand' })
    const perInch: [string, number][] = [
      ['Aida 14 over one', 14],
      ['Aida 16 over one', 16],
      ['Evenweave or linen 32 over two', 16],
      ['Evenweave or linen 25 over two', 12.5],
      ['Evenweave or linen 40 over two', 20],
    ]
    for (const [cloth, stitches] of perInch) {
      const [width, height] = [140, 98].map((many) => Number((many / stitches).toFixed(2)))
      expect(await textOf(rowOf(counts, cloth))).toContain(`${width} × ${height} in`)
    }
  })

  it('19 What if I work it over one? What is cut then?', async () => {
    const page = await atFind(shop, desk)
    const main = await openItsCloth(page, 'rook hill', 'Rook Hill in Snow')
    await main.getByRole('link', { name: 'What if it is worked over one?' }).click()
    // 140 × 98 on 28 threads to the inch, one thread each: 5 × 3.5 in; with 3 in all round 11 × 9.5.
    await main.getByText(/Cut 11 × 9½ in/).waitFor()
    expect(await textOf(main)).toContain('It comes out at 5 × 3.5 in, over one,')
    await main.getByRole('link', { name: 'What if it is worked over two?' }).click()
    await main.getByText(/Cut 16 × 13 in/).waitFor()
  })
})

describe('what to cut?', () => {
  it('31 What size do I cut for framing? For an ornament?', async () => {
    const page = await atFind()
    const main = await openItsCloth(page, 'seven lanterns', 'Seven Lanterns')
    // 84 × 84 over two of 28 is 6 × 6 in: with 3 in each side 12 × 12, with the 2 of an ornament 10 × 10, with 1 for a biscornu 8 × 8.
    const finishings = main.getByRole('table', { name: 'What to cut for each way of finishing' })
    for (const [name, cut] of [
      ['framed', '12 × 12 in'],
      ['ornament', '10 × 10 in'],
      ['biscornu', '8 × 8 in'],
    ] as const)
      expect(await textOf(rowOf(finishings, name))).toContain(cut)
    await finishAs(page, 'ornament')
    await main.getByText(/Cut 10 × 10 in/).waitFor()
    await expectNoSidewaysScroll(page)
  })

  it('32 Which piece wastes least?', async () => {
    const page = await atFind()
    const main = await openItsCloth(page, 'seven lanterns', 'Seven Lanterns')
    await finishAs(page, 'ornament')
    await main.getByRole('button', { name: 'Which piece wastes least' }).click()
    const ranked = main.getByRole('table', { name: /^Pieces of the right cloth/ })
    // 10 × 10 in. Of 12.75 × 17.5 it leaves 223.125 − 100 sq in, of 13 × 18 it leaves 234 − 100. On 110 to 10 cm, 27.94 to the inch, it
    // is 84 ÷ 13.97 + 4 = 10.013 in and leaves 234 − 100.26 = 133.74. No offcut is 10 in both ways.
    const offcuts = readSample('cloth').filter(
      ({ Owner, Count = '', Weave, Note, Size = '' }) =>
        Owner === shop &&
        Weave !== 'aida' &&
        ['28', '110/10cm'].includes(Count) &&
        Note === 'Offcut' &&
        Math.min(...inchesOf(Size)) >= 10,
    )
    expect(offcuts).toEqual([])
    const labels = await labelsIn(ranked.getByRole('row'))
    expect(labels.slice(0, 3)).toEqual(['E-01', 'E-11', 'L-09'])
    expect(await textOf(rowOf(ranked, 'E-01'))).toContain('123 sq in')
    expect(await textOf(rowOf(ranked, 'L-09'))).toContain('134 sq in')
    await expectNoSidewaysScroll(page)
  })

  it('33 Can I get three ornaments out of this?', async () => {
    expect([piece('E-05').Count, piece('E-05').Size]).toEqual(['28', '18 x 27 in'])
    const page = await atFind()
    const main = await openHit(page, 'E-05', 'Ostravane Evenweave')
    await main.getByRole('link', { name: 'What fits it' }).click()
    const fitting = main.getByRole('table', { name: /^Designs that fit E-05/ })
    await rowOf(fitting, 'Seven Lanterns').waitFor()
    expect(await textOf(rowOf(fitting, 'Seven Lanterns'))).toContain('6 × 6 in')
    await expectNoSidewaysScroll(page)
    await main.getByRole('link', { name: 'Plan a cut from it' }).click()
    await main.getByLabel('Add a design').fill('Seven Lanterns')
    await main.getByRole('button', { name: 'Find', exact: true }).click()
    await main.getByRole('button', { name: 'Add Seven Lanterns' }).click()
    const wish = main.getByRole('group', { name: 'Seven Lanterns' })
    await wish.getByLabel('Finished as').selectOption('ornament')
    await wish.getByText('cut 10 × 10 in').waitFor()
    await wish.getByLabel('Copies').fill('3')
    await main.getByRole('button', { name: 'Find the best way to cut it' }).click()
    await page.getByRole('heading', { level: 1, name: 'A way to cut it' }).waitFor()
    // Across 18 in lies one of 10 and no second; up 27 in lie two and no third. What is left whole is largest when the first cut goes up
    // beside both: 8 × 27, and 10 × 7 above them.
    await main.getByText('Proved: nothing better exists.').waitFor()
    expect(await factOf(page, 'Cut')).toBe('2 of 3')
    expect(await textOf(main.getByRole('list', { name: 'Left out' }))).toContain('no room beside the rest, which is proved')
    expect((await factOf(page, 'Offcuts kept'))?.split(', ').sort()).toEqual(['10 × 7 in', '8 × 27 in'])
    await expectNoSidewaysScroll(page)
  })

  it('34 Will it still fit if I turn it?', async () => {
    expect([piece('HL-01').Count, piece('HL-01').Size]).toEqual(['34 x 31', '18 x 27 in'])
    const page = await atFind(hanne)
    const main = await openItsCloth(page, 'ropewalk', 'The Ropewalk Sampler')
    const counts = main.getByRole('table', { name: 'On every count on hand' })
    await rowOf(counts, 'HL-01').getByRole('link').first().click()
    await page.getByRole('heading', { level: 2, name: 'HL-01' }).waitFor()
    // Upright 96 ÷ 17 + 6 = 11.647 by 312 ÷ 15.5 + 6 = 26.129, of 18 × 27. Turned its height goes along the weft: 312 ÷ 17 + 6 = 24.353,
    // where there are 18; the 18.353 in of stitches alone are more.
    expect(await textOf(main)).toContain('Cut 12 × 26½ in from HL-01')
    expect(await factOf(page, 'Upright')).toBe('fits with 0.87 in to spare')
    expect(await factOf(page, 'Turned')).toMatch(/may not be turned.*too small: lacks 0\.35 in of height/)
    await expectNoSidewaysScroll(page)
  })

  it('35 What count is this unmarked bit?', async () => {
    const page = await atFind()
    const main = await openCloth(page)
    await main.getByRole('link', { name: 'Add a piece' }).click()
    await main.getByRole('link', { name: 'Its count is not known' }).click()
    await page.getByRole('heading', { level: 1, name: 'What count is it?' }).waitFor()
    // Along two inches of a ruler 64 threads across and 61 up: 32 and 30.5 to the inch, 32 ÷ 30.5 = 1.049.
    await main.getByLabel('Across, along the weft, place 1: threads counted').fill('64')
    await main.getByLabel('Up, along the warp, place 1: threads counted').fill('61')
    const answer = main.getByRole('status')
    await answer.getByText('32 × 30.5 count').waitFor()
    expect(await textOf(answer)).toMatch(/Not square \(4\.9 %\): upright, stitches come out taller than wide/)
    await expectNoSidewaysScroll(page)
    await main.getByRole('link', { name: 'Keep it as a new piece' }).click()
    await expect.poll(() => main.getByLabel(/^Count/).inputValue()).toMatch(/^32 × 30\.5/)
  })

  it('36 How big will it come out on 36?', async () => {
    const page = await atFind()
    const main = await openItsCloth(page, 'rook hill', 'Rook Hill in Snow')
    const form = await openChoices(page, 'What it is cut for')
    await form.getByLabel('On another count').fill('36')
    await form.getByLabel('On another count').press('Enter')
    const tried = main.getByRole('table', { name: 'On 36 count' })
    await tried.waitFor()
    // 140 ÷ 18 = 7.78 and 98 ÷ 18 = 5.44; with 6 in 13.78 and 11.44, up to the next half. Over one it is half of that: 3.89 × 2.72.
    expect(await textOf(rowOf(tried, 'over two'))).toMatch(/7\.78 × 5\.44 in[\s\S]*14 × 11½ in/)
    expect(await textOf(rowOf(tried, 'over one'))).toContain('3.89 × 2.72 in')
    await expectNoSidewaysScroll(page)
  })

  it('37 What offcuts will be left?', async () => {
    const page = await atFind()
    const main = await openItsCloth(page, 'seven lanterns', 'Seven Lanterns')
    await finishAs(page, 'ornament')
    // 10 × 10 from 12.75 × 17.5: cut across first, 12.75 × 7.5 is left whole and 2.75 × 10 beside; up first, 2.75 × 17.5 and 10 × 7.5.
    const cuts = await main.getByRole('list', { name: 'Cutting, in order' }).getByRole('listitem').allInnerTexts()
    expect(cuts[0]).toContain('Straight across, 10 in from the foot. What is left above is 12¾ × 7½ in.')
    expect(cuts[1]).toContain('Straight up, 10 in from the left. What is left beside is 2¾ × 10 in.')
    await main.getByRole('img', { name: /E-01/ }).waitFor()
  })

  it('38 How much linen for 24 kits?', async () => {
    const page = await atFind(shop, desk)
    const main = await openHit(page, 'seven lanterns', 'Seven Lanterns')
    const kits = main.getByRole('form', { name: 'How many kits' })
    await kits.getByLabel('Kits', { exact: true }).fill('24')
    await kits.getByLabel('Kits', { exact: true }).press('Enter')
    await main.getByRole('link', { name: 'How much off the bolt' }).click()
    await page.getByRole('heading', { level: 1, name: 'Yardage' }).waitFor()
    await main.getByLabel('Finished as').selectOption('ornament')
    // 24 and a spare to each dozen are 26 of 10 × 10 in. A bolt of 55 less two selvedges of ½ holds 5 across: 6 rows, 60 in, and 1 to
    // straighten it; sold by the eighth of a yard, 4½ in, that is 14 of them: 63 in, with 4 over.
    const answer = main.getByText(/Buy 63 in, 1¾ yd/).first()
    await answer.waitFor()
    expect(await textOf(main)).toMatch(/for 26 of Seven Lanterns, each 10 × 10 in; it gives 30, 4 over/)
    await expectNoSidewaysScroll(page)
  })
})

describe('finish', () => {
  it('58 What frame size is it? And which counts do for a frame I have?', async () => {
    const page = await atFind(shop, desk)
    const main = await openHit(page, 'rook hill', 'Rook Hill in Snow')
    await main.getByRole('link', { name: 'What frame?' }).click()
    await page.getByRole('heading', { level: 1, name: 'Frame for Rook Hill in Snow' }).waitFor()
    // 10 × 7 in stitched; ¾ in of plain cloth seen on each side, ¼ under the rabbet; then ⅛ for the board's edge and 1½ to turn back.
    expect(await factOf(page, 'Opening')).toBe('11.5 × 8.5 in')
    expect(await factOf(page, 'Board, glass')).toBe('12 × 9 in')
    expect(await factOf(page, 'Outer cut of the cloth')).toBe('15½ × 12½ in')
    // Of 5 × 7 in, on its side: with ¾ in seen 5.5 × 3.5 are left to stitch, so 140 ÷ 5.5 = 25.5 and 98 ÷ 3.5 = 28 stitches to the inch.
    const form = await openChoices(page, 'The opening')
    await form.getByLabel('Opening').fill('5 x 7')
    await form.getByLabel('Opening').press('Enter')
    const doing = main.getByRole('table', { name: 'What does for the opening' })
    await doing.waitFor()
    expect(await textOf(rowOf(doing, 'linen 28 over one'))).toContain('1 in at the sides, 0.75 in above and below')
    const fitting = (await doing.getByRole('rowgroup').allInnerTexts()).filter((text) => text.startsWith('Fits')).join('\n')
    expect(fitting).toContain('linen 28 over one')
    expect(fitting).not.toContain('linen 25 over one')
    await expectNoSidewaysScroll(page)
  })
})
