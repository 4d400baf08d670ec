// A larder in which a chart, a designer and a thread were each entered twice. By hand: 2 and 1 copies make 3, 2 and 3 skeins make 5.
import { beforeAll, expect, it } from 'vitest'
import { randomFrom } from '../unit/chart/random-covers'
import { shop } from './sample-files'
import { desk, expectNoSidewaysScroll, openHouse, phone } from './visitor'

const house = openHouse()

const heads = 'Chart,Design,Designer,Kind,Owner,Copies,Edition,Width,Height,Place'

/** One after another: of two alike, the one entered first is offered as the one to keep. */
const files: [kind: string, body: string][] = [
  ['charts', `${heads}\nRook Hill in Snow,,Corvin Ashdale,leaflet,${shop},2,,140,98,R1\n`],
  [
    'charts',
    `${heads}
Rook Hill in the Snow,,Corvin Ashdale,leaflet,${shop},1,second,140,98,R2
Oxmarsh Year Book,Kettle at Wend Cross,Hester Pindar,booklet,${shop},1,,90,60,R3
Oxmarsh Year Book,Plum Stone Rhyme,Hester Pindar,booklet,${shop},1,,50,50,R3
Salt Road,,Hester Pinder,leaflet,${shop},1,,80,80,R3
`,
  ],
  [
    'threads',
    `Owner,Maker,Line,Code,Colour name,Put-up,Skeins,Place
${shop},Larkholm,Stranded Cotton,0311,Pine,8 m,2,T1
${shop},Larkholm,Stranded Cotton,311,,8 m,3,T2
`,
  ],
]

beforeAll(async () => {
  for (const [kind, body] of files) {
    const answer = await fetch(`${house.server().url}/api/v1/imports?kind=${kind}`, {
      ...{ method: 'POST', headers: { 'content-type': 'text/csv' }, body },
    })
    expect(answer.status, await answer.text()).toBe(200)
  }
})

it('answers at the counter whether a chart was bought before, on a phone', async () => {
  const page = await house.visit({ viewport: phone })
  await page.goto('/charts')
  await page.getByRole('link', { name: 'Have I bought this before?' }).click()
  await page.getByRole('heading', { level: 1, name: 'Have I bought this before?' }).waitFor()
  const main = page.getByRole('main')
  const box = main.getByRole('searchbox')
  await box.fill('rok hill snow')
  await main.getByText('Likely yes: Rook Hill in Snow, 2 copies.').waitFor()
  await main.getByRole('link', { name: 'R1', exact: true }).waitFor()
  await expectNoSidewaysScroll(page)
  await box.fill('kettle at wend cross')
  await main.getByText('in it: Kettle at Wend Cross').waitFor()
  await main.getByRole('link', { name: 'R3', exact: true }).waitFor()
  await box.fill('Bell Tower Band')
  await main.getByText('No: nothing like it is held.').waitFor()
  // No chart has a cover yet: a photo is looked at, and that is said.
  const photo = { name: 'cover.png', mimeType: 'image/png', buffer: await randomFrom(1) }
  await main.getByLabel('Or a photo of its cover').setInputFiles(photo)
  await main.getByRole('button', { name: 'Look for this cover' }).click()
  await main.getByText('No chart has a cover on record yet', { exact: false }).waitFor()
})

it('makes one chart of two by what is chosen, finds it by the title given up, and takes it back', async () => {
  const page = await house.visit({ viewport: desk })
  await page.goto('/charts')
  await page.getByRole('link', { name: 'Doubles' }).click()
  const main = page.getByRole('main')
  await main.getByText('the same title, but for small words and signs').waitFor()
  await main.getByRole('link', { name: 'Look at both' }).click()
  await main.getByText('3 copies, 2 and 1 added up').waitFor()
  await main.getByRole('group', { name: 'Where it lives' }).getByLabel('R2').check()
  await main.getByRole('button', { name: 'Make them one' }).click()
  await main.getByText('Done: Rook Hill in the Snow is Rook Hill in Snow now.').waitFor()
  const merging = page.url()
  await main.getByRole('link', { name: 'Look at Rook Hill in Snow' }).click()
  await page.getByRole('heading', { level: 1, name: 'Rook Hill in Snow', exact: true }).waitFor()
  await main.getByText('3 copies', { exact: true }).waitFor()
  await main.getByText('1 copy entered as a double counted here').waitFor()
  await main.getByText('2 copies came in to R1').waitFor()
  await main.getByText('1 copy came in to R2').waitFor()
  await page.goto('/charts/had?q=rook+hill+in+the+snow')
  await main.getByText('Yes: 3 copies held.').waitFor()

  await page.goto(merging)
  await main.getByRole('button', { name: 'Take it back' }).click()
  await page.getByRole('dialog').getByRole('button', { name: 'Take it back' }).click()
  await main.getByText('Taken back: they are two again.').waitFor()
  await page.goto('/charts/had?q=rook+hill+in+the+snow')
  await main.getByText('Yes: 2 charts, 3 copies in all.').waitFor()
})

it('makes one designer and one thread of two, and remembers what is not the same', async () => {
  const page = await house.visit({ viewport: desk })
  await page.goto('/charts/doubles')
  const main = page.getByRole('main')
  await main.getByRole('button', { name: 'Make them one' }).click()
  const dialog = page.getByRole('dialog')
  await dialog.getByRole('button', { name: 'Merge' }).click()
  await dialog.getByText('Choose the one that is kept.').first().waitFor()
  await dialog.getByLabel('Hester Pindar').check()
  await dialog.getByRole('button', { name: 'Merge' }).click()
  await main.getByText('Done: Hester Pinder is Hester Pindar now.').waitFor()

  await page.goto('/charts/doubles')
  await main
    .getByRole('button', { name: /Not the same/ })
    .first()
    .click()
  await main.getByText('No two charts look like one').waitFor()

  await page.goto('/threads')
  await page.getByRole('link', { name: 'Doubles' }).click()
  await main.getByText('their codes differ in zeros', { exact: false }).waitFor()
  await main.getByRole('button', { name: 'Make them one' }).click()
  await dialog.getByLabel('Larkholm 0311 Pine').check()
  await dialog.getByRole('button', { name: 'Merge' }).click()
  await main.getByText('Done: Larkholm Stranded Cotton 311 is', { exact: false }).waitFor()
  const answer = await fetch(`${house.server().url}/api/v1/search?q=larkholm+311`)
  const { hits } = (await answer.json()) as { hits: { id?: string; title: string }[] }
  expect(hits.map(({ title }) => title)).toContain('Larkholm 0311 Pine')
  await main.getByRole('link', { name: /^Look at Larkholm/ }).click()
  await page.getByRole('heading', { level: 1, name: /0311/ }).waitFor()
  await main.getByText('5 skeins').first().waitFor()
})
