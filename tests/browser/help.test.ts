// Help where it is needed: the first errands, walked on a phone; a word by keyboard; the guide on paper; a photograph as it comes.
import sharp from 'sharp'
import { expect, it } from 'vitest'
import { expectNoSidewaysScroll, openHouse, phone } from './visitor'

const house = openHouse({ hasSample: true })

it('leads through three errands on the phone, waiting until each is really done', { timeout: 120_000 }, async () => {
  const page = await house.visit({ viewport: phone })
  await page.goto('/')
  const strip = page.getByRole('region', { name: 'The errand at hand' })
  const main = page.getByRole('main')
  await main.getByRole('heading', { name: 'How things stand' }).waitFor()
  expect(await strip.count()).toBe(0)

  await page.goto('/settings')
  await main.getByRole('button', { name: 'Begin', exact: true }).click()
  await strip.getByText('Errand 1 of 3, step 1 of 2').waitFor()
  await main.getByRole('searchbox').fill('snow')
  await strip.getByText('step 2 of 2').waitFor()
  await expectNoSidewaysScroll(page)
  await main.getByRole('region', { name: 'Charts' }).getByRole('link', { name: 'R2-3' }).first().click()
  await strip.getByText('Errand 1 of 3, done').waitFor()

  await strip.getByRole('button', { name: 'Next: What can I stitch tonight?' }).click()
  await strip.getByRole('link', { name: 'To Find' }).click()
  await main.getByRole('link', { name: /stitchable now$/ }).click()
  await strip.getByText('Errand 2 of 3, step 2 of 2').waitFor()
  // Left, it is nowhere; taken up again, it goes on where it was.
  await strip.getByRole('button', { name: 'Leave it for now' }).click()
  await page.goto('/guide')
  expect(await strip.count()).toBe(0)
  await main.getByRole('button', { name: 'Go on: What can I stitch tonight?' }).click()
  await page.waitForURL('**/charts?stitchableNow=1')
  await main.getByRole('link', { name: 'Acorn Reckoner' }).click()
  await strip.getByText('Errand 2 of 3, done').waitFor()

  await strip.getByRole('button', { name: 'Next: Log a finish' }).click()
  await page.goto('/projects')
  await strip.getByText('Errand 3 of 3, step 2 of 4').waitFor()
  await main.getByRole('link', { name: 'The Tallow House' }).first().click()
  await strip.getByText('step 3 of 4').waitFor()
  await main.getByRole('link', { name: 'Finish it' }).click()
  await strip.getByText('step 4 of 4').waitFor()
  // Reloaded, it has forgotten nothing, and is not taken in by that.
  await page.reload()
  await strip.getByText('step 4 of 4').waitFor()
  const noisy = {
    create: { width: 900, height: 600, channels: 3, background: '#666', noise: { type: 'gaussian', mean: 128, sigma: 40 } },
  } as const
  const photo = { name: 'done.jpg', mimeType: 'image/jpeg', buffer: await sharp(noisy).jpeg().toBuffer() }
  await main.getByLabel('Photo', { exact: true }).setInputFiles(photo)
  const thumb = page.waitForResponse(/\/photos\/.*-thumb\.webp$/)
  await main.getByRole('button', { name: 'Finish it' }).click()
  await strip.getByText('Errand 3 of 3, done').waitFor()
  expect((await thumb).headers()['content-type']).toBe('image/avif')

  const shown = main.getByRole('img', { name: 'The Tallow House, finished' })
  expect(await shown.getAttribute('style')).toMatch(/^background-image:\s*url\(["']?data:image\/webp;base64,/)
  expect([await shown.getAttribute('width'), await shown.getAttribute('height')]).toEqual(['240', '160'])
  await strip.getByRole('button', { name: 'Close' }).click()
  await page.goto('/')
  expect(await strip.count()).toBe(0)
})

it('says what a word means where it stands, to the keyboard, and prints its guide on one sheet', async () => {
  const page = await house.visit()
  await page.goto('/charts')
  const word = page.getByRole('link', { name: 'Count on hand' })
  await word.focus()
  const meaning = page.getByRole('tooltip')
  await meaning.waitFor()
  expect(await meaning.textContent()).toContain('to the inch')
  expect(await word.getAttribute('aria-describedby')).toBe(await meaning.getAttribute('id'))
  await page.keyboard.press('Escape')
  await meaning.waitFor({ state: 'detached' })
  await word.press('Enter')
  await page.waitForURL('**/glossary#count')
  await page.getByRole('searchbox', { name: 'A word, or what you would call it' }).fill('dye lot')
  await page.getByText('with “dye lot”').waitFor()
  expect(await page.getByRole('term').allInnerTexts()).toContain('Lot or dye lot')

  await page.goto('/guide')
  await page.evaluate(() => document.fonts.ready)
  for (const format of ['A4', 'Letter'] as const) {
    const pdf = await page.pdf({ format })
    expect(pdf.toString('latin1').match(/\/Type\s*\/Page\b/g), format).toHaveLength(1)
  }
})
