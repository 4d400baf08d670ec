import { spawn } from 'node:child_process'
import { cpSync, mkdtempSync, rmSync } from 'node:fs'
import { request as plainRequest } from 'node:http'
import { request as secureRequest } from 'node:https'
import { tmpdir } from 'node:os'
import path from 'node:path'
import type { BrowserContext, Page } from 'playwright-core'
import { expect, inject, it } from 'vitest'
import { launchChromium } from './chromium'
import { startServer } from './server'
import { openHouse, phone } from './visitor'

const house = openHouse({ hasSample: true })
const root = path.resolve(import.meta.dirname, '../..')

/** What the worker on the device keeps, by the names of its stores. */
const keptBy = (page: Page): Promise<Record<string, string[]>> =>
  page.evaluate(async () => {
    const kept: Record<string, string[]> = {}
    for (const name of await caches.keys()) {
      const requests = await (await caches.open(name)).keys()
      kept[name] = requests.map(({ url }) => new URL(url).pathname)
    }
    return kept
  })

const waitUntilKept = (page: Page, ...paths: string[]) =>
  expect
    .poll(
      async () => {
        const kept = Object.values(await keptBy(page)).flat()
        return paths.filter((one) => !kept.includes(one))
      },
      { timeout: 60_000, interval: 500 },
    )
    .toEqual([])

const api = async (page: Page, at: string, data?: object) =>
  (await (data ? page.request.post(`/api/v1${at}`, { data }) : page.request.get(`/api/v1${at}`))).json()

type WalkLine = { lineId: string; thingId: string; isCarried: boolean }

/** A walk and a count, open before the phone comes by. */
async function openLists(page: Page) {
  const { designs, ownerIds } = await api(page, '/designs?stitchableNow=true&limit=1')
  const { lists } = await api(page, `/designs/${designs[0].designId}`)
  const start = { designId: designs[0].designId, threadListId: lists[0].listId, ownerId: ownerIds[0] }
  const { project } = await api(page, '/projects', start)
  const walk = await api(page, '/walks', { projectIds: [project.projectId], by: 'Nell Oxtoby' })
  const { meant } = await api(page, '/places/by-label?label=T2.2')
  const count = await api(page, '/counts', { placeId: meant.placeId, by: 'Joss Tarrow' })
  return { walk, count }
}

it('opens what was seen, finds, ticks and counts without a network, and shows what others did meanwhile', async () => {
  const page = await house.visit({ viewport: phone, keepsSeen: true })
  const { walk, count } = await openLists(page)
  // Opened with a connection: the lists and where they lead are fetched while nobody waits.
  await page.goto('/')
  await waitUntilKept(page, '/', '/offline', '/offline/things', `/walks/${walk.walkId}`, `/count/${count.countId}`, '/places')
  await page.context().setOffline(true)
  // Counted by somebody else since the sheet was kept here.
  const [first, second] = count.lines
  await api(page, `/counts/${count.countId}/enter`, {
    by: 'Joss Tarrow',
    lines: [{ lineId: first.lineId, counted: 40, sawCountedAt: null }],
  })

  // A walk that was not opened before, in the drawers' cellar.
  await page.goto(`/walks/${walk.walkId}`)
  await page.getByText(/^No connection: this page is as it was seen at \d\d:\d\d\./).waitFor()
  await page.getByLabel('Who is pulling?').fill('Ines Coldwell')
  const inBag = await page.locator('[data-thing]').first().getAttribute('data-thing')
  await page.getByRole('checkbox').nth(0).check()
  await page.getByRole('checkbox').nth(1).check()
  // What is still on its way when a page is left may arrive all the same.
  await page.getByText(/2 ticks waiting to be sent.*no connection/).waitFor()
  // What is in the bag is said there and then.
  const carrying = page.getByRole('form', { name: 'Carry out what is ticked' })
  await carrying.getByLabel(/^Bag of /).fill('K-77')
  await carrying.getByRole('button', { name: 'They are in: write it on the record' }).click()
  await page.getByRole('heading', { name: 'To be written on the record' }).waitFor()
  await page.reload()
  await page.getByText(/2 ticks waiting to be sent/).waitFor()
  expect(await page.getByRole('checkbox').first().isChecked()).toBe(true)
  await page.getByRole('button', { name: 'What will be sent' }).click()
  await page.getByRole('row', { name: 'Ticks 2' }).waitFor()
  await page.getByText(/^First 2 ticks are sent, then it is written down/).waitFor()

  // Find answers from the device, Places from what was seen; what was not seen says so.
  await page.goto('/?q=0311')
  await page.getByRole('heading', { level: 1, name: 'Find, without a connection' }).waitFor()
  const hit = page.getByRole('list', { name: 'Found on this device' }).getByRole('listitem').filter({ hasText: 'Larkholm 0311' })
  await hit.getByRole('link', { name: /^T\d/ }).waitFor()
  await page.goto('/charts')
  await page.getByText('This page was not seen on this device yet').waitFor()
  await page.getByRole('list', { name: 'Pages seen on this device' }).getByRole('link', { name: 'Places', exact: true }).click()
  await page.getByRole('heading', { level: 1, name: 'Places' }).waitFor()

  // A drawer is counted, and others are at the same lines with a connection.
  await page.goto(`/count/${count.countId}`)
  await page.getByText(/No connection: what you write is kept/).waitFor()
  await page.getByLabel('Who counts').first().fill('Ines Coldwell')
  const boxes = page.getByLabel(/: how many$/)
  await boxes.nth(0).fill('41')
  await boxes.nth(1).fill('7')
  await page.getByText(/2 figures waiting to be sent; no connection/).waitFor()
  await Promise.all([
    page.waitForEvent('requestfailed', (request) => request.url().endsWith('/enter')),
    page.getByRole('button', { name: 'Save what is counted' }).click(),
  ])
  await page.reload()
  await page.getByText(/2 figures waiting to be sent; no connection/).waitFor()
  expect(await boxes.nth(0).inputValue()).toBe('41')
  const found = page.getByRole('form', { name: 'Found here, not on the sheet' })
  await found.getByLabel('What the label says').fill('Brindlequay 17')
  await found.getByLabel('How many').fill('2')
  await found.getByLabel('Who counts').fill('Ines Coldwell')
  await found.getByRole('button', { name: 'Write it down' }).click()
  await found.getByText('Brindlequay 17: 2').waitFor()
  const ofWalk = async () => (await api(page, `/walks/${walk.walkId}`)).lines as WalkLine[]
  const lines = await ofWalk()
  const pulled = lines.filter(({ thingId }) => thingId === inBag)
  const others = lines.filter(({ thingId }) => thingId !== inBag)
  const tick = { status: 'not there', tickedAt: new Date().toISOString(), by: 'Nell Oxtoby' }
  await api(page, `/walks/${walk.walkId}/ticks`, { ticks: others.map(({ lineId }) => ({ ...tick, lineId })) })

  // It comes back.
  await page.context().setOffline(false)
  const conflict = page.getByRole('note').filter({ hasText: 'you counted 41, Joss Tarrow counted 40 meanwhile' })
  await conflict.waitFor({ timeout: 60_000 })
  await conflict.getByRole('button', { name: 'Mine stands: 41' }).click()
  await conflict.waitFor({ state: 'hidden' })
  const figureOf = async (lineId: string) => {
    const { lines } = await api(page, `/counts/${count.countId}`)
    return lines.find((line: { lineId: string }) => line.lineId === lineId)
  }
  await expect.poll(async () => (await figureOf(first.lineId)).counted).toBe(41)
  expect(await figureOf(second.lineId)).toMatchObject({ counted: 7, countedBy: 'Ines Coldwell' })

  await expect
    .poll(async () => {
      const { lines } = await api(page, `/counts/${count.countId}`)
      return lines.filter(({ found: text }: { found: string | null }) => text === 'Brindlequay 17').length
    })
    .toBe(1)

  // Sent from whatever page comes next, and told at the walk: one is in the bag, of the other somebody knew better.
  await page.goto('/places')
  await expect
    .poll(async () => (await ofWalk()).filter(({ isCarried }) => isCarried).map(({ lineId }) => lineId), { timeout: 30_000 })
    .toEqual(pulled.map(({ lineId }) => lineId))
  await page.goto(`/walks/${walk.walkId}`)
  const told = page.getByRole('note').filter({ hasText: 'Ticked otherwise meanwhile' })
  await told
    .getByText(/not there, says Nell Oxtoby$/)
    .first()
    .waitFor({ timeout: 60_000 })
  await told.getByRole('button', { name: 'I have seen it' }).click()
  await told.waitFor({ state: 'hidden' })
  await page.getByText('All ticks are sent').waitFor()
  await page.getByRole('heading', { name: 'To be written on the record' }).waitFor({ state: 'hidden' })

  // A page of the version before says so once another has taken over, and goes on as it is.
  await page.evaluate(() => navigator.serviceWorker.dispatchEvent(new Event('controllerchange')))
  await page.getByText('Chart Larder has a newer version').waitFor()
  await page.getByRole('button', { name: 'Later', exact: true }).click()
  await page.getByText('Chart Larder has a newer version').waitFor({ state: 'detached' })

  // Every screen for one hand stands still while it comes.
  await page.addInitScript(() => {
    Object.assign(window, { shifted: 0 })
    new PerformanceObserver((list) => {
      for (const entry of list.getEntries() as (PerformanceEntry & { value: number; hadRecentInput: boolean })[])
        if (!entry.hadRecentInput)
          Object.assign(window, { shifted: (window as unknown as { shifted: number }).shifted + entry.value })
    }).observe({ type: 'layout-shift', buffered: true })
  })
  for (const at of ['/', '/places', `/walks/${walk.walkId}`, `/count/${count.countId}`, '/scan']) {
    await page.goto(at)
    await page.waitForTimeout(400)
    expect(await page.evaluate(() => (window as unknown as { shifted: number }).shifted), `${at} shifts`).toBeLessThan(0.01)
  }
}, 240_000)

it('speaks HTTPS by its own certificate, and shows nobody what another saw', async () => {
  const folder = mkdtempSync(path.join(tmpdir(), 'larder-https-'))
  cpSync(inject('sampleFolder'), folder, { recursive: true })
  const keeper = { name: 'Nell Oxtoby', password: 'rooks over the linen press' }
  const { DATABASE_URL: _, ...own } = process.env
  const adding = spawn(
    process.execPath,
    ['--conditions=react-server', '--import', 'tsx', 'app/account.ts', '--add', keeper.name, '--role', 'keeper'],
    { cwd: root, env: { ...own, LARDER_DATA: folder }, stdio: ['pipe', 'ignore', 'inherit'] },
  )
  adding.stdin.end(`${keeper.password}\n`)
  await new Promise((resolve) => adding.once('close', resolve))
  const certificates = path.join(root, 'tests', 'certificates')
  const server = await startServer({
    dataFolder: folder,
    env: {
      LARDER_CERT: path.join(certificates, 'localhost.pem'),
      LARDER_KEY: path.join(certificates, 'localhost-key.pem'),
    },
  })
  const browser = await launchChromium(['--ignore-certificate-errors'])
  try {
    // Whoever comes by plain HTTP is told where to go.
    const { port } = new URL(server.url)
    const asked = (ask: typeof plainRequest, address: string) =>
      new Promise<{ status?: number; headers: Record<string, unknown> }>((resolve, reject) => {
        const sent = ask(address, { rejectUnauthorized: false } as object, (answer) => {
          answer.resume()
          resolve({ status: answer.statusCode, headers: answer.headers })
        })
        sent.on('error', reject)
        sent.end()
      })
    expect(await asked(plainRequest, `http://127.0.0.1:${port}/places?page=2`)).toMatchObject({
      ...{ status: 308, headers: { location: `https://127.0.0.1:${port}/places?page=2` } },
    })
    expect(await asked(secureRequest, `${server.url}/sign-in`)).toMatchObject({
      ...{ status: 200, headers: { 'strict-transport-security': 'max-age=31536000', 'larder-whose': 'nobody' } },
    })

    const context: BrowserContext = await browser.newContext({ viewport: phone, baseURL: server.url, locale: 'en-GB' })
    const page = await context.newPage()
    await page.goto('/sign-in')
    await page.getByLabel(/^Name/).fill(keeper.name)
    await page.getByLabel(/^Password/).fill(keeper.password)
    await page.getByRole('button', { name: 'Sign in', exact: true }).click()
    await page.getByRole('searchbox').waitFor({ timeout: 30_000 })
    const [cookie] = (await context.cookies()).filter(({ name }) => name === '__Host-larder-session')
    expect(cookie?.secure).toBe(true)
    await page.goto('/places')
    await waitUntilKept(page, '/places', '/offline/things')

    await page.getByRole('button', { name: 'Sign out' }).click()
    await page.waitForURL('**/sign-in*')
    const kept = await keptBy(page)
    expect([...(kept['larder-pages'] ?? []), ...(kept['larder-known'] ?? [])]).toEqual([])
    await context.setOffline(true)
    await page.goto('/places')
    await page.getByText('There is no connection, and this page was not seen on this device yet.').waitFor()
  } finally {
    await browser.close()
    await server.stop()
    rmSync(folder, { recursive: true, force: true })
  }
}, 180_000)
