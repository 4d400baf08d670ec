import { afterEach, expect, it, vi } from 'vitest'
import { type DeviceThing, makeDeviceIndex } from '#lib/search/device-index'
import { findThreadsOnDevice } from '../../../app/_offline/threads-on-device'

const thing = (noun: DeviceThing['noun'], id: string, title: string, code: string): DeviceThing => ({
  ...{ noun, id, title, code, note: '', placeId: null },
})

afterEach(() => vi.unstubAllGlobals())

it('finds threads, and nothing else, in what the worker keeps', async () => {
  const things = [
    thing('thread', 't1', 'Larkholm 0311 Barn Red', '0311'),
    thing('thread', 't2', 'Larkholm 0317 Barn Owl', '0317'),
    thing('design', 'd1', 'Barn in Snow', ''),
  ]
  const index = JSON.stringify(makeDeviceIndex(things, []))
  vi.stubGlobal('caches', { open: async () => ({ match: async () => new Response(index) }) })
  expect(await findThreadsOnDevice('barn', 5)).toEqual([
    { threadId: 't1', name: 'Larkholm 0311 Barn Red' },
    { threadId: 't2', name: 'Larkholm 0317 Barn Owl' },
  ])
  expect(await findThreadsOnDevice('0311', 5)).toEqual([{ threadId: 't1', name: 'Larkholm 0311 Barn Red' }])
})

it('knows of nothing where nothing is kept, or the browser keeps nothing without HTTPS', async () => {
  vi.stubGlobal('caches', { open: async () => ({ match: async () => undefined }) })
  expect(await findThreadsOnDevice('barn', 5)).toBeNull()
  vi.unstubAllGlobals()
  expect(await findThreadsOnDevice('barn', 5)).toBeNull()
})
