import type { Page } from 'playwright-core'
import { expect, vi } from 'vitest'
import { askApi } from './api-steps'
import { leaflet } from './leaflet'
import type { House } from './visitor'

/** Paste a key and come to what was read of it. */
export async function pasteKey(page: Page, text: string) {
  await page.goto('/charts/read')
  await page.getByLabel('The key’s text').fill(text)
  await page.getByRole('button', { name: 'Read the text' }).click()
  await page.getByRole('heading', { name: 'Save it' }).waitFor()
}

type Reading = { readingId: string; version: number; state: string; says: string | null }

/** Send the leaflet's PDF over the API, and wait until it is read. */
async function readLeaflet(house: House, title: string): Promise<Reading> {
  const form = new FormData()
  form.set('file', new File([new Uint8Array(await leaflet(title))], `${title}.pdf`, { type: 'application/pdf' }))
  const answer = await fetch(`${house.server().url}/api/v1/readings`, { method: 'POST', body: form })
  expect(answer.status, await answer.clone().text()).toBe(201)
  const { readingId } = (await answer.json()) as Reading
  const isRead = async () => {
    const reading = await askApi<Reading>(house, `/readings/${readingId}`)
    expect(reading.state, reading.says ?? title).toBe('read')
    return reading
  }
  return vi.waitFor(isRead, { timeout: 60_000, interval: 250 })
}

/**
 * Keys read over the API, with a line nobody could read and a thread that would be new: a text and a PDF to be looked over, and a PDF that
 * is saved: the addresses of all, and of the chart that was made.
 */
export async function readKeys(house: House): Promise<string[]> {
  const lines = ['The Ferry House', 'Larkholm Stranded Cotton', '● 0311 Deep Mussel 2', '× 9911 Kiln Orange 2', '? ~ ?? 7']
  const { readingId } = await askApi<Reading>(house, '/readings/text', { text: lines.join('\n') })
  const toLookOver = await readLeaflet(house, 'Plum Tree Census')
  const saved = await readLeaflet(house, 'Great Barge')
  const { chartId } = await askApi<{ chartId: string }>(house, `/readings/${saved.readingId}/save`, {
    version: saved.version,
    target: {
      ...{ kind: 'chart', title: 'Great Barge', chartKind: 'file' },
      designs: [{ index: 0, title: 'Great Barge', lists: [{ index: 0, name: 'Cotton' }] }],
    },
  })
  const readings = [readingId, toLookOver.readingId, saved.readingId].map((id) => `/charts/read/${id}`)
  return [...readings, `/charts/${chartId}`]
}
