// People: the first account, made in Settings; one more who sees only the shop's goods; a passkey made and used; a device signed out from
// another; a token used by a program; and the log of all that.
import { readFileSync } from 'node:fs'
import type { Page } from 'playwright-core'
import { beforeAll, expect, it } from 'vitest'
import { findViolations } from './axe'
import { shop } from './sample-files'
import { desk, expectNoSidewaysScroll, openHouse, phone } from './visitor'

const house = openHouse()

const nell = { name: 'Nell Oxtoby', password: 'drawer rook lantern thimble' }
const corrie = { name: 'Corrie Dunn', password: 'kettle moss oar bobbin' }
const corriesOwn = 'heron velvet gate 7 spool'

/** Passkeys want a name; the same server answers to this one. */
const byName = (path: string) => `${house.server().url.replace('127.0.0.1', 'localhost')}${path}`

/** As long as anything on a page is waited for. */
const soon = { timeout: 20_000 }

const alert = (page: Page) => page.getByRole('alert')
const done = (page: Page) => page.getByRole('main').getByRole('status')

async function signIn(page: Page, person: { name: string; password: string }, address = '/sign-in') {
  await page.goto(address)
  await page.getByRole('textbox', { name: 'Name' }).fill(person.name)
  await page.getByRole('textbox', { name: 'Password' }).fill(person.password)
  await page.getByRole('button', { name: 'Sign in', exact: true }).click()
  await page.getByRole('link', { name: person.name }).waitFor()
}

/** A device of the browser's own that makes sure of its person and holds passkeys, as a phone does. */
async function giveAuthenticator(page: Page) {
  const devtools = await page.context().newCDPSession(page)
  await devtools.send('WebAuthn.enable')
  await devtools.send('WebAuthn.addVirtualAuthenticator', {
    options: {
      protocol: 'ctap2',
      transport: 'internal',
      hasResidentKey: true,
      hasUserVerification: true,
      isUserVerified: true,
      automaticPresenceSimulation: true,
    },
  })
  return devtools
}

beforeAll(async () => {
  const rows = `Chart,Design,Kind,Owner,Width,Height\nWinter Post,Winter Post,leaflet,${shop},80,80\nQuiet Lane,Quiet Lane,leaflet,Hanne Drewitt,60,60\n`
  const answer = await fetch(`${house.server().url}/api/v1/imports?kind=charts`, {
    ...{ method: 'POST', headers: { 'content-type': 'text/csv' }, body: rows },
  })
  expect(answer.status, await answer.text()).toBe(200)
})

it('begins with an account made in Settings: this browser is signed in, every other is asked', async () => {
  const page = await house.visit({ viewport: phone })
  await page.goto('/account')
  await page.getByText('Nobody signs in here').waitFor()
  await page.goto('/settings')
  await page.getByRole('main').getByRole('link', { name: 'people', exact: true }).click()
  await page.getByRole('heading', { name: 'The first account' }).waitFor()
  await expectNoSidewaysScroll(page)

  const form = page.getByRole('form', { name: 'The first account' })
  await form.getByLabel('Name').fill(nell.name)
  await form.getByLabel('Password', { exact: false }).first().fill('nelloxtoby2026')
  await form.getByLabel('The password again').fill('nelloxtoby2026')
  await form.getByRole('button', { name: 'Add the first account' }).click()
  await alert(page)
    .getByText(/among the first that are guessed/)
    .waitFor()
  await form.getByLabel('Password', { exact: false }).first().fill(nell.password)
  await form.getByLabel('The password again').fill(nell.password)
  await form.getByRole('button', { name: 'Add the first account' }).click()

  await page.getByRole('heading', { name: 'Who signs in' }).waitFor()
  await page.getByRole('button', { name: nell.name }).waitFor()
  await expectNoSidewaysScroll(page)
  expect(await findViolations(page)).toEqual([])

  const other = await house.visit()
  await other.goto('/charts')
  await other.getByRole('heading', { name: 'Sign in' }).waitFor()
  expect(other.url()).toContain('/sign-in')
})

it('lets a helper in who sees the shop’s goods alone, without scripts too', async () => {
  const scripted = await house.visit()
  await signIn(scripted, nell)
  const kept = await scripted.context().storageState()
  const browser = scripted.context().browser()
  const context = await browser?.newContext({
    ...{ javaScriptEnabled: false, storageState: kept, baseURL: house.server().url, viewport: desk },
  })
  if (!context) throw new Error('there is no browser')
  const page = await context.newPage()
  await page.goto('/settings/people')
  const form = page.getByRole('form', { name: 'Add a person' })
  await form.getByLabel('Name').fill(corrie.name)
  await form.getByLabel('helper').check()
  await form.getByLabel('only those of some').check()
  await form.getByLabel('First password').fill('short')
  await form.getByRole('button', { name: 'Add this person' }).click()
  await alert(page)
    .getByText(/Tick whose goods they see/)
    .waitFor()
  expect(await page.content()).not.toContain('value="short"')
  await form.getByLabel(shop).check()
  await form.getByLabel('First password').fill(corrie.password)
  await form.getByRole('button', { name: 'Add this person' }).click()
  await page.getByText(`${corrie.name} can sign in now`).waitFor()
  await page.getByRole('cell', { name: `the goods of ${shop}` }).waitFor()
  await context.close()

  const hers = await house.visit()
  await signIn(hers, corrie)
  await hers.goto('/account')
  await hers.getByText(`You see the goods of ${shop}.`).waitFor()
  for (const path of ['/settings/people', '/settings/people/log', '/settings/people/log/log.csv'])
    expect((await hers.request.get(path)).status(), path).toBe(403)
}, 180_000)

it('keeps the only keeper a keeper', async () => {
  const page = await house.visit()
  await signIn(page, nell)
  await page.goto('/settings/people')
  await page.getByRole('button', { name: nell.name }).click()
  const form = page.getByRole('form', { name: `Change ${nell.name}` })
  await form.getByLabel('looker').check()
  await form.getByRole('button', { name: 'Keep the change' }).click()
  await alert(page).getByText(`${nell.name} is the only keeper.`, { exact: false }).waitFor()
})

it('changes a password for who knows the old one, and signs a device out from another', async () => {
  const [counter, home] = [await house.visit({ viewport: phone }), await house.visit()]
  await signIn(counter, corrie)
  await signIn(home, corrie)
  await home.goto('/account')
  expect(await findViolations(home)).toEqual([])
  const devices = home.getByRole('table', { name: 'Devices you are signed in on' })
  await devices.getByText('this one').waitFor()
  const before = await devices.getByRole('button', { name: /^Sign it out/ }).count()
  expect(before).toBeGreaterThanOrEqual(1)
  await devices
    .getByRole('button', { name: /^Sign it out/ })
    .first()
    .click()
  await expect.poll(() => devices.getByRole('button', { name: /^Sign it out/ }).count(), soon).toBe(before - 1)
  if (before > 1) await home.getByRole('button', { name: 'Sign out all others' }).click()
  await expect.poll(() => devices.getByRole('button', { name: /^Sign it out/ }).count(), soon).toBe(0)
  await counter.goto('/threads')
  await counter.getByRole('heading', { name: 'Sign in' }).waitFor()

  const form = home.getByRole('form', { name: 'Password' })
  await form.getByLabel('Your password now').fill('not the old one')
  await form.getByLabel('The new one', { exact: false }).first().fill(corriesOwn)
  await form.getByLabel('The new one again').fill(corriesOwn)
  await form.getByRole('button', { name: 'Change the password' }).click()
  await form.getByText('That is not your password.').first().waitFor()
  await form.getByLabel('Your password now').fill(corrie.password)
  await form.getByRole('button', { name: 'Change the password' }).click()
  await done(home).getByText('Your password is changed.', { exact: false }).waitFor()
  await signIn(counter, { ...corrie, password: corriesOwn })
})

it('makes a passkey and signs in with it, with no name typed', async () => {
  const numbers = await house.visit()
  await signIn(numbers, nell)
  await numbers.goto('/account')
  await numbers.getByText(/the address of this page is numbers/).waitFor()

  const page = await house.visit()
  await giveAuthenticator(page)
  await signIn(page, nell, byName('/sign-in'))
  await page.goto(byName('/account'))
  const form = page.getByRole('form', { name: 'Add a passkey' })
  await form.getByLabel('What to call it').fill('Counter machine')
  await form.getByLabel('Your password').fill('not hers at all')
  await form.getByRole('button', { name: 'Add a passkey' }).click()
  await form.getByText('That is not your password.').waitFor()
  await form.getByLabel('Your password').fill(nell.password)
  await form.getByRole('button', { name: 'Add a passkey' }).click()
  await page.getByText('“Counter machine” is kept.', { exact: false }).waitFor()
  const passkeys = page.getByRole('table', { name: 'Your passkeys' })
  await passkeys.getByText('on that one device only').or(passkeys.getByText('no copy of it yet')).waitFor()
  expect(await findViolations(page)).toEqual([])

  await page.getByRole('button', { name: 'Sign out', exact: true }).click()
  await page.getByRole('heading', { name: 'Sign in' }).waitFor()
  await page.goto(byName('/charts'))
  await page.getByRole('button', { name: 'Sign in with a passkey' }).click()
  await page.getByRole('heading', { name: 'Charts', level: 1 }).waitFor()
  await page.getByRole('link', { name: nell.name }).waitFor()
})

it('gives a program a token that does as much as it says, until it is taken back', async () => {
  const page = await house.visit()
  await signIn(page, nell)
  await page.goto('/account')
  const form = page.getByRole('form', { name: 'Make a token' })
  const make = async (label: string, scope: string) => {
    await form.getByLabel('What it is for').fill(label)
    await form.getByLabel('It may').selectOption({ label: scope })
    await form.getByLabel('Your password').fill(nell.password)
    await form.getByRole('button', { name: 'Make a token' }).click()
    await form.getByText(`${label} is made.`, { exact: false }).waitFor()
    return (await form.locator('code').textContent()) ?? ''
  }
  const [till, webShop] = [await make('Till', 'look'), await make('Web shop', 'look and change')]
  const api = (path: string, token: string | null, body?: object) =>
    fetch(`${house.server().url}/api/v1${path}`, {
      headers: {
        ...(token !== null && { authorization: `Bearer ${token}` }),
        ...(body && { 'content-type': 'application/json' }),
      },
      ...(body && { method: 'POST', body: JSON.stringify(body) }),
    })
  const owners = await api('/owners', till)
  expect(owners.status).toBe(200)
  const { owners: listed } = (await owners.json()) as { owners: { id: string; name: string }[] }
  const notion = { ownerId: listed.find(({ name }) => name === shop)?.id, kind: 'needle', name: 'Tapestry needles', count: 6 }
  expect((await api('/notions', till, notion)).status).toBe(403)
  expect((await api('/notions', webShop, notion)).status).toBe(201)
  expect((await api('/owners', null)).status).toBe(401)
  expect((await api('/owners', `${till.slice(0, -1)}`)).status).toBe(401)

  await page.goto('/account')
  const tokens = page.getByRole('table', { name: 'Your tokens' })
  expect(await page.content()).not.toContain(till)
  await tokens.getByRole('button', { name: 'Take it back Till' }).click()
  await expect.poll(() => tokens.getByText('Till', { exact: true }).count(), soon).toBe(0)
  expect((await api('/owners', till)).status).toBe(401)
  expect((await api('/owners', webShop)).status).toBe(200)
})

it('tells a keeper who did what, by person and by day, on screen and as a file', async () => {
  const page = await house.visit()
  await signIn(page, nell)
  await page.goto('/settings/people/log')
  const log = page.getByRole('table', { name: 'Who did what, the latest first' })
  const row = (text: RegExp) => log.getByRole('row').filter({ hasText: text })
  await row(/Made a token “Web shop”/).waitFor()
  await row(/Added a passkey “Counter machine”/).waitFor()
  await row(/By passkey/)
    .first()
    .waitFor()
  const change = row(/Changed .*notion/).first()
  await change.getByRole('link', { name: /^change / }).click()
  await page.getByRole('heading', { name: /^Change \d/ }).waitFor()
  expect(await findViolations(page)).toEqual([])
  await page.setViewportSize(phone)
  await expectNoSidewaysScroll(page)
  await page.setViewportSize(desk)

  await page.getByLabel('Person').selectOption({ label: corrie.name })
  await page.waitForURL(/person=/)
  await row(/Set their own password/).waitFor()
  expect(await row(/Web shop/).count()).toBe(0)

  const downloading = page.waitForEvent('download')
  await page.getByRole('link', { name: 'As a CSV file' }).click()
  const file = readFileSync(await (await downloading).path(), 'utf8')
  expect(file).toMatch(/^\uFEFFWhen,Who,From,Kind,What,Change,Detail\r\n/)
  expect(file).toContain('Set their own password')
  expect(file).not.toContain('Web shop')
  expect(file).not.toContain('larder_')
})
