import { mkdirSync } from 'node:fs'
import path from 'node:path'
import type { Browser, BrowserContext, Page } from 'playwright-core'
import { afterAll, afterEach, beforeAll, expect, inject } from 'vitest'
import { launchChromium } from './chromium'
import { type RunningServer, startServer } from './server'
import { openSharedHouse } from './shared-house'

const failuresFolder = path.join(import.meta.dirname, 'failures')

export const desk = { width: 1280, height: 900 }
export const phone = { width: 390, height: 844 }

type Visit = {
  viewport?: { width: number; height: number }
  colorScheme?: 'light' | 'dark'
  /** Whether the page may set up the worker that keeps what was seen; elsewhere it would fetch pages that no test asked for. */
  keepsSeen?: boolean
}

export type House = {
  server: () => RunningServer
  /** A page of its own: nothing is kept from the visit before, neither cookies nor stored ticks. */
  visit: (visit?: Visit) => Promise<Page>
}

/**
 * A server with an empty collection, or with the sample in it, and a browser, for the tests of one file. After each test its pages are closed; an error in a
 * page's scripts or console, or an answer that says the server or an asset failed, fails the test, and a failure leaves its picture.
 *
 * Files share the server one after another, each with a collection that begins anew. A file that looks at what the program keeps beside its collection,
 * or starts it otherwise, asks for one of its own.
 */
export function openHouse({ hasSample = false, isShared = true } = {}): House {
  let server: RunningServer | undefined
  let browser: Browser | undefined
  let visits: BrowserContext[] = []
  let faults: string[] = []

  beforeAll(async () => {
    const template = inject(hasSample ? 'sampleFolder' : 'emptyFolder')
    const house = isShared
      ? await openSharedHouse(template)
      : { server: await startServer({ copyOf: template }), browser: await launchChromium() }
    server = house.server
    browser = house.browser
  })

  afterEach(async ({ task }) => {
    if (task.result?.state === 'fail') await keepPictures(task.name, visits)
    await Promise.all(visits.map((context) => context.close()))
    visits = []
    const found = faults
    faults = []
    expect(found).toEqual([])
  })

  afterAll(async () => {
    if (isShared) return
    await browser?.close()
    await server?.stop()
  })

  return {
    server: () => {
      if (!server) throw new TypeError('openHouse: the server is there only within a test')
      return server
    },
    visit: async ({ viewport = desk, colorScheme = 'light', keepsSeen = false } = {}) => {
      if (!server || !browser) throw new TypeError('openHouse: a visit is paid within a test')
      const context = await browser.newContext({
        ...{ viewport, colorScheme, baseURL: server.url, locale: 'en-GB' },
        serviceWorkers: keepsSeen ? 'allow' : 'block',
      })
      context.setDefaultTimeout(20_000)
      visits.push(context)
      const page = await context.newPage()
      watch(page, faults)
      return page
    },
  }
}

/** What a page must not do unseen. A page that is not there may be asked for: what it says is the test's own matter. */
function watch(page: Page, faults: string[]) {
  page.on('pageerror', (error) => faults.push(`${page.url()}: ${error.message}`))
  page.on('console', (message) => {
    // The browser's own line on an answer of 404 or 500; answers are judged below, where their addresses are known.
    const isOnAnswer = message.text().startsWith('Failed to load resource')
    if (message.type() === 'error' && !isOnAnswer) faults.push(`${page.url()}: ${message.text()}`)
  })
  page.on('response', (response) => {
    const isPageAskedFor = response.request().isNavigationRequest() && response.status() === 404
    if (response.status() >= 400 && !isPageAskedFor) faults.push(`${page.url()}: ${response.status()} from ${response.url()}`)
  })
}

async function keepPictures(name: string, contexts: readonly BrowserContext[]) {
  mkdirSync(failuresFolder, { recursive: true })
  const file = name.replace(/[^\p{L}\p{N}]+/gu, '-').slice(0, 80)
  const pages = contexts.flatMap((context) => context.pages())
  for (const [at, page] of pages.entries())
    await page.screenshot({ path: path.join(failuresFolder, `${file}-${at + 1}.png`), fullPage: true }).catch(() => null)
}

/** Nothing of the page is cut off at the right or has to be scrolled to sideways. */
export async function expectNoSidewaysScroll(page: Page) {
  const { wide, seen } = await page.evaluate(() => ({ wide: document.documentElement.scrollWidth, seen: window.innerWidth }))
  expect(wide, `${page.url()} scrolls sideways`).toBeLessThanOrEqual(seen)
}
