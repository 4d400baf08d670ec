// What is asked when work is planned and looked back on: numbers 45 to 48, 50, 51 and 59 of the questions this is for. The design is that of
// scenario A7 of the project's trade notes: 161 by 70, every square stitched, is 11,270.
import type { Locator, Page } from 'playwright-core'
import { beforeAll, describe, expect, it } from 'vitest'
import { askApi, bringRows, designCalled, ownerCalled } from './api-steps'
import { rowOf } from './bring-in-steps'
import { hanne } from './sample-files'
import { expectNoSidewaysScroll, openHouse, phone } from './visitor'

const house = openHouse()

const geese = 'Geese over Tarnbeck'
const [larch, map, lamb] = ['Larch in October', 'Map of Upper Quennow', 'Lamp in the Loft']
const charts = [
  'Chart,Design,Kind,Owner,Copies,Width,Height,Cover',
  ...[geese, larch, map, lamb].map((title) => `${title},${title},leaflet,${hanne},1,161,70,full`),
].join('\n')

/** The day so many days from today, yyyy-mm-dd, on this machine's calendar. */
function dayFrom(days: number): string {
  const now = new Date()
  return new Date(Date.UTC(now.getFullYear(), now.getMonth(), now.getDate() + days)).toISOString().slice(0, 10)
}
/** "Mon 30 Nov 2026". */
const dayWords = (iso: string): string => {
  const [weekday, day, month, year] = new Date(`${iso}T00:00:00Z`).toUTCString().replace(',', '').split(' ')
  return `${weekday} ${Number(day)} ${month} ${year}`
}

const projects = new Map<string, string>()
const idOf = (title: string) => projects.get(title) as string

async function begin(title: string, on: string) {
  const ownerId = await ownerCalled(house, hanne)
  const { designId } = await designCalled(house, title)
  const { project } = await askApi<{ project: { projectId: string } }>(house, '/projects', { designId, ownerId })
  projects.set(title, project.projectId)
  await askApi(house, `/projects/${project.projectId}/status`, { to: 'stitching', on })
}
const log = (title: string, said: object) => askApi(house, `/projects/${idOf(title)}/work`, said)

beforeAll(async () => {
  await bringRows(house, 'charts', charts)
  await begin(geese, dayFrom(-60))
  await begin(larch, dayFrom(-50))
  await begin(map, '2023-02-18')
  await begin(lamb, dayFrom(-27))
}, 120_000)

async function textOf(seen: Locator): Promise<string> {
  await seen.first().waitFor()
  return (await seen.allInnerTexts()).join(' ').replace(/\s+/g, ' ')
}

async function atProjects(): Promise<{ page: Page; main: Locator }> {
  const page = await house.visit({ viewport: phone })
  await page.goto('/projects')
  const main = page.getByRole('main')
  await main.getByRole('table', { name: /^Projects under way/ }).waitFor()
  return { page, main }
}

describe('at the needle', () => {
  it('logs what was stitched with one thumb, in four steps from Projects, and takes it back', async () => {
    // 1: Projects stands open.
    const { page, main } = await atProjects()
    // 2: to the log of a project.
    await main.getByRole('link', { name: `Log ${geese}` }).click()
    const section = main.getByRole('region', { name: 'Log' })
    const form = section.getByRole('form', { name: 'Log what was done' })
    // 3 and 4: the figure, and the button.
    await form.getByLabel('Stitches').fill('310')
    await form.getByRole('button', { name: 'Add to the log' }).click()
    await section.getByText('310 of 11,270 stitches').or(section.getByText('310 stitches, 0 h')).first().waitFor()
    await expectNoSidewaysScroll(page)
    const entry = rowOf(section.getByRole('table', { name: /^The log/ }), '310 stitches')
    expect(await textOf(entry)).toContain(dayWords(dayFrom(0)))

    await entry.getByRole('button', { name: /^Change/ }).click()
    const change = section.getByRole('form', { name: `Entry of ${dayWords(dayFrom(0))}` })
    await change.getByLabel('Stitches').fill('290')
    await change.getByLabel('Hours').fill('2:30')
    await change.getByRole('button', { name: 'Keep the change' }).click()
    await section.getByText('290 stitches, 2 h 30 min').waitFor()
    await section.getByRole('button', { name: /^Change .*290 stitches/ }).click()
    await section.getByRole('button', { name: 'Take it out' }).click()
    await section.getByText(/^Taken out last: .*290 stitches, 2 h 30 min\.$/).waitFor()
    await section.getByRole('button', { name: 'Put it back' }).click()
    await section.getByRole('button', { name: /^Change .*290 stitches/ }).waitFor()
  })

  it('keeps a timer through a reload, and logs a day by one press from Projects', async () => {
    const { page, main } = await atProjects()
    await main.getByRole('link', { name: `Log ${larch}` }).click()
    const section = main.getByRole('region', { name: 'Log' })
    await section.getByRole('button', { name: 'Start the timer' }).click()
    await section.getByRole('timer').waitFor()
    await page.reload()
    expect(await textOf(section.getByRole('timer'))).toMatch(/^At it since \d\d:\d\d: \d+ min$/)
    await page.goto('/projects')
    expect(await textOf(main.getByRole('list', { name: 'What to stitch' }))).toContain(`The timer of ${larch} runs since`)
    await main.getByRole('link', { name: `Log ${larch}` }).click()
    await section.getByLabel('Stitches').fill('40')
    await section.getByRole('button', { name: 'Stop and log it' }).click()
    // Less than a minute counts as one.
    await section.getByText(/^40 stitches, \d+ min$/).waitFor()
    await section.getByRole('button', { name: 'Start the timer' }).waitFor()

    await page.goto('/projects')
    const row = rowOf(main.getByRole('table', { name: /^Projects under way/ }), lamb)
    await row.getByRole('button', { name: 'Worked on it today' }).click()
    await row.getByText('Worked on today').waitFor()
    await row.getByRole('button', { name: 'Undo' }).click()
    await row.getByRole('button', { name: 'Worked on it today' }).waitFor()
  })

  it('says by the field what does not read, and writes nothing', async () => {
    const { main } = await atProjects()
    await main.getByRole('link', { name: `Log ${geese}` }).click()
    const form = main.getByRole('form', { name: 'Log what was done' })
    await form.getByLabel('Hours').fill('an hour')
    await form.getByRole('button', { name: 'Add to the log' }).click()
    await form.getByRole('link', { name: 'Hours are a number: 2, 1½, 1:30 or 45 min.' }).waitFor()
    expect(await form.getByLabel('Hours').inputValue()).toBe('an hour')
  })
})

describe('plan', () => {
  it('46 If I stitch 2,000 a week, when do I finish?', async () => {
    const page = await house.visit({ viewport: phone })
    await page.goto(`/projects/${idOf(map)}`)
    const section = page.getByRole('main').getByRole('region', { name: 'Pace and finish' })
    await section.getByLabel('If I stitch so many a week').fill('2,000')
    await section.getByRole('button', { name: 'Reckon it' }).click()
    await page.waitForURL('**per-week=*')
    // 11,270 ÷ 2,000 is 5.6: six weeks of seven days.
    const row = rowOf(section.getByRole('table', { name: /^When it is done/ }), 'As you say')
    const said = await textOf(row)
    expect(said).toContain('6 weeks')
    expect(said).toContain(dayWords(dayFrom(42)))
    await section.getByRole('button', { name: 'How this is reckoned' }).click()
    await section.getByText('161 × 70 × 100 % covered').waitFor()
    await expectNoSidewaysScroll(page)
  })

  it('47 What is next in my rotation?', async () => {
    const { page, main } = await atProjects()
    await main.getByRole('link', { name: 'Rotation', exact: true }).click()
    await page.getByRole('heading', { level: 1, name: 'Rotation' }).waitFor()
    const add = main.getByRole('form', { name: 'Add to the rotation' })
    const table = main.getByRole('table', { name: /^The rotation/ })
    for (const title of [lamb, larch]) {
      await add.getByLabel('Add a project').selectOption({ label: title })
      await add.getByRole('button', { name: 'Take it in turn' }).click()
      await rowOf(table, title).waitFor()
    }
    await main.getByLabel('Days', { exact: true }).fill('3')
    await main.getByRole('button', { name: 'Keep the rule' }).click()
    await main.getByText('after 3 days on which it was stitched').waitFor()
    await expectNoSidewaysScroll(page)

    const next = async () => {
      await page.goto('/projects')
      return textOf(main.getByRole('list', { name: 'What to stitch' }))
    }
    // Two days, of which one had two sittings, then a third; each after whatever was logged on the other.
    await askApi(house, `/projects/${idOf(larch)}/work`, { day: dayFrom(-9), isTick: true })
    const entries = await askApi<{ entries: { entryId: string; day: string }[] }>(house, `/projects/${idOf(larch)}/work`)
    for (const { entryId, day } of entries.entries)
      if (day > dayFrom(-9)) await askApi(house, `/projects/${idOf(larch)}/work/${entryId}/remove`, {})
    await log(lamb, { day: dayFrom(-3), stitches: 100 })
    await log(lamb, { day: dayFrom(-3), minutes: 30 })
    await log(lamb, { day: dayFrom(-2), isTick: true })
    expect(await next()).toContain(`Next in the rotation: still ${lamb}, 2 of 3 days.`)
    await log(lamb, { day: dayFrom(-1), isTick: true })
    expect(await next()).toContain(`Next in the rotation: ${larch}, since ${lamb} had 3 of 3 days.`)
  })

  it('48 How many works have I begun, and which lies longest?', async () => {
    const { page, main } = await atProjects()
    const section = main.getByRole('region', { name: 'Begun and not done' })
    expect(await textOf(section)).toContain('4 works in progress, 0 of them resting; 1 untouched for more than 90 days')
    const lying = section.getByRole('table', { name: /^Begun and long untouched/ })
    expect(await textOf(rowOf(lying, map))).toContain('begun Sat 18 Feb 2023')
    await section.getByRole('link', { name: 'Settings' }).click()
    const form = page.getByRole('form', { name: 'Pace and planning' })
    await form.getByLabel('Long untouched after').fill('3650')
    await form.getByRole('button', { name: 'Keep these' }).click()
    await form.getByText('Kept.').waitFor()
    await page.goto('/projects')
    await section.getByText('Each was worked on within 3,650 days.').waitFor()
  })
})

describe('finish', () => {
  it('59 How long did it really take?', async () => {
    const parts = `/projects/${idOf(lamb)}`
    await log(lamb, { day: dayFrom(-10), stitches: 2_900, minutes: 1_770 })
    await askApi(house, `${parts}/finish`, { finishedOn: dayFrom(0), isClothUsed: false })
    const page = await house.visit({ viewport: phone })
    await page.goto(parts)
    const section = page.getByRole('main').getByRole('region', { name: 'How long it took' })
    const said = await textOf(section)
    // From 27 days ago to today are 28 days; it was stitched on four of them, and 30 and 1,770 minutes are 30 hours for 3,000 stitches.
    expect(said).toContain('From first to last day 4 weeks (28 days)')
    expect(said).toContain('Stitched on 4 days')
    expect(said).toContain('Hours at it 30 h')
    expect(said).toContain('An hour 100 stitches')
    await expectNoSidewaysScroll(page)
  })
})

describe('by when', () => {
  const [post, barge] = ['Winter Post', 'Little Barge']

  beforeAll(async () => {
    // 20 by 20, every square stitched: 400; both are wished for, and only one is for Christmas.
    const rows = [
      'Chart,Design,Kind,Owner,Copies,Width,Height,Cover,Season,Subject',
      `${post},${post},leaflet,${hanne},1,20,20,full,Christmas,birds`,
      `${barge},${barge},leaflet,${hanne},1,20,20,full,,boats`,
    ]
    await bringRows(house, 'charts', rows.join('\n'))
    const ownerId = await ownerCalled(house, hanne)
    for (const title of [post, barge]) {
      const { designId } = await designCalled(house, title)
      await askApi(house, '/projects', { designId, ownerId, isWish: true })
    }
  }, 60_000)

  /** The December that is not over yet, and its name. */
  const december = `${new Date().getFullYear()}-12`
  const start = (page: Page) => page.getByRole('main').getByRole('table', { name: /^What must be begun, by when/ })

  it('45 What must I start now for December?', async () => {
    await askApi(house, `/projects/${idOf(geese)}/deadline`, { dueOn: `${december}-31` })
    const page = await house.visit({ viewport: phone })
    await page.goto('/calendar')
    const main = page.getByRole('main')
    await main.getByLabel('What must be begun for').selectOption({ value: december })
    await main.getByLabel('If I stitch so many a week').fill('400')
    await main.getByRole('button', { name: 'Show' }).click()
    await page.waitForURL(`**for=${december}*`)
    const wish = rowOf(start(page), post)
    // One week at 400 a week, four at the framer, one in hand: six before Christmas.
    const christmas = new Date(Date.UTC(Number(december.slice(0, 4)), 11, 25 - 42)).toISOString().slice(0, 10)
    const said = await textOf(wish)
    expect(said).toContain('themed Christmas')
    expect(said).toContain(`Start by, as you say ${dayWords(christmas)}`)
    expect(said).toContain('No thread list')
    expect(await textOf(rowOf(start(page), geese))).toContain(dayWords(`${december}-31`))
    expect(await start(page).getByText(barge).count()).toBe(0)
    await wish.getByRole('button', { name: `How ${post} is reckoned` }).click()
    await main.getByText('400 stitches ÷ 400 stitches, rounded up').first().waitFor()
    await expectNoSidewaysScroll(page)
  })

  it('50 What do I stitch for a baby due in May?', async () => {
    const may = `${new Date().getFullYear() + 1}-05-15`
    const page = await house.visit({ viewport: phone })
    await page.goto('/calendar')
    const main = page.getByRole('main')
    await main.getByRole('link', { name: 'What can be ready by a day' }).click()
    const form = main.getByRole('form', { name: 'Ready by when, and what' })
    await form.getByLabel('Ready by').fill(may)
    await form.getByLabel('Theme').selectOption({ label: 'boats' })
    await form.getByLabel('If I stitch so many a week').fill('30,000')
    await form.getByRole('button', { name: 'Show' }).click()
    await page.waitForURL(`**by=${may}*`)
    const fits = main.getByRole('table', { name: /^Designs that can be ready/ })
    expect(await textOf(rowOf(fits, barge))).toContain('400')
    expect(await fits.getByText(post).count()).toBe(0)
    await main.getByRole('button', { name: 'How this is reckoned' }).click()
    await main.getByText('Due by then already').first().waitFor()
    await expectNoSidewaysScroll(page)
    // Too few stitches a week for any: said so, with what could be changed.
    await form.getByLabel('Theme').selectOption({ label: 'any' })
    await form.getByLabel('Ready by').fill(dayFrom(2))
    await form.getByRole('button', { name: 'Show' }).click()
    await main.getByText('None fits').waitFor()
  })

  it('51 Which stitch-along parts are due?', async () => {
    const page = await house.visit({ viewport: phone })
    await page.goto(`/projects/${idOf(map)}`)
    const main = page.getByRole('main')
    await main.getByRole('button', { name: 'It comes out in parts: a stitch-along' }).click()
    const many = main.getByRole('form', { name: 'Add parts by a rule' })
    await many.getByLabel('One comes out').selectOption({ label: 'every two weeks' })
    await many.getByLabel('The first on').fill(dayFrom(-28))
    await many.getByLabel('How many').fill('3')
    await many.getByLabel('Due after').fill('13')
    await many.getByRole('button', { name: 'Add these parts' }).click()
    const parts = main.getByRole('table', { name: /^The parts in their order/ })
    // Out 28, 14 and 0 days ago, due 13 days after each: two of them overdue.
    await main.getByText('0 of 3 parts done, 2 overdue').waitFor()
    await rowOf(parts, 'Part 1').getByRole('button', { name: 'Done today' }).click()
    await main.getByText('1 of 3 parts done, 1 overdue').waitFor()
    await expectNoSidewaysScroll(page)

    await page.goto('/calendar')
    const due = main.getByRole('table', { name: /^Parts of stitch-alongs/ })
    expect(await textOf(rowOf(due, 'Part 2'))).toContain(`Due ${dayWords(dayFrom(-1))}, overdue`)
    expect(await textOf(rowOf(due, 'Part 3'))).toContain(dayWords(dayFrom(13)))
    expect(await due.getByText('Part 1').count()).toBe(0)
    await page.goto(`/projects/${idOf(map)}`)
    await rowOf(parts, 'Part 1').getByRole('button', { name: 'Not done' }).click()
    await main.getByText('0 of 3 parts done, 2 overdue').waitFor()
  })
})
