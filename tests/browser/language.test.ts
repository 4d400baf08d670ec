// The screens in another language: German chosen on a phone, and the tests' own language, whose words are long and run from right to left.
import type { Page } from 'playwright-core'
import { expect, it } from 'vitest'
import { expectNoSidewaysScroll, openHouse, phone } from './visitor'

const house = openHouse({ hasSample: true })

const inLanguage = async (key: string) => {
  const page = await house.visit({ viewport: phone })
  await page.context().addCookies([{ name: 'larder-language', value: key, url: house.server().url }])
  return page
}

/** Addresses of a handful of screens; of a design, a place and a thread the first that a list leads to. */
const screens = ['/', '/charts', '/threads', '/cloth', '/places', '/projects', '/calendar', '/buy', '/bring-in', '/settings']
const firstLinks: [string, RegExp][] = [
  ['/charts', /^\/designs\/[\w-]+$/],
  ['/places', /^\/places\/[0-9a-f-]{36}$/],
  ['/threads', /^\/threads\/[0-9a-f-]{36}$/],
]
async function firstLink(page: Page, list: string, pattern: RegExp): Promise<string> {
  await page.goto(list)
  const hrefs = await page.locator('main a').evaluateAll((links) => links.map((link) => link.getAttribute('href') ?? ''))
  return hrefs.find((href) => pattern.test(href)) as string
}

/** The words of what frames a screen, without what people called things: these stand isolated within a message. */
const frameWords = (page: Page): Promise<string[]> =>
  page.locator('header nav, legend, thead th, main button[type=submit]').evaluateAll((all) =>
    all
      .filter((one) => one.checkVisibility())
      .flatMap((one) => {
        const shown = one.cloneNode(true) as Element
        // A name that only those hear who hear the page stands apart from the words.
        for (const name of shown.querySelectorAll('.vh')) name.remove()
        return (shown.textContent ?? '').replace(/\u2068[^\u2069]*\u2069/g, ' ').match(/\p{L}{3,}/gu) ?? []
      }),
  )

it('is German once that is chosen, on the server and in the browser, and English again', async () => {
  const page = await house.visit({ viewport: phone })
  await page.goto('/settings')
  expect(await page.locator('html').getAttribute('lang')).toBe('en-GB')
  await page.getByRole('group', { name: 'The page is in' }).getByLabel('Deutsch').check()
  await page.getByRole('form', { name: 'Language' }).getByRole('button', { name: 'Keep' }).click()
  await page.getByRole('heading', { level: 1, name: 'Einstellungen' }).waitFor()
  expect(await page.locator('html').getAttribute('lang')).toBe('de')
  await page.goto('/')
  // The box is a component of the browser's own: what it says after it has come alive is what the server said.
  await page.getByRole('searchbox', { name: 'Vorlage, Garn, Stoff, Platz oder Projekt suchen' }).fill('Larkholm')
  await page.goto('/settings')
  const asks = page.getByRole('form', { name: 'Sprache' })
  await asks.getByLabel('English').check()
  await asks.getByRole('button').click()
  await page.getByRole('heading', { level: 1, name: 'Settings' }).waitFor()
})

it('bears long words that run from right to left, and leaves no English in its frame', async () => {
  const page = await inLanguage('trial')
  const addresses = [...screens]
  for (const [list, pattern] of firstLinks) addresses.push(await firstLink(page, list, pattern))
  for (const address of addresses) {
    await page.goto(address)
    expect(await page.locator('html').getAttribute('dir')).toBe('rtl')
    await expectNoSidewaysScroll(page)
    const english = (await frameWords(page)).filter((word) => !word.includes('ø'))
    expect(english, address).toEqual([])
    if (process.env.KEEP_PICTURES) {
      const name = address.replace(/[0-9a-f-]{36}/, 'one').replaceAll('/', '-')
      await page.screenshot({ path: `${process.env.KEEP_PICTURES}/rtl${name}.png`, fullPage: true })
    }
  }
})
