import { cpSync, mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import path from 'node:path'
import Libsql from 'libsql'
import type { Browser } from 'playwright-core'
import { describe, expect, inject, it } from 'vitest'
import { archiveTables } from '#lib/archive/tables'
import { bringInFile, chooseFile, openPreview } from './bring-in-steps'
import { listRoutes } from './screens'
import { openSharedHouse } from './shared-house'
import { openHouse } from './visitor'

const house = openHouse()

/** All that is kept, as the API lists it: equal before and after means nothing was changed. */
async function census(): Promise<unknown[]> {
  const lists = ['owners', 'places', 'threads', 'cloth', 'designs', 'projects', 'movements', 'imports']
  return Promise.all(lists.map(async (list) => (await fetch(`${house.server().url}/api/v1/${list}`)).json()))
}

/** The first entry of a zip archive, as a workbook begins, and nothing after it. */
function workbookBytes(): Buffer {
  const name = Buffer.from('xl/workbook.xml')
  const head = Buffer.alloc(30)
  head.writeUInt32LE(0x04034b50, 0)
  head.writeUInt16LE(20, 4)
  head.writeUInt16LE(name.length, 26)
  return Buffer.concat([head, name, Buffer.alloc(60)])
}

const onePixelPng = 'iVBORw0KGgoAAAANSUhEUgAAAAEAAAABCAYAAAAfFcSJAAAADUlEQVR42mNk+M9QDwADhgGAWjR9awAAAABJRU5ErkJggg=='

describe('a file that is no table', () => {
  it.each([
    ['a damaged workbook', 'stash.xlsx', workbookBytes(), 'This workbook is damaged'],
    ['a damaged workbook under another name', 'stash.csv', workbookBytes(), 'This workbook is damaged'],
    [
      'a workbook of the old kind',
      'stash.xls',
      Buffer.from('d0cf11e0a1b11ae1', 'hex'),
      'This is a workbook of the old kind (xls).',
    ],
    ['a PDF', 'stash.pdf', Buffer.from('%PDF-1.7\n%âãÏÓ\n1 0 obj\n', 'latin1'), 'This is a PDF.'],
    ['a picture', 'drawer.png', Buffer.from(onePixelPng, 'base64'), 'This is a picture.'],
    ['an empty file', 'empty.csv', Buffer.alloc(0), 'The file is empty.'],
    ['headings alone', 'headings.csv', Buffer.from('Maker,Line,Code\n'), 'There are no rows under the headings.'],
    [
      'a table with a NUL in it',
      'nul.csv',
      Buffer.from('Maker,Code\nLarkholm,0\x001\n'),
      'This is neither a text file nor a workbook.',
    ],
  ])('is refused in a sentence that says what it is: %s', async (_, name, bytes, sentence) => {
    const page = await house.visit()
    const before = await census()
    await chooseFile(page, { name, content: bytes })
    const alert = page.getByRole('main').getByRole('alert')
    await alert.waitFor()
    expect(await alert.textContent()).toContain(`${name}: ${sentence}`)
    expect(await alert.textContent()).toContain('Nothing was changed.')
    expect(await census()).toEqual(before)
  })
})

it('says of a table about something else that its headings say nothing, and lets one tell what it is', async () => {
  const page = await house.visit()
  const main = page.getByRole('main')
  const before = await census()
  await openPreview(page, { name: 'miles.csv', content: Buffer.from('Journey,Miles,Driver\nTarnbeck to Oxmarsh,14,Joss\n') })
  await page.getByRole('heading', { name: 'Say how to read miles.csv' }).waitFor()
  await main.getByText('Nothing in the headings says what the rows are.').waitFor()
  await main.getByText('Nothing was changed.').waitFor()

  await page.getByLabel('Its rows are').selectOption('Threads held')
  await page.getByRole('button', { name: 'Look again' }).click()
  await main.getByText('Something that is needed has no column yet: Maker and Code.').waitFor()
  expect(await census()).toEqual(before)
})

it('keeps formulas and markup as the text they are, refuses what is too long, and runs nothing', async () => {
  const page = await house.visit()
  const rows = [
    'Maker,Line,Code,Name,Skeins',
    'Larkholm,Stranded Cotton,0001,"=HYPERLINK(""http://127.0.0.1/"",""x"")",2',
    'Larkholm,Stranded Cotton,0002,<script>window.wasRun = 1</script><img src=x onerror=window.wasRun=1>,1',
    `Larkholm,Stranded Cotton,0003,${'a'.repeat(9_000)},1`,
    'Larkholm,Stranded Cotton,0004,"@SUM(1,1)",two',
  ]
  await openPreview(page, { name: 'hostile.csv', content: Buffer.from(rows.join('\n')) })
  const refused = page.getByRole('table', { name: 'Rows that are refused, and why' })
  expect(await refused.getByRole('row', { name: /^Row 4/ }).textContent()).toContain('longer than 300 letters')
  expect(await refused.getByRole('row', { name: /^Row 5/ }).textContent()).toContain('“two” is not a')

  // The rows to mend open in a spreadsheet: there a formula has to stay a text too.
  const download = page.waitForEvent('download')
  await page.getByRole('link', { name: 'Download these rows as CSV' }).click()
  const toMend: string[] = []
  for await (const part of await (await download).createReadStream()) toMend.push(String(part))
  expect(toMend.join('')).toContain(`"'@SUM(1,1)"`)

  await bringInFile(page, 'hostile.csv')
  await page.getByRole('link', { name: 'Threads', exact: true }).click()
  const threads = page.getByRole('table', { name: /^Threads/ })
  await threads.getByText('=HYPERLINK("http://127.0.0.1/","x")').waitFor()
  await threads.getByText('<script>window.wasRun = 1</script>').waitFor()
  expect(await page.evaluate(() => 'wasRun' in window)).toBe(false)
})

describe('an address of nothing', () => {
  /** These say in place what became of it: an upload is kept for a day, a job until the program stops. */
  const answeredInPlace = [
    '/archive/given/[givenId]',
    '/archive/jobs/[jobId]',
    '/bring-in/[stagedId]',
    '/bring-in/jobs/[jobId]',
    '/cloth/choose/jobs/[jobId]',
    '/cloth/cut/jobs/[jobId]',
    '/projects/together/jobs/[jobId]',
    '/threads/conversions/[stagedId]',
  ]
  const wrongIds = ['nothing-here', '01a211e2-0000-7000-8000-000000000000', "1' OR '1'='1"]

  const addresses = listRoutes()
    .filter((route) => route.includes('['))
    .flatMap((route) => wrongIds.map((id) => ({ route, address: route.replace(/\[\w+\]/g, encodeURIComponent(id)) })))

  const inPlaceWords = /no longer here|not kept here any more|Nothing is known of this/
  const notKeptWords = /Nothing is kept under this address/

  it('is answered in plain words on every screen', async () => {
    for (const { route, address } of [...addresses, { route: '/nowhere', address: '/nowhere/at/all' }]) {
      const response = await fetch(`${house.server().url}${address}`)
      const isInPlace = answeredInPlace.includes(route)
      expect(response.status, address).toBe(isInPlace ? 200 : 404)
      const html = await response.text()
      expect(html, address).toMatch(isInPlace ? inPlaceWords : notKeptWords)
      expect(html, address).not.toMatch(/\n\s+at .+:\d+:\d+|node_modules|PrismaClient/)
    }
  }, 300_000)

  it('is shown in plain words, whatever the kind of address', async () => {
    const page = await house.visit()
    for (const [address, words] of [
      [`/charts/${wrongIds[1]}`, notKeptWords],
      [`/bring-in/${wrongIds[0]}`, inPlaceWords],
      ['/nowhere/at/all', notKeptWords],
    ] as const) {
      await page.goto(address)
      expect(await page.getByRole('main').textContent(), address).toMatch(words)
    }
  })

  it('is answered with a problem by the API, a picture and a download', async () => {
    for (const address of [
      '/photos/..%2Flarder.db',
      '/photos/none.webp',
      '/bring-in/examples/spoons',
      '/bring-in/none/refused',
    ]) {
      const response = await fetch(`${house.server().url}${address}`)
      expect(response.status, address).toBe(404)
      expect(await response.text(), address).not.toMatch(/\n\s+at .+:\d+:\d+|node_modules/)
    }
    const response = await fetch(`${house.server().url}/api/v1/designs/nothing-here`)
    expect(response.status).toBe(404)
    expect(response.headers.get('content-type')).toContain('application/problem+json')
  })
})

describe('what somebody smuggled into a page', () => {
  it('neither runs nor loads anything from elsewhere', async () => {
    // Not watched for errors, since each refusal is one.
    const browser = (await house.visit()).context().browser() as Browser
    const context = await browser.newContext({ baseURL: house.server().url })
    try {
      const page = await context.newPage()
      await page.goto('/')
      const refused = await page.evaluate(async () => {
        const seen: string[] = []
        document.addEventListener('securitypolicyviolation', ({ effectiveDirective }) => seen.push(effectiveDirective))
        const add = (tag: string, attributes: Record<string, string>, text = '') => {
          const element = document.createElement(tag)
          for (const [name, value] of Object.entries(attributes)) element.setAttribute(name, value)
          element.textContent = text
          document.body.append(element)
          return element
        }
        add('div', {}).innerHTML = '<button id="smuggled" onclick="window.hasRun = 1">Win</button>'
        document.getElementById('smuggled')?.click()
        const script = document.createElement('div')
        script.innerHTML = '<svg><script>window.hasRun = 2</script></svg>'
        document.body.append(document.importNode(script, true))
        add('style', {}, 'body { display: none }')
        add('img', { src: 'http://larder.test/spy.webp' })
        add('iframe', { src: 'http://larder.test/' })
        await fetch('http://larder.test/').catch(() => null)
        await new Promise((resolve) => setTimeout(resolve, 200))
        return { seen: [...new Set(seen)].sort(), hasRun: (window as { hasRun?: number }).hasRun ?? null }
      })
      expect(refused.hasRun).toBeNull()
      expect(refused.seen).toEqual(['connect-src', 'frame-src', 'img-src', 'script-src-attr', 'style-src-elem'])
    } finally {
      await context.close()
    }
  })

  it('finds another policy with every page, and the usual refusals with every answer', async () => {
    const ask = async (address: string, init: RequestInit = {}) => (await fetch(`${house.server().url}${address}`, init)).headers
    const numberOf = (headers: Headers) => /'nonce-([\w+/=]{22,})'/.exec(headers.get('content-security-policy') ?? '')?.[1]
    const [one, other] = [numberOf(await ask('/')), numberOf(await ask('/'))]
    expect(one).toBeDefined()
    expect(other).not.toBe(one)
    for (const address of ['/', '/nowhere', '/photos/none.webp', '/api/v1/health', '/api/v1/openapi.json', '/icon.svg']) {
      const headers = await ask(address)
      expect(headers.get('x-content-type-options'), address).toBe('nosniff')
      expect(headers.get('x-frame-options'), address).toBe('DENY')
      expect(headers.get('referrer-policy'), address).toBe('same-origin')
      expect(headers.get('cross-origin-resource-policy'), address).toBe('same-origin')
      expect(headers.get('x-powered-by'), address).toBeNull()
    }
    expect((await ask('/api/v1/health')).get('content-security-policy')).toBe("default-src 'none'; frame-ancestors 'none'")
    // A form sent before its page's scripts ran is answered with a page whose scripts run.
    const answered = await ask('/bring-in', { method: 'POST', body: new URLSearchParams({ nothing: '1' }) })
    expect(numberOf(answered)).toBeDefined()
  })
})

it('leaves a page that works when its form is sent before its scripts ran', async () => {
  const page = await house.visit()
  let come = () => {}
  const isTime = new Promise<void>((resolve) => {
    come = resolve
  })
  await page.route('**/_next/static/chunks/*.js', async (route) => {
    await isTime
    await route.continue()
  })
  await page.goto('/places/new', { waitUntil: 'commit' })
  await page.getByRole('button', { name: 'Add the place' }).click({ noWaitAfter: true })
  await page.getByText('Give the place a label: what is written on it.').first().waitFor()
  come()
  // What only scripts can do.
  await expect
    .poll(
      async () => {
        await page.keyboard.press('Control+k')
        return page.getByRole('dialog').count()
      },
      { timeout: 20_000 },
    )
    .toBe(1)
})

it('is led by a sent form to another page without loading it whole', async () => {
  const page = await house.visit()
  await page.goto('/places/new', { waitUntil: 'networkidle' })
  await page.evaluate(() => Object.assign(window, { isSameDocument: true }))
  await page.locator('input[name="label"]').first().fill('Box led to')
  await page.getByRole('button', { name: 'Add the place' }).click()
  await page.getByRole('heading', { name: 'Box led to', level: 1 }).waitFor()
  expect(await page.evaluate(() => 'isSameDocument' in window)).toBe(true)
  // Whoever hears the page is told where it led to, and begins at its top.
  await expect
    .poll(() => page.evaluate(() => document.querySelector('next-route-announcer')?.shadowRoot?.textContent), { timeout: 20_000 })
    .toContain('Box led to')
  expect(await page.evaluate(() => scrollY)).toBe(0)
})

it('may send a form again that leads to its own page: it is another deed', async () => {
  const page = await house.visit()
  await page.goto('/settings/check', { waitUntil: 'networkidle' })
  await page.evaluate(() => Object.assign(window, { isSameDocument: true }))
  const key = () => page.locator('main input[name="onceKey"]').first().inputValue()
  const first = await key()
  await page.getByRole('button', { name: 'Check now' }).click()
  await page.waitForURL(/[?&]job=/)
  expect(await page.evaluate(() => 'isSameDocument' in window)).toBe(true)
  await expect.poll(key, { timeout: 20_000 }).not.toBe(first)
})

describe('a collection whose every text is a script', () => {
  const marker = '<img src=x onerror="window.hasRun=1"><script>window.hasRun=1</script>'
  /** What people write; the others are words and keys of the program's own. The journal cannot be rewritten. */
  const written = new Set([
    ...['name', 'title', 'label', 'colourName', 'note', 'who', 'text', 'what', 'forWhom', 'lot', 'code', 'makerName'],
    ...['clothName', 'supplier', 'lineName', 'sourceName', 'fileName', 'symbol', 'fromWhom', 'publisher', 'reason', 'by'],
  ])

  it('shows them as the texts they are on every screen, and runs none', { timeout: 300_000 }, async () => {
    const dataFolder = mkdtempSync(path.join(tmpdir(), 'larder-scripts-'))
    cpSync(inject('sampleFolder'), dataFolder, { recursive: true })
    const database = new Libsql(path.join(dataFolder, 'larder.db'))
    for (const { name, columns } of archiveTables) {
      if (name === 'Movement' || name === 'KeptFile') continue
      for (const [column, kind] of Object.entries(columns))
        if (written.has(column) && kind.startsWith('text'))
          database.prepare(`UPDATE "${name}" SET "${column}" = "${column}" || ? WHERE "${column}" IS NOT NULL`).run(marker)
    }
    database.close()
    try {
      // The server that has read its program already: one of its own would read all of it again.
      const { server } = await openSharedHouse(dataFolder)
      const seen = new Set<string>()
      const waiting = ['/', '/finishes', '/calendar', '/week', '/buy/on-order', '/notions', '/places/filing', '/reference']
      const faults: string[] = []
      let shown = 0
      const shape = (address: string) => address.replace(/[0-9a-f]{8}-[0-9a-f-]{27}|\d+/g, ':id').replace(/[?#].*$/, '')
      for (let address = waiting.shift(); address !== undefined && seen.size < 160; address = waiting.shift()) {
        if (seen.has(shape(address))) continue
        seen.add(shape(address))
        const response = await fetch(`${server.url}${address}`)
        if (!/text\/html/.test(response.headers.get('content-type') ?? '')) continue
        if (response.status >= 500) faults.push(`${response.status} at ${address}`)
        const html = await response.text()
        if (html.includes(marker) || /<img src=x/.test(html)) faults.push(`it stands as it is at ${address}`)
        if (html.includes('&lt;img src=x')) shown += 1
        for (const [, href] of html.matchAll(/href="(\/[^"]*)"/g))
          if (href && !href.startsWith('/_next')) waiting.push(href.replaceAll('&amp;', '&'))
      }
      expect(faults).toEqual([])
      expect(shown).toBeGreaterThan(25)

      const browser = (await house.visit()).context().browser() as Browser
      const context = await browser.newContext({ baseURL: server.url })
      try {
        const page = await context.newPage()
        for (const address of [
          '/',
          '/charts',
          '/threads',
          '/cloth',
          '/places',
          '/projects',
          '/buy',
          '/count',
          '/finishes',
          '/loans',
        ]) {
          await page.goto(address)
          await page.getByRole('main').waitFor()
          expect(await page.evaluate(() => 'hasRun' in window), address).toBe(false)
        }
      } finally {
        await context.close()
      }
    } finally {
      rmSync(dataFolder, { recursive: true, force: true })
    }
  })
})
