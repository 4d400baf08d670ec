// A drawer of four compartments, each with its thread, and a new colour that falls among them: by hand, it is put in, and what follows goes on.
import { beforeAll, expect, it } from 'vitest'
import { shop } from './sample-files'
import { expectNoSidewaysScroll, openHouse, phone } from './visitor'

const house = openHouse()

const compartments = ['T5.1', 'T5.2'].flatMap((drawer) => [1, 2, 3].map((number) => `${drawer}-0${number},compartment,${drawer}`))
const places = ['Label,Kind,Inside', 'T5,cabinet,', 'T5.1,drawer,T5', 'T5.2,drawer,T5', ...compartments].join('\n')
const lies = [
  ['0001', 'T5.1-01'],
  ['0002', 'T5.1-02'],
  ['0004', 'T5.1-03'],
  ['0010', 'T5.2-01'],
  ['0011', 'T5.2-02'],
]
const threads = [
  'Owner,Maker,Line,Code,Have,Place',
  ...lies.map(([code, place]) => `${shop},Larkholm,Stranded Cotton,${code},2,${place}`),
].join('\n')

beforeAll(async () => {
  for (const [kind, body] of Object.entries({ places, threads })) {
    const answer = await fetch(`${house.server().url}/api/v1/imports?kind=${kind}`, {
      ...{ method: 'POST', headers: { 'content-type': 'text/csv' }, body },
    })
    expect(answer.status, await answer.text()).toBe(200)
  }
})

it('makes room compartment by compartment, with a drawer put in, and takes it back', async () => {
  const page = await house.visit({ viewport: phone })
  await page.goto('/places/filing')
  const main = page.getByRole('main')
  await main.getByLabel('Line').selectOption({ label: 'Larkholm Stranded Cotton' })
  await main.getByLabel('Codes to come in').fill('0003')
  await page.keyboard.press('Enter')
  await main.getByText('Room for 1 more code').waitFor()
  await expectNoSidewaysScroll(page)
  // In a drawer put in nothing shifts; pushed on, 0010 and 0011 make way.
  await main.getByRole('link', { name: 'Push on to later drawers only' }).click()
  await main.getByText('1 line changes drawer; 2 lines shift inside their drawer.', { exact: false }).waitFor()
  const inside = main.getByRole('row', { name: /Inside T5\.2/ })
  expect((await inside.getByRole('listitem').allInnerTexts()).map((text) => text.replace(/\s+/g, ' '))).toEqual([
    '0011 T5.2-02 to T5.2-03',
    '0010 T5.2-01 to T5.2-02',
  ])
  await main.getByRole('link', { name: /Put in one more drawer, T5\.3/ }).click()
  await main.getByText('1 line changes drawer; 0 lines shift inside their drawer.', { exact: false }).waitFor()
  await main.getByText('T5.3-01 to T5.3-03').waitFor()
  await main.getByRole('button', { name: 'Give 1 batch their new home' }).click()
  await page.waitForURL('**/threads/bulk/done/**')
  const placed = async (label: string) => {
    const answer = await fetch(`${house.server().url}/api/v1/scan?text=${label}`)
    const { things } = (await answer.json()) as { things: { id: string }[] }
    const place = await fetch(`${house.server().url}/api/v1/places/${things[0]?.id}`)
    return ((await place.json()) as { threads: { thread: { code: string } }[] }).threads.map(({ thread }) => thread.code)
  }
  expect(await placed('T5.3-01')).toEqual(['0004'])
  await main.getByRole('button', { name: 'Take it back' }).click()
  await page.getByRole('dialog').getByRole('button', { name: 'Take it back' }).click()
  await main.getByText(/^Taken back/).waitFor()
  await expect.poll(() => placed('T5.1-03'), { timeout: 20_000 }).toEqual(['0004'])
})
