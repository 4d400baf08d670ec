import { writeFileSync } from 'node:fs'
import type { Page } from 'playwright-core'
import { beforeAll, describe, expect, it } from 'vitest'
import { askApi } from './api-steps'
import { giveArchive } from './archive-steps'
import { findCutWhenSpaced, findHiddenFocus, findMoving, findSideways } from './at-any-size'
import { colourJudge, findViolations, keepFewOfEachShape } from './axe'
import { makeBackup } from './backup-steps'
import { openPreview } from './bring-in-steps'
import { openShopping } from './buying-steps'
import { addHoop, openCounted } from './count-steps'
import { keepPlan, openChoiceAnswer, openFoundCut, openTogetherAnswer } from './cut-steps'
import { mergeDoubles } from './double-steps'
import { moveFirstOf } from './list-steps'
import { openFilingPlan, openOutAndKits } from './out-and-kit-steps'
import { readKeys } from './reading-steps'
import { isOfRoute, listRoutes, screensToSee } from './screens'
import { findUnsaidSums } from './sums'
import { changeAsShown, openBulkPreview, openConversionPreview, openOrder } from './thread-steps'
import { desk, expectNoSidewaysScroll, openHouse, phone } from './visitor'

const house = openHouse({ hasSample: true })
const slow = 1_200_000

/** A desk's 1280 by 1024 enlarged four times, in pixels of CSS. */
const enlarged = { width: 320, height: 256 }

/** Where one hand holds the phone. */
const phoneRoutes = [
  '/',
  '/account',
  '/archive',
  '/archive/given/[givenId]',
  '/archive/jobs/[jobId]',
  '/charts',
  '/charts/doubles',
  '/charts/had',
  '/charts/read',
  '/charts/read/[readingId]',
  '/charts/bulk',
  '/designs/[designId]',
  '/designs/[designId]/cloth',
  '/threads',
  '/threads/[threadId]',
  '/threads/[threadId]/batches/[batchId]/[verb]',
  '/threads/delivery',
  '/threads/which',
  '/buy',
  '/cloth',
  '/cloth/count',
  '/cloth/cut/[planId]/carry-out',
  '/count/[countId]',
  '/finishes',
  '/glossary',
  '/guide',
  '/finishes/[year]',
  '/finishes/plots',
  '/loans',
  '/loans/[loanId]',
  '/missing',
  '/missing/[missingId]',
  '/places',
  '/places/[placeId]',
  '/places/[placeId]/unpack',
  '/projects/[projectId]',
  '/projects/[projectId]/kit/bags/[bagNumber]',
  '/projects/[projectId]/log',
  '/projects/rotation',
  '/projects/together',
  '/projects/together/jobs/[jobId]',
  '/projects/together/pairs',
  '/scan',
  '/settings/backups',
  '/settings/backups/[name]',
  '/settings/check',
  '/settings/people',
  '/settings/people/log',
  '/walks/[walkId]',
  '/week',
  '/bring-in',
  '/buy/lists/[listId]',
  '/calendar',
]

/** Where something stands still in front of the page on a phone while one goes through it. */
const routesWithDock = [
  '/',
  '/threads/delivery',
  '/count/[countId]',
  '/walks/[walkId]',
  '/buy/lists/[listId]',
  '/projects/[projectId]/kit/bags/[bagNumber]',
]

/** No link leads to these. */
const unlinked = [
  '/archive/given/long-gone',
  '/archive/jobs/long-gone',
  '/bring-in/sample',
  '/bring-in/jobs/long-gone',
  '/offline',
  '/reference',
  '/reference?operation=addMovement',
  '/places/not-here',
]

/** Shown only where people sign in; axe looks at them in signing-in.test.ts. */
const onNetwork = ['/sign-in', '/not-allowed']

let screens = screensToSee([])
let walk: string

beforeAll(async () => {
  const page = await house.visit()
  await openPreview(page, {
    name: 'half right.csv',
    content: Buffer.from(
      'Maker,Line,Code,Skeins,Place\nLarkholm,Stranded Cotton,0001,two,Drawer 9\nLarkholm,Stranded Cotton,0002,2,Drawer 9\n',
    ),
  })
  const staged = page.url()
  await openOrder(page)
  const order = page.url()
  await openConversionPreview(page)
  const conversions = page.url()
  await openBulkPreview(page)
  const bulkPreview = page.url()
  await changeAsShown(page)
  const bulkDone = page.url()
  await openChoiceAnswer(page)
  const choice = page.url()
  await openTogetherAnswer(page)
  const together = page.url()
  const cut = await openFoundCut(page)
  await keepPlan(page, 'Two table covers')
  const plan = page.url()
  const count = await openCounted(page)
  await addHoop(page)
  const hoop = page.url()
  const filing = await openFilingPlan(page)
  const outAndKits = await openOutAndKits(house)
  const shopping = await openShopping(house)
  const archive = await giveArchive(page)
  const backup = await makeBackup(page)
  const doubles = await mergeDoubles(house)
  const readings = await readKeys(house)
  const moved = [
    ...(await moveFirstOf(page, 'charts', 'design')),
    ...(await moveFirstOf(page, 'cloth', 'piece')),
    ...(await moveFirstOf(page, 'notions', 'notion')),
    ...(await moveFirstOf(page, 'projects', 'project', { label: /^Due/, value: '2030-12-24' })),
  ]
  const isWalk = (address: string) => isOfRoute(address, '/walks/[walkId]') && !isOfRoute(address, '/walks/new')
  walk = outAndKits.find(isWalk) as string
  const projects = await Promise.all(
    ['under-way', 'finished'].map((state) =>
      askApi<{ projects: { projectId: string; status: string }[] }>(house, `/projects?state=${state}`),
    ),
  )
  const projectThatIs = (wanted: string) =>
    `/projects/${projects.flatMap((list) => list.projects).find(({ status }) => status === wanted)?.projectId}`
  // One that is being stitched can be logged and finished; one that is finished shows what it took. The first thread found is held.
  const stitching = projectThatIs('stitching')
  screens = screensToSee([
    stitching,
    `${stitching}/log`,
    `${stitching}/finish`,
    projectThatIs('finished'),
    '/',
    '/projects',
    '/?q=0311',
    '/?q=kettle',
    staged,
    order,
    conversions,
    bulkPreview,
    bulkDone,
    choice,
    together,
    cut.form,
    cut.found,
    plan,
    count.sheet,
    count.differences,
    hoop,
    filing,
    ...outAndKits,
    ...shopping,
    ...archive,
    backup,
    ...doubles,
    ...readings,
    ...moved,
    '/cloth/yardage?what=Seven+Lanterns&kits=24',
    '/projects?within=8+in',
    ...unlinked,
  ])
  await page.context().close()
}, slow)

/** What is folded away is part of the screen too. No camera opens here, so what shows its picture stays shut. */
async function unfoldAll(page: Page) {
  const left = await page.evaluate(async () => {
    const folded = () =>
      [...document.querySelectorAll<HTMLElement>('main button[aria-expanded="false"]')].filter(
        (button) => button.checkVisibility({ visibilityProperty: true }) && !/camera|^Scan /i.test(button.textContent ?? ''),
      )
    // A press before the scripts run is lost, so there are some to spare.
    for (let turns = 200; turns > 0 && folded().length > 0; turns--) {
      for (const button of folded()) button.click()
      await new Promise((resolve) => setTimeout(resolve, 25))
    }
    return folded().length
  })
  expect(left, `still folded on ${page.url()}`).toBe(0)
}

const isOf = (routes: readonly string[], address: string) => routes.some((route) => isOfRoute(address, route))

/** Look at every screen, two pages at a time. A page that has been to many is shut: what it remembers of them makes it slow. */
async function lookAtEach(look: (page: Page, address: string) => Promise<void>): Promise<void> {
  const walkOn = async () => {
    for (let address = screens.next(); address !== undefined; ) {
      const page = await house.visit({ viewport: enlarged })
      page.setDefaultNavigationTimeout(60_000)
      await page.emulateMedia({ reducedMotion: 'reduce' })
      for (let looked = 0; looked < 20 && address !== undefined; looked++, address = screens.next()) {
        await page.goto(address)
        await screens.follow(page)
        await look(page, address)
      }
      await page.context().close()
    }
  }
  await Promise.all([walkOn(), walkOn()])
}

/** What is looked for, in the order of the table that tests/bench/accessible.bench.ts makes of it. */
const looksFor = {
  titles: 'a title of its own, that names the program (2.4.2)',
  narrow: 'enlarged four times: 320 wide (1.4.10)',
  focus: 'what has the focus is seen, on a phone (2.4.7, 2.4.11)',
  axeDesk: 'every rule but those of colour, 1280 wide',
  light: 'colours, by light',
  dark: 'colours, in the dark',
  moving: 'asked to move less (2.3.3)',
  spaced: 'text spaced out (1.4.12)',
  axePhone: 'the rules of layout, 390 wide',
} as const
type Look = keyof typeof looksFor
const found = new Map(Object.keys(looksFor).map((name) => [name as Look, { screens: 0, faults: [] as string[] }]))
function keep(name: Look, faults: readonly string[]) {
  const kept = found.get(name)
  if (!kept) return
  kept.screens += 1
  kept.faults.push(...faults)
}

/** Sums that end in a figure which is not the one they stand beside. */
const unsaid: string[] = []

/** `npm run bench accessible` asks for the figures. */
function keepTable() {
  const file = process.env.ACCESSIBLE_TABLE
  const rows = [...found].map(([name, { screens, faults }]) => ({ name: looksFor[name], screens, faults: faults.length }))
  if (file) writeFileSync(file, JSON.stringify(rows))
}

describe('every screen', () => {
  it(
    'has nothing that axe finds fault with, by light, in the dark and on a phone, fits any width, stands still, and leaves the navigation off paper',
    async () => {
      const judgeColours = colourJudge()
      await lookAtEach(async (page, address) => {
        const navigation = page.locator('nav[aria-label="Main"]')
        await navigation.waitFor({ state: 'attached' })
        const title = await page.title()
        keep('titles', / · Chart Larder$/.test(title) ? [] : [`${page.url()} is called ${title}`])
        await unfoldAll(page)
        unsaid.push(...(await findUnsaidSums(page)))
        keep('narrow', await findSideways(page))
        if (isOf(routesWithDock, address)) {
          await page.setViewportSize(phone)
          keep('focus', await findHiddenFocus(page))
        }
        // The same page, wider: the server sends a desk nothing else.
        await page.setViewportSize(desk)
        await unfoldAll(page)
        await keepFewOfEachShape(page)
        keep('axeDesk', await findViolations(page, { by: 'all but colours' }))
        keep('moving', await findMoving(page))
        keep('spaced', await findCutWhenSpaced(page))
        const { light, dark } = await judgeColours(page)
        keep('light', light)
        keep('dark', dark)
        await page.emulateMedia({ colorScheme: 'light', media: 'print' })
        expect(await navigation.isVisible(), address).toBe(false)
        await page.emulateMedia({ media: null })
        if (isOf(phoneRoutes, address)) {
          await page.setViewportSize(phone)
          keep('axePhone', await findViolations(page, { by: 'layout' }))
        }
        await page.setViewportSize(enlarged)
      })
      keepTable()
      expect([...found.values()].flatMap(({ faults }) => faults)).toEqual([])
    },
    slow,
  )

  it('writes out sums that end in what is shown', () => {
    expect(unsaid).toEqual([])
  })

  it('was among those looked at', () => {
    const unseen = listRoutes().filter(
      (route) => !onNetwork.includes(route) && !screens.found.some((address) => isOfRoute(address, route)),
    )
    expect(unseen).toEqual([])
  })
})

it('asks before it acts in a dialog that axe finds nothing wrong with', async () => {
  const page = await house.visit()
  await page.goto('/bring-in')
  await page.getByRole('button', { name: 'Undo notions.csv' }).click()
  await page.getByRole('dialog').waitFor()
  expect(await findViolations(page)).toEqual([])
  await page.keyboard.press('Escape')
  expect(await page.getByRole('dialog').count()).toBe(0)
})

it('asks where it may be in a sheet that axe finds nothing wrong with, on a phone', async () => {
  const page = await house.visit({ viewport: phone })
  await page.goto(walk)
  await page
    .getByRole('button', { name: /not there$/ })
    .first()
    .click()
  const asked = page.getByRole('dialog')
  await asked.getByRole('heading', { name: /: not there$/ }).waitFor()
  await expectNoSidewaysScroll(page)
  expect(await findViolations(page)).toEqual([])
})
