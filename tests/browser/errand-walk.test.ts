import type { Page } from 'playwright-core'
import { expect, it } from 'vitest'
import { expectNoSidewaysScroll, openHouse, phone } from './visitor'

const house = openHouse({ hasSample: true })

/** Without what a browser has only on a secure page: a shop's own network is plain HTTP. */
async function onPlainHttp(page: Page): Promise<Page> {
  await page.addInitScript(() => {
    Object.defineProperty(window.crypto, 'randomUUID', { value: undefined })
    Object.defineProperty(window.navigator, 'serviceWorker', { value: undefined })
  })
  return page
}

let turn = 0

/** A project of the shop's for a design that can be stitched now, another each time; its page is open then. */
async function startProject(page: Page): Promise<{ title: string; projectId: string }> {
  const get = async (path: string) => (await page.request.get(`/api/v1${path}`)).json()
  const { designs, ownerIds } = await get('/designs?stitchableNow=true&limit=20')
  const { designId, title } = designs[designs.length - 1 - turn]
  turn += 1
  const { lists } = await get(`/designs/${designId}`)
  const started = await page.request.post('/api/v1/projects', {
    data: { designId, threadListId: lists[0].listId, ownerId: ownerIds[0] },
  })
  expect(started.status()).toBe(201)
  const { projectId } = (await started.json()).project
  await page.goto(`/projects/${projectId}`)
  await page.getByRole('heading', { level: 1, name: title }).waitFor()
  return { title, projectId }
}

const sent = (page: Page) => page.getByText('All ticks are sent').waitFor({ timeout: 40_000 })
const progress = (page: Page, done: number) => page.getByRole('status').filter({ hasText: new RegExp(`^${done} of \\d+ pulled`) })
const rowsOf = (page: Page) =>
  page
    .getByRole('main')
    .getByRole('listitem')
    .filter({ has: page.getByRole('checkbox') })

it('pulls with two phones: ticks wait without a network, both see each other’s, and what is not there is asked after', async () => {
  const ines = await onPlainHttp(await house.visit({ viewport: phone }))
  const { title } = await startProject(ines)
  await ines.getByRole('button', { name: 'Pull with a list' }).click()
  await ines.waitForURL(/\/walks\/[0-9a-f-]{36}$/)
  await ines.getByRole('heading', { level: 1, name: `Pull for ${title}` }).waitFor()
  await ines.getByLabel('Who is pulling?').fill('Ines Coldwell')
  await expectNoSidewaysScroll(ines)
  const boxes = ines.getByRole('checkbox')
  const count = await boxes.count()
  expect(count).toBeGreaterThan(2)

  const nell = await onPlainHttp(await house.visit({ viewport: phone }))
  await nell.goto(ines.url())
  await nell.getByLabel('Who is pulling?').fill('Nell Oxtoby')
  await nell.getByRole('button', { name: 'Pulled, next' }).click()
  await progress(nell, 1).waitFor()
  await progress(ines, 1).waitFor()
  await ines.getByText('Pulled by Nell Oxtoby').waitFor()

  // The network goes; one walks on, and the other too.
  await ines.context().setOffline(true)
  await boxes.nth(1).check()
  await ines.getByText('1 tick waiting to be sent').waitFor()
  await boxes.nth(0).uncheck()
  await ines.getByText(/2 ticks waiting to be sent.*kept on this device/).waitFor({ timeout: 40_000 })
  await progress(ines, 1).waitFor()
  await nell.getByRole('checkbox').nth(2).check()
  await progress(nell, 2).waitFor()

  // It comes back: what waited is sent, and both lists say the same.
  await ines.context().setOffline(false)
  await sent(ines)
  await nell.getByText('Pulled by Ines Coldwell').waitFor()
  await progress(ines, 2).waitFor()
  await progress(nell, 2).waitFor()
  expect(await nell.getByRole('checkbox').nth(0).isChecked()).toBe(false)
  expect(await nell.getByRole('checkbox').nth(1).isChecked()).toBe(true)

  // It is not where the list says.
  const lost = rowsOf(ines).first()
  await lost.getByRole('button', { name: /not there$/ }).click()
  const asked = ines.getByRole('dialog')
  await asked.getByRole('heading', { name: /: not there$/ }).waitFor()
  await asked.getByRole('heading', { name: /^More of it/ }).waitFor()
  await asked.getByRole('button', { name: 'Leave it and walk on' }).click()
  await lost.getByText('Not there, says Ines Coldwell').waitFor()
  await sent(ines)
  await nell.getByText('Not there, says Ines Coldwell').waitFor()
  await lost.getByRole('button', { name: /where may it be/ }).click()
  await asked.getByRole('button', { name: 'It is there after all' }).click()

  for (let at = 0; at < count; at++) await ines.getByRole('checkbox').nth(at).check()
  await progress(ines, count).waitFor()
  await sent(ines)
  const carry = ines.getByRole('form', { name: 'Carry out what is ticked' })
  await carry.getByLabel(/^Bag of/).fill('Bag W-01')
  await carry.getByRole('button').click()
  await ines.getByText(/This walk is done/).waitFor()
  await ines.getByRole('region', { name: 'In the bags' }).waitFor()
  // The other phone hears of it by itself.
  await nell.getByText(/This walk is done/).waitFor({ timeout: 40_000 })

  await ines.goto('/projects')
  await ines.getByRole('link', { name: title }).first().click()
  await ines.getByText('Kitted').first().waitFor()
  await ines.getByRole('link', { name: 'Bag W-01' }).first().waitFor()
}, 240_000)

it('takes another lot instead, on the spot, and puts the bag back by a list', async () => {
  const page = await house.visit({ viewport: phone })
  const { title, projectId } = await startProject(page)
  const get = async (path: string) => (await page.request.get(`/api/v1${path}`)).json()
  const post = async (path: string, data: object) => (await page.request.post(`/api/v1${path}`, { data })).json()
  const walk = await post('/walks', { projectIds: [projectId], by: 'Nell Oxtoby' })
  const [line, other] = walk.lines.filter((one: { kind: string }) => one.kind === 'thread')
  const { needs } = await get(`/projects/${projectId}/stock`)
  const { thread } = needs.find((one: { thread: { maker: string; code: string } }) =>
    line.name.startsWith(`${one.thread.maker} ${one.thread.code}`),
  )
  // More of it came in and was put into another drawer.
  const { owner } = await get(`/projects/${projectId}`)
  await post('/movements', {
    ...{ kind: 'receive', threadId: thread.threadId, ownerId: owner.id, lot: 'W 22', wholePutUps: 9 },
    homePlaceId: other.place.placeId,
  })

  await page.goto(`/walks/${walk.walkId}`)
  const row = rowsOf(page).filter({ hasText: thread.code }).first()
  await row.getByRole('button', { name: /not there$/ }).click()
  const asked = page.getByRole('dialog')
  const offered = asked.getByRole('listitem').filter({ hasText: 'lot W 22' })
  await offered.getByRole('button', { name: /^Take .* instead$/ }).click()
  await asked.waitFor({ state: 'hidden' })
  await page.getByText(/lot W 22 · Instead of/).waitFor()
  await expectNoSidewaysScroll(page)

  const boxes = page.getByRole('checkbox')
  for (let at = 0; at < (await boxes.count()); at++) await boxes.nth(at).check()
  await sent(page)
  const carry = page.getByRole('form', { name: 'Carry out what is ticked' })
  await carry.getByLabel(/^Bag of/).fill('Bag W-02')
  await carry.getByRole('button').click()
  await page.getByText(/This walk is done/).waitFor()
  const { lines, projects } = await get(`/walks/${walk.walkId}`)
  expect(lines.every((one: { isCarried: boolean }) => one.isCarried)).toBe(true)

  // The bag is unpacked, and all of it goes back by a list.
  await page.goto(`/places/${projects[0].bag.placeId}/unpack`)
  await page.getByRole('button', { name: 'Unpack', exact: true }).click()
  await page.getByRole('main').locator('a[href^="/walks/"]').first().click()
  await page.waitForURL(/\/walks\/[0-9a-f-]{36}$/)
  const backs = page.getByRole('checkbox')
  await backs.first().waitFor()
  for (let at = 0; at < (await backs.count()); at++) await backs.nth(at).check()
  await sent(page)
  await page.getByRole('form', { name: 'Carry out what is ticked' }).getByRole('button').click()
  await page.getByText(/This walk is done/).waitFor()
  const around = await get(`/walks/${walk.walkId}`)
  const homes = around.lines.filter((one: { kind: string }) => one.kind === 'thread')
  expect(homes.every((one: { place: { label: string } }) => one.place.label !== 'Bag W-02')).toBe(true)

  await page.goto('/walks')
  await page
    .getByRole('link', { name: `Pull for ${title}` })
    .first()
    .waitFor()
  await expectNoSidewaysScroll(page)
}, 240_000)

it('names the walk that is open on Find, Places and Projects, and drops it', async () => {
  const page = await house.visit()
  const { title } = await startProject(page)
  await page.getByRole('link', { name: 'Together with others' }).click()
  await page
    .getByRole('checkbox', { name: new RegExp(title) })
    .first()
    .check()
  await page.getByRole('button', { name: 'Make the list' }).click()
  await page.waitForURL(/\/walks\/[0-9a-f-]{36}$/)
  for (const address of ['/places', '/projects', '/']) {
    await page.goto(address)
    await page
      .getByRole('navigation', { name: 'Open walks' })
      .getByRole('link', { name: /^Pull for/ })
      .first()
      .waitFor()
  }
  await page
    .getByRole('navigation', { name: 'Open walks' })
    .getByRole('link', { name: /^Pull for/ })
    .first()
    .click()
  await page.getByRole('button', { name: 'Drop it' }).click()
  await page.getByRole('dialog').getByRole('button', { name: 'Drop it' }).click()
  await page.getByText(/This walk was dropped/).waitFor()
  await page.goto('/')
  await page.getByRole('heading', { level: 1, name: 'Find' }).waitFor({ state: 'attached' })
  expect(await page.getByRole('navigation', { name: 'Open walks' }).count()).toBe(0)
}, 120_000)
