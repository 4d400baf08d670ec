// The screens in another language and in either unit: German chosen on a phone, and the tests' own language, whose words are long and run from right to left.
import type { Page } from 'playwright-core'
import { expect, it } from 'vitest'
import { type ReadPage, readPdf } from '../unit/printing/read-pdf'
import { askApi, designCalled } from './api-steps'
import { keepPlan, openFoundCut } from './cut-steps'
import { packFirstKit } from './out-and-kit-steps'
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

const units = { in: 'inches', cm: 'centimetres' } as const

async function chooseUnit(page: Page, unit: keyof typeof units) {
  await page.goto('/settings')
  await page.getByRole('group', { name: 'Cloth in' }).getByLabel(units[unit]).check()
  await page.getByRole('region', { name: 'Units and reckoning' }).getByRole('button', { name: 'Keep these' }).click()
  await page.getByText('Kept. Every answer is worked out anew with these.').waitFor()
}

/** A figure in a unit. In the tests' own language “in” is never a word: those of messages are marked. */
const sizesIn = (unit: string) => new RegExp(`[\\d½¼¾][  ]${unit}(?![\\p{L}ø])`, 'u')

/** Texts that belong together on a screen, by the cell, line or paragraph they stand in. */
const textsOf = (page: Page): Promise<string[]> =>
  page.locator('main').evaluate((main) => {
    const held = new Map<Element, string>()
    const walker = document.createTreeWalker(main, NodeFilter.SHOW_TEXT)
    for (let node = walker.nextNode(); node; node = walker.nextNode()) {
      const around = node.parentElement?.closest(
        'td, th, dd, dt, li, p, label, legend, caption, figcaption, h1, h2, h3, summary, svg, fieldset',
      )
      if (around) held.set(around, `${held.get(around) ?? ''} ${node.textContent}`)
    }
    for (const box of main.querySelectorAll('[placeholder]')) held.set(box, box.getAttribute('placeholder') ?? '')
    return [...held.values()].map((text) => text.replace(/\s+/g, ' '))
  })

/** All that stands on a printed page: bars to measure by are of both units there. */
const pageText = ({ words }: ReadPage): string => words.map(({ text }) => text).join(' ')

it('shows no size in one unit alone to whoever chose the other, on screens, sheets and labels', async () => {
  const page = await house.visit()
  const { form, found } = await openFoundCut(page)
  await keepPlan(page, 'Two table covers')
  const plan = new URL(page.url()).pathname
  const [{ designId }, kits, { pieces }] = await Promise.all([
    designCalled(house, 'Seven Lanterns'),
    packFirstKit(house),
    askApi<{ pieces: { pieceId: string }[] }>(house, '/cloth?limit=1'),
  ])
  const piece = pieces[0]?.pieceId
  // A table frame of 18 in was sold by that: people's own words stay as they are.
  const { owners } = await askApi<{ owners: { id: string }[] }>(house, '/owners')
  const ofAll = new URLSearchParams(owners.map(({ id }) => ['owner', id]))
  const { notions } = await askApi<{ notions: { name: string; size: string | null }[] }>(house, `/notions?${ofAll}`)
  const own = notions.flatMap(({ name, size }) => (size ? [`${name}, ${size}`] : []))
  const withoutOwn = (text: string) => own.reduce((rest, name) => rest.replaceAll(name, ''), text)
  const screens = [
    ...['/cloth', `/cloth/${piece}`, `/cloth/${piece}/designs`, '/cloth/count', '/cloth/cut/new', form, found, plan],
    ...['/cloth/yardage?what=Seven+Lanterns&kits=24', '/cloth/choose', '/charts', '/finishes', '/finishes/plots', '/labels'],
    ...[`/designs/${designId}`, `/designs/${designId}/cloth`, `/designs/${designId}/frame`, '/projects?within=30'],
    ...[`/projects/${kits}`, `/projects/${kits}/kit`, `/projects/${kits}/kit/sheets`, '/?q=linen', '/insurance'],
  ]
  const sheets = [
    `${plan}/sheet.pdf`,
    `/projects/${kits}/kit/sheets/class-sheet.pdf`,
    `/projects/${kits}/kit/sheets/packing-slips.pdf`,
  ]
  for (const [unit, other] of [
    ['cm', 'in'],
    ['in', 'cm'],
  ] as const) {
    await page.context().clearCookies()
    await chooseUnit(page, unit)
    await page.context().addCookies([{ name: 'larder-language', value: 'trial', url: house.server().url }])
    const alone = (texts: readonly string[]) =>
      texts.map(withoutOwn).filter((text) => sizesIn(other).test(text) && !sizesIn(unit === 'cm' ? '[cm]m' : unit).test(text))
    let seen = 0
    for (const address of screens) {
      await page.goto(address)
      const texts = await textsOf(page)
      seen += texts.filter((text) => sizesIn(unit).test(text)).length
      expect(alone(texts), `${address} for ${unit}`).toEqual([])
    }
    for (const address of sheets) {
      const { pages } = await readPdf(new Uint8Array(await (await page.request.get(address)).body()))
      expect(alone(pages.map(pageText)), `${address} for ${unit}`).toEqual([])
    }
    expect(seen, unit).toBeGreaterThan(screens.length)
  }
})
