// From an occasion to a calendar of one's own: a day is added, a project is due for it, what must be begun by when stands in the list and in
// the month, and the file and the address say the same to another library.
import { readFileSync } from 'node:fs'
import ICAL from 'ical.js'
import { beforeAll, describe, expect, it } from 'vitest'
import { askApi, bringRows, designCalled, ownerCalled } from './api-steps'
import { findViolations } from './axe'
import { rowOf } from './bring-in-steps'
import { hanne } from './sample-files'
import { desk, expectNoSidewaysScroll, openHouse, phone } from './visitor'

const house = openHouse()
const title = 'Quince and Compass'
let projectId = ''

beforeAll(async () => {
  const rows = ['Chart,Design,Kind,Owner,Copies,Width,Height,Cover', `${title},${title},leaflet,${hanne},1,50,40,full`]
  await bringRows(house, 'charts', rows.join('\n'))
  const [ownerId, { designId }] = await Promise.all([ownerCalled(house, hanne), designCalled(house, title)])
  const { project } = await askApi<{ project: { projectId: string } }>(house, '/projects', { designId, ownerId })
  projectId = project.projectId
}, 120_000)

/** The last Saturday of September, of the year in which it has not been yet. */
function nextFair(): string {
  const now = new Date()
  const today = new Date(Date.UTC(now.getFullYear(), now.getMonth(), now.getDate()))
  for (let year = now.getFullYear(); ; year++) {
    const last = new Date(Date.UTC(year, 8, 30))
    last.setUTCDate(30 - ((last.getUTCDay() - 6 + 7) % 7))
    if (last >= today) return last.toISOString().slice(0, 10)
  }
}
const words = (iso: string): string => {
  const [weekday, day, month, year] = new Date(`${iso}T00:00:00Z`).toUTCString().replace(',', '').split(' ')
  return `${weekday} ${Number(day)} ${month} ${year}`
}
const events = (text: string) =>
  new ICAL.Component(ICAL.parse(text)).getAllSubcomponents('vevent').map((one) => new ICAL.Event(one))

describe('from an occasion to a calendar', () => {
  it('keeps a day of one’s own, by the keyboard’s fields of its kind, and says what does not read', async () => {
    const page = await house.visit({ viewport: desk })
    await page.goto('/settings#occasions')
    const form = page.getByRole('form', { name: 'Add a day of your own' })
    await form.getByLabel('What it is').fill('Guild fair')
    await form.getByLabel('Day', { exact: true }).fill('31')
    await form.getByLabel('Month').selectOption({ label: 'September' })
    await form.getByRole('button', { name: 'Add this day' }).click()
    await form.getByRole('link', { name: 'Give a day the month has: 24 for December.' }).waitFor()
    await form.getByLabel('It falls on').selectOption({ label: 'a weekday of a month' })
    await form.getByLabel('Which').selectOption({ label: 'last' })
    await form.getByLabel('Weekday').selectOption({ label: 'Saturday' })
    await form.getByRole('button', { name: 'Add this day' }).click()
    await page.getByText(`next ${words(nextFair())}`).waitFor()
    await form.getByRole('button', { name: 'Add this day' }).waitFor()
  })

  it('makes a project due for it, lists by when it must be begun, and shows it in its month', async () => {
    const page = await house.visit({ viewport: phone })
    await page.goto(`/projects/${projectId}`)
    const main = page.getByRole('main')
    await main.getByRole('button', { name: 'Change the details' }).click()
    await main.getByLabel('Ready for').selectOption({ label: 'Guild fair' })
    await main.getByRole('button', { name: 'Save', exact: true }).click()
    await main.getByText(`${words(nextFair())}, for Guild fair`).waitFor()

    await page.goto('/calendar?per-week=1000')
    const row = rowOf(main.getByRole('table', { name: /^What must be begun, by when/ }), title)
    // 2,000 at 1,000 a week are two weeks; with four at the finisher and one in hand, seven before the fair.
    const start = new Date(Date.parse(nextFair()) - 49 * 86_400_000).toISOString().slice(0, 10)
    await row.getByText(words(start)).waitFor()
    await expectNoSidewaysScroll(page)
    await page.goto(`/calendar?month=${nextFair().slice(0, 7)}`)
    const month = main.locator('#month')
    await month.getByText(`${title}: due, for Guild fair`).waitFor()
    expect(await findViolations(page)).toEqual([])
    await expectNoSidewaysScroll(page)
  })

  it('gives the calendar as a file, and at an address that can be renewed and turned off', async () => {
    const page = await house.visit({ viewport: desk })
    await page.goto('/calendar')
    const main = page.getByRole('main')
    const [download] = await Promise.all([
      page.waitForEvent('download'),
      main.getByRole('link', { name: 'Calendar file' }).click(),
    ])
    expect(download.suggestedFilename()).toBe('by-when.ics')
    const inFile = events(readFileSync(await download.path(), 'utf8'))
    const due = inFile.find(({ summary }) => summary === `${title}: due, for Guild fair`)
    expect(due?.startDate.toString()).toBe(nextFair())
    expect(inFile.map(({ summary }) => summary)).toContain('Guild fair')

    const section = main.getByRole('region', { name: 'In a calendar of your own' })
    await section.getByRole('button', { name: 'Make an address' }).click()
    const address = ((await section.locator('code').textContent()) ?? '').trim()
    const fetched = await fetch(address)
    expect(fetched.status).toBe(200)
    expect(events(await fetched.text()).map(({ uid }) => uid)).toEqual(inFile.map(({ uid }) => uid))
    const again = await fetch(address, { headers: { 'if-none-match': fetched.headers.get('etag') ?? '' } })
    expect(again.status).toBe(304)
    await section.getByRole('button', { name: 'A new address' }).click()
    await page.getByRole('dialog').getByRole('button', { name: 'Give it a new one' }).click()
    await section.locator('code').filter({ hasNotText: address }).waitFor()
    expect((await fetch(address)).status).toBe(404)
    await section.getByRole('button', { name: 'Turn the address off' }).click()
    await section.getByRole('button', { name: 'Make an address' }).waitFor()
    expect(await findViolations(page)).toEqual([])
  })
})
