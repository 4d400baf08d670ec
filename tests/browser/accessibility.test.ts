import type { Page } from 'playwright-core'
import { beforeAll, describe, expect, it } from 'vitest'
import { askApi } from './api-steps'
import { giveArchive } from './archive-steps'
import { colourJudge, findViolations, keepFewOfEachShape } from './axe'
import { makeBackup } from './backup-steps'
import { openPreview } from './bring-in-steps'
import { openShopping } from './buying-steps'
import { addHoop, openCounted } from './count-steps'
import { keepPlan, openChoiceAnswer, openFoundCut, openTogetherAnswer } from './cut-steps'
import { mergeDoubles } from './double-steps'
import { openFilingPlan, openOutAndKits } from './out-and-kit-steps'
import { readKeys } from './reading-steps'
import { isOfRoute, listRoutes, screensToSee } from './screens'
import { changeAsShown, openBulkPreview, openConversionPreview, openOrder } from './thread-steps'
import { desk, expectNoSidewaysScroll, openHouse, phone } from './visitor'

const house = openHouse({ hasSample: true })
const slow = 1_200_000

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

/** No link leads to these. */
const unlinked = [
  '/archive/given/long-gone',
  '/archive/jobs/long-gone',
  '/bring-in/sample',
  '/bring-in/jobs/long-gone',
  '/reference',
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
    '/cloth/yardage?what=Seven+Lanterns&kits=24',
    '/projects?within=8+in',
    ...unlinked,
  ])
  await page.context().close()
}, slow)

/** What is folded away is part of the screen too. */
async function unfoldAll(page: Page) {
  // No camera opens here, so what shows its picture stays shut.
  const folded = page.locator('main button[aria-expanded="false"]:visible').filter({ hasNotText: /camera|^Scan /i })
  const pressAll = () => folded.evaluateAll((buttons) => buttons.map((button) => (button as HTMLElement).click()).length)
  // A press before the scripts run is lost, so there are some to spare.
  for (let left = 100; left > 0 && (await pressAll()) > 0; left--) await page.waitForTimeout(50)
  expect(await folded.count(), `still folded on ${page.url()}`).toBe(0)
}

/** Look at every screen, two pages at a time. */
async function lookAtEach(look: (page: Page, address: string) => Promise<void>): Promise<void> {
  const walkOn = async () => {
    const page = await house.visit()
    page.setDefaultNavigationTimeout(60_000)
    for (let address = screens.next(); address !== undefined; address = screens.next()) {
      await page.goto(address)
      await screens.follow(page)
      await look(page, address)
    }
    await page.context().close()
  }
  await Promise.all([walkOn(), walkOn()])
}

describe('every screen', () => {
  it(
    'has nothing that axe finds fault with, by light, in the dark and on a phone, fits that, and leaves the navigation off paper',
    async () => {
      const found: string[] = []
      const [judgeLight, judgeDark] = [colourJudge(), colourJudge()]
      await lookAtEach(async (page, address) => {
        const navigation = page.getByRole('navigation', { name: 'Main' })
        await navigation.waitFor()
        await unfoldAll(page)
        // The same page, narrower: the server sends a phone nothing else.
        await page.setViewportSize(phone)
        await unfoldAll(page)
        await expectNoSidewaysScroll(page)
        await page.setViewportSize(desk)
        await keepFewOfEachShape(page)
        found.push(...(await findViolations(page, { but: 'colours' })), ...(await judgeLight(page)))
        await page.emulateMedia({ media: 'print' })
        expect(await navigation.count(), address).toBe(0)
        await page.emulateMedia({ colorScheme: 'dark', media: null })
        // Buttons fade from one colour to the other.
        await page.waitForTimeout(250)
        found.push(...(await judgeDark(page)))
        if (phoneRoutes.some((route) => isOfRoute(address, route))) {
          await page.setViewportSize(phone)
          found.push(...(await findViolations(page, { but: 'colours' })))
        }
        await page.emulateMedia({ colorScheme: 'light', media: null })
        await page.setViewportSize(desk)
      })
      expect(found).toEqual([])
    },
    slow,
  )

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
