import type { Locator, Page } from 'playwright-core'
import { expect, it } from 'vitest'
import { rowOf } from './bring-in-steps'
import { showStockOf } from './load-sample'
import { readSample, shop, threadRows } from './sample-files'
import { desk, expectNoSidewaysScroll, openHouse, phone } from './visitor'

const house = openHouse({ hasSample: true })

async function atFind(viewport = desk): Promise<Page> {
  const page = await house.visit({ viewport })
  await page.goto('/')
  await showStockOf(page, shop)
  return page
}

const textOf = async (seen: Locator): Promise<string> => (await seen.allInnerTexts()).join('\n')

async function openHit(page: Page, words: string, name: string): Promise<Locator> {
  await page.goto('/')
  await page.getByRole('searchbox').fill(words)
  await page
    .getByRole('status')
    .filter({ hasText: `for “${words}”` })
    .waitFor()
  await page.getByRole('main').getByRole('link', { name }).first().click()
  await page.getByRole('heading', { level: 1, name: name.split(' ').slice(-1)[0] as string }).waitFor()
  return page.getByRole('main')
}

const skeinsOf = (code: string): number =>
  threadRows(code)
    .filter((row) => row.Owner === shop)
    .reduce((sum, row) => sum + Number(row.Skeins), 0)

async function openProject(page: Page, title: string): Promise<Locator> {
  await page.getByRole('navigation', { name: 'Main' }).getByRole('link', { name: 'Projects' }).click()
  await page.getByRole('table').getByRole('link', { name: title }).first().click()
  await page.getByRole('heading', { level: 1, name: title }).waitFor()
  return page.getByRole('main')
}

it('receives a delivery at the drawers though the network drops in between: nothing is lost, nothing comes in twice', async () => {
  const page = await atFind(phone)
  await page.getByRole('navigation', { name: 'Main' }).getByText('More').click()
  await page.getByRole('navigation', { name: 'Main' }).getByRole('link', { name: 'Threads' }).click()
  await page.getByRole('link', { name: 'Enter a delivery' }).click()
  const field = page.getByLabel(/^Code, name or barcode/)
  await field.fill('0311')
  await field.press('Enter')
  const card = page.getByRole('form', { name: /0311 Deep Mussel/ })
  await card.getByText('T2.2').first().waitFor()
  await card.getByRole('button', { name: 'One more' }).click()
  await expectNoSidewaysScroll(page)

  // The server takes it in, and the network goes before its answer is heard.
  let lost = 0
  await page.route('**/api/v1/deliveries', async (route) => {
    if (lost > 0) return route.fallback()
    lost += 1
    const answer = await route.fetch()
    expect(answer.ok()).toBe(true)
    await page.context().setOffline(true)
    await route.abort()
  })
  await card.getByRole('button', { name: 'Put in 2 skeins' }).click()
  const entered = page.getByRole('region', { name: 'Entered' }).getByRole('listitem')
  await page.getByText('No connection. 1 entry kept in this browser.').waitFor()
  await entered.filter({ hasText: '0311' }).getByText('waiting to be sent').waitFor()

  // Meanwhile the next is written down.
  await field.fill('0742')
  await field.press('Enter')
  const unread = page.getByRole('region', { name: 'Written down, not looked up yet' })
  await unread.getByText('0742').first().waitFor()

  await page.context().setOffline(false)
  await entered.filter({ hasText: '0311' }).getByText('in', { exact: true }).waitFor({ timeout: 60_000 })
  await unread.getByRole('button', { name: 'Look up 0742' }).click()
  await page.getByRole('button', { name: 'Put in 1 skein' }).click()
  await entered.filter({ hasText: '0742' }).getByText('in', { exact: true }).waitFor()
  await expectNoSidewaysScroll(page)

  const deep = await openHit(page, '0311', 'Larkholm 0311')
  await deep
    .getByText(`${skeinsOf('0311') + 2} skeins`)
    .first()
    .waitFor()
  const dark = await openHit(page, '0742', 'Larkholm 0742')
  await dark
    .getByText(`${skeinsOf('0742') + 1} skeins`)
    .first()
    .waitFor()
})

it('changes many threads at once after a look at what would change, and takes it back', async () => {
  const shaded = readSample('threads').filter((row) => row.Owner === shop && row.Line === 'Shaded Cotton')
  const held = shaded.filter((row) => Number(row.Skeins) > 0 || row.Part !== '')
  const page = await atFind()
  await page.getByRole('navigation', { name: 'Main' }).getByRole('link', { name: 'Threads' }).click()
  await page.getByRole('link', { name: 'Change many at once' }).click()
  await page.getByRole('heading', { level: 1, name: 'Change many threads' }).waitFor()
  await page.getByLabel('Line', { exact: true }).selectOption({ label: `Larkholm Shaded Cotton (${shaded.length})` })
  await page.getByLabel(`All ${shaded.length} threads found`).check()
  await page.getByLabel('New home').fill('T4.3')
  await page.getByRole('button', { name: 'Look at what would change' }).click()
  await page.getByText('Nothing is written yet.').waitFor()
  const before = page.getByRole('table', { name: /before and after/ })
  expect(await textOf(rowOf(before, held[0]?.Code as string))).toMatch(/T4\.4[\s\S]*T4\.3/)
  await expectNoSidewaysScroll(page)
  await page.getByRole('button', { name: `Change ${held.length} lines` }).click()
  await page.getByText(`Done: ${held.length} lines changed.`).waitFor()

  // A page that has only just come may be drawn once more, and what was pressed meanwhile is shut again.
  const asked = page.getByRole('dialog').getByRole('button', { name: 'Take it back' })
  await expect
    .poll(
      async () => {
        if (!(await asked.isVisible())) await page.getByRole('button', { name: 'Take it back' }).first().click()
        return asked.isVisible()
      },
      { timeout: 20_000 },
    )
    .toBe(true)
  await asked.click()
  await page.getByText(`Taken back: ${held.length} lines as before.`).waitFor()
  const main = await openHit(page, 'T4.4', 'T4.4')
  await main.getByText(`${held.length} threads`).first().waitFor()
})

it('works a project in another thread, and what it is promised follows', async () => {
  const page = await atFind()
  const design = await openHit(page, 'kettle at wend', 'Kettle at Wend Cross')
  await design.getByRole('link', { name: 'Look for stand-ins' }).click()
  await page.getByRole('heading', { level: 1, name: 'Swaps for Kettle at Wend Cross' }).waitFor()
  const choice = page.getByLabel('For', { exact: true })
  const options = await choice.getByRole('option').allInnerTexts()
  await choice.selectOption({ label: options.find((option) => option !== 'no project') as string })
  await page.waitForURL('**project=*')
  const madder = page.getByRole('article').filter({ hasText: '1204 Madder' }).first()
  await madder.getByRole('button', { name: 'Work this project in it' }).click()
  const form = madder.getByRole('form', { name: /^Work the project in/ })
  const standIn = /(\d{4})/.exec((await form.getAttribute('aria-label')) ?? '')?.[1] as string
  await form.getByLabel('Why').fill('seen by daylight')
  await form.getByRole('button', { name: 'Keep it with the project' }).click()
  await madder.getByText('(chosen for the project)').waitFor()

  const project = await openProject(page, 'Kettle at Wend Cross')
  const needs = project.getByRole('table', { name: /^What the project needs/ })
  await rowOf(needs, standIn).getByText('instead of Larkholm 1204').waitFor()
  // The stand-in may be promised already: what comes next must wait for this answer, or it goes by the project as it was.
  const answered = page.waitForResponse((response) => response.request().method() === 'POST' && response.ok())
  await project.getByRole('button', { name: /^(?:Plan it: promise what is free|Promise what is free now)$/ }).click()
  await answered
  await page.locator('form[aria-busy="true"]').waitFor({ state: 'detached' })
  const promised = project.getByRole('table', { name: /^Thread promised to this project/ })
  await rowOf(promised, standIn).waitFor()
  await expectNoSidewaysScroll(page)

  // As charted again: what was set aside of the other thread is free.
  await project.getByRole('button', { name: 'Work Larkholm 1204 Madder in …' }).click()
  const back = project.getByRole('form', { name: 'What Larkholm 1204 Madder is worked in' })
  await back.getByLabel(/is worked in$/).selectOption({ label: 'Larkholm 1204 Madder, as charted' })
  await back.getByRole('button', { name: 'Work it so' }).click()
  await rowOf(needs, 'instead of').waitFor({ state: 'detached' })
  expect(await textOf(promised)).not.toContain(standIn)
})

it('says at once, on project, thread, design and Find, that a promise no longer holds', async () => {
  const page = await atFind()
  const said = 'A promise no longer holds'
  const project = await openProject(page, 'Kettle at Wend Cross')
  const promised = project.getByRole('table', { name: /^Thread promised to this project/ })
  const promise = project.getByRole('button', { name: 'Promise what is free now' })
  await rowOf(promised, '0311').or(promise).first().waitFor()
  if ((await rowOf(promised, '0311').count()) === 0) await promise.click()
  await rowOf(promised, '0311').waitFor()
  expect(await page.getByText(said).count()).toBe(0)

  const thread = await openHit(page, '0311', 'Larkholm 0311')
  await thread
    .getByRole('button', { name: /^What to do with/ })
    .first()
    .click()
  await thread.getByRole('link', { name: 'Correct the figure' }).first().click()
  const form = page.getByRole('form', { name: 'Correct the figure' })
  await form.getByLabel('Whole skeins').fill('0')
  await form.getByLabel(/^Why/).fill('lost')
  await form.getByRole('button', { name: 'Correct it' }).click()
  await thread.getByText(said).waitFor()

  await thread.getByRole('link', { name: 'Kettle at Wend Cross' }).first().click()
  await page.getByRole('heading', { level: 1, name: 'Kettle at Wend Cross' }).waitFor()
  await page.getByText(said).waitFor()
  await page.getByRole('link', { name: 'the design' }).click()
  await page.getByRole('heading', { name: 'Cloth', level: 2 }).waitFor()
  await page.getByText(said).waitFor()
  await page.getByRole('navigation', { name: 'Main' }).getByRole('link', { name: 'Find' }).click()
  await page.getByRole('link', { name: '1 promise no longer holds' }).click()
  await page.getByRole('heading', { level: 1, name: 'Kettle at Wend Cross' }).waitFor()
  await expectNoSidewaysScroll(page)
})

it('puts down an order from the list of what to buy, and takes it into stock when it comes', async () => {
  const page = await atFind()
  await page.getByRole('navigation', { name: 'Main' }).getByRole('link', { name: 'Buy' }).click()
  await page.getByLabel('Add a design').fill('Kettle at Wend Cross')
  await page.getByRole('button', { name: 'Find', exact: true }).click()
  await page.getByRole('list', { name: 'Found' }).getByRole('link', { name: 'Add Kettle at Wend Cross' }).click()
  const list = page.getByRole('table', { name: 'To buy: Larkholm' })
  expect(skeinsOf('0905')).toBe(0)
  await rowOf(list, '0905').waitFor()
  expect(await textOf(rowOf(list, '0905'))).toContain('1 skein')
  await page.getByRole('form', { name: 'Order from Larkholm' }).getByRole('button', { name: 'Put down as ordered' }).click()
  await rowOf(list, '0905').getByText('enough is on order').waitFor()

  await page.getByRole('navigation', { name: 'Parts of buying' }).getByRole('link', { name: 'On order' }).click()
  await page.getByRole('link', { name: /^Take in Larkholm 0905/ }).click()
  const form = page.getByRole('form', { name: 'Take in what came' })
  await form.getByLabel('Lives in').fill('T2.4')
  await form.getByRole('button', { name: 'Take it in' }).click()
  await page.getByRole('table', { name: 'Orders closed lately' }).getByText('0905').waitFor()

  const main = await openHit(page, '0905', 'Larkholm 0905')
  const stock = main.getByRole('table', { name: /^Stock of/ })
  expect(await textOf(stock)).toMatch(/1 skein[\s\S]*T2\.4/)
  await main.getByText('Nothing of it is on order.').waitFor()
})
