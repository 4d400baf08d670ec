import { spawn } from 'node:child_process'
import { cpSync, mkdtempSync, rmSync } from 'node:fs'
import { connect } from 'node:net'
import { tmpdir } from 'node:os'
import path from 'node:path'
import type { Browser, BrowserContext, Page } from 'playwright-core'
import { afterAll, beforeAll, expect, inject, it } from 'vitest'
import { findViolations } from './axe'
import { launchChromium } from './chromium'
import { freePort, type RunningServer, serveScript, startServer } from './server'

const root = path.resolve(import.meta.dirname, '../..')
const onNetwork = { HOST: '0.0.0.0' }
const keeper = { name: 'Nell Oxtoby', password: 'rooks over the linen press' }
const looker = { name: 'Ines Coldwell', password: 'two tins under the window' }

let folder = ''
let server: RunningServer
let browser: Browser
/** Requests whose headers or body never end, begun first and looked at last. */
let cutOff: Promise<{ headers: string; body: string }>

function runToEnd(args: string[], env: Record<string, string>, typed = ''): Promise<{ code: number | null; said: string }> {
  const { DATABASE_URL: _, ...own } = process.env
  const child = spawn(process.execPath, args, { cwd: root, env: { ...own, LARDER_DATA: folder, ...env }, stdio: 'pipe' })
  let said = ''
  for (const stream of [child.stdout, child.stderr])
    stream.on('data', (text) => {
      said += text
    })
  child.stdin.end(typed)
  return new Promise((resolve) => child.once('close', (code) => resolve({ code, said })))
}

/** What `npm run account` runs, with a password piped in. */
const account = (args: string[], password = '') =>
  runToEnd(['--conditions=react-server', '--import', 'tsx', 'app/account.ts', ...args], {}, `${password}\n`)

const startOnNetwork = async () => runToEnd([serveScript], { ...onNetwork, PORT: String(await freePort()) })

/** What is answered to a request that begins so and goes on a drop at a time, when it is cut off. */
function dripping(port: number, beginning: string, drop: string): Promise<string> {
  return new Promise((resolve, reject) => {
    const socket = connect({ host: '127.0.0.1', port }, () => socket.write(beginning))
    const drip = setInterval(() => socket.write(drop), 2_000)
    let answer = ''
    socket.on('data', (bytes) => {
      answer += bytes
    })
    socket.on('error', () => {})
    socket.once('close', () => {
      clearInterval(drip)
      resolve(answer)
    })
    setTimeout(() => reject(new Error('the slow request was never cut off')), 90_000).unref()
  })
}

beforeAll(async () => {
  folder = mkdtempSync(path.join(tmpdir(), 'larder-signing-in-'))
  cpSync(inject('sampleFolder'), folder, { recursive: true })
  browser = await launchChromium()
})
afterAll(async () => {
  await browser?.close()
  await server?.stop()
  rmSync(folder, { recursive: true, force: true })
})

async function visit(options: Parameters<Browser['newContext']>[0] = {}): Promise<{ context: BrowserContext; page: Page }> {
  const context = await browser.newContext({ baseURL: server.url, viewport: { width: 1280, height: 900 }, ...options })
  context.setDefaultTimeout(20_000)
  return { context, page: await context.newPage() }
}

async function signIn(page: Page, { name, password }: { name: string; password: string }) {
  await page.getByRole('textbox', { name: /^Name/ }).fill(name)
  await page.locator('input[type="password"]').fill(password)
  await page.getByRole('button', { name: 'Sign in', exact: true }).click()
}

const sessionOf = async (context: BrowserContext) => (await context.cookies()).find(({ name }) => name === 'larder-session')

it('stays off a network until a keeper was made on its own machine', async () => {
  const refused = await startOnNetwork()
  expect(refused.code).toBe(1)
  expect(refused.said).toContain('npm run account -- --add NAME --role keeper')

  const weak = await account(['--add', keeper.name, '--role', 'keeper'], 'nelloxtoby2026')
  expect(weak).toMatchObject({ code: 1, said: expect.stringContaining('Nothing was changed.') })
  expect(await account(['--add', looker.name, '--role', 'looker'], looker.password)).toMatchObject({ code: 1 })
  expect(await account(['--add', keeper.name, '--role', 'keeper'], keeper.password)).toMatchObject({ code: 0 })
  expect(await account(['--add', looker.name, '--role', 'looker'], looker.password)).toMatchObject({ code: 0 })
  expect((await account(['--list'])).said).toMatch(/Ines Coldwell: looker[\s\S]*Nell Oxtoby: keeper/)

  server = await startServer({ dataFolder: folder, env: onNetwork })
  const port = Number(new URL(server.url).port)
  const form = 'POST /sign-in/enter HTTP/1.1\r\nHost: larder\r\nContent-Type: application/x-www-form-urlencoded\r\n'
  cutOff = Promise.all([
    dripping(port, 'GET / HTTP/1.1\r\nHost: larder\r\n', 'X-Slow: 1\r\n'),
    dripping(port, `${form}Content-Length: 20000\r\n\r\nname=`, 'a'),
  ]).then(([headers, body]) => ({ headers, body }))
  const large = `GET /api/v1/health HTTP/1.1\r\nHost: larder\r\nX-Large: ${'a'.repeat(40_000)}\r\n\r\n`
  expect(await dripping(port, large, '')).toMatch(/^HTTP\/1\.1 431 /)
  expect((await fetch(`${server.url}/api/v1/health`)).status).toBe(200)
})

it('leads whoever has not signed in to the sign-in page and back, and keeps the cookie from scripts and other sites', async () => {
  const { context, page } = await visit()
  await page.goto('/charts?page=1')
  await page.getByRole('heading', { level: 1, name: 'Sign in' }).waitFor()
  await page.getByRole('navigation', { name: 'Main' }).waitFor({ state: 'detached' })
  await signIn(page, { ...keeper, password: 'not this one at all' })
  await page.getByText('The name or the password is not right.').waitFor()
  expect(await page.getByRole('textbox', { name: /^Name/ }).inputValue()).toBe(keeper.name)
  expect(await sessionOf(context)).toBeUndefined()
  expect(await findViolations(page)).toEqual([])

  await signIn(page, keeper)
  await page.getByRole('heading', { level: 1, name: 'Charts' }).waitFor()
  expect(page.url()).toBe(`${server.url}/charts?page=1`)
  await page.getByRole('link', { name: keeper.name }).waitFor()
  const cookie = await sessionOf(context)
  expect(cookie).toMatchObject({ httpOnly: true, sameSite: 'Lax', secure: false, path: '/', domain: '127.0.0.1' })
  expect(await page.evaluate(() => document.cookie)).not.toContain('larder-session')

  // What a page of another site would have the browser send along with the cookie.
  const elsewhere = { origin: 'https://elsewhere.example', 'sec-fetch-site': 'cross-site' }
  const forged = await fetch(`${server.url}/places`, {
    method: 'POST',
    headers: {
      ...elsewhere,
      cookie: `larder-session=${cookie?.value}`,
      'next-action': '0'.repeat(42),
      accept: 'text/x-component',
    },
    body: '[]',
  })
  expect(forged.status).toBe(403)
  expect(
    (
      await fetch(`${server.url}/sign-out`, {
        method: 'POST',
        headers: { ...elsewhere, cookie: `larder-session=${cookie?.value}` },
      })
    ).status,
  ).toBe(403)

  await page.getByRole('button', { name: 'Sign out' }).click()
  await page.getByRole('heading', { level: 1, name: 'Sign in' }).waitFor()
  expect(await sessionOf(context)).toBeUndefined()
  const after = await fetch(`${server.url}/api/v1/owners`, { headers: { cookie: `larder-session=${cookie?.value}` } })
  expect(after.status).toBe(401)
  expect(after.headers.get('content-type')).toBe('application/problem+json')
  expect(await after.json()).toMatchObject({ type: '/reference#problem-sign-in-needed', status: 401 })
  await context.close()
})

it('lets a looker look, and says why nothing more is done, with and without scripts', async () => {
  const { context, page } = await visit()
  await page.goto('/')
  await signIn(page, looker)
  await page.getByText('you look only').waitFor()
  for (const address of [
    '/charts',
    '/threads',
    '/cloth',
    '/projects',
    '/buy',
    '/count',
    '/finishes',
    '/bring-in',
    '/settings',
    '/week',
    '/calendar',
  ]) {
    const response = await page.goto(address)
    expect(response?.status(), address).toBe(200)
  }
  await page.goto('/places/new')
  await page.getByRole('textbox', { name: /^Label/ }).fill('Tin 77')
  await page.getByRole('button', { name: 'Add the place' }).click()
  await page.getByRole('heading', { level: 1, name: 'Not for this account' }).waitFor()
  await page.getByText(/Ines Coldwell may look at everything here and changes nothing/).waitFor()
  expect(await findViolations(page)).toEqual([])
  expect((await page.goto('/settings/backups'))?.status()).toBe(403)
  const cookie = await sessionOf(context)
  const asks = { cookie: `larder-session=${cookie?.value}`, 'content-type': 'application/json' }
  const posted = await fetch(`${server.url}/api/v1/places`, { method: 'POST', headers: asks, body: '{}' })
  expect(posted.status).toBe(403)
  expect(await posted.json()).toMatchObject({ type: '/reference#problem-not-allowed' })
  expect((await fetch(`${server.url}/archive/sheets/everything.xlsx`, { headers: asks })).status).toBe(403)
  await context.close()

  const plain = await visit({ javaScriptEnabled: false, viewport: { width: 390, height: 844 } })
  await plain.page.goto('/places/new')
  await signIn(plain.page, looker)
  await plain.page.getByRole('textbox', { name: /^Label/ }).fill('Tin 77')
  await plain.page.getByRole('button', { name: 'Add the place' }).click()
  await plain.page.getByRole('heading', { level: 1, name: 'Not for this account' }).waitFor()
  await plain.page.getByRole('button', { name: 'Sign out' }).click()
  await plain.page.getByRole('heading', { level: 1, name: 'Sign in' }).waitFor()
  await plain.context.close()
})

it('leads somebody signed out meanwhile from their form to the sign-in page', async () => {
  const { context, page } = await visit()
  await page.goto('/places/new')
  await signIn(page, keeper)
  await page.getByRole('textbox', { name: /^Label/ }).fill('Tin 78')
  expect(await account(['--password', keeper.name], `${keeper.password} again`)).toMatchObject({ code: 0 })
  // What was read of a device stands for two seconds.
  await page.waitForTimeout(2_500)
  await page.getByRole('button', { name: 'Add the place' }).click()
  await page.getByRole('heading', { level: 1, name: 'Sign in' }).waitFor()
  await context.close()
})

it('cuts off headers and bodies that never end, and ends what is under way before it ends itself', async () => {
  const { headers, body } = await cutOff
  expect(headers).toMatch(/^(HTTP\/1\.1 408 |$)/)
  expect(body).toBe('')
  await server.stop()
  expect(server.log()).not.toMatch(/could not be answered|did not end/)
})
