import type { DeviceIndex } from '#lib/search/device-index'

const mostLooked = 400

/**
 * Threads that words lead to, by the index the worker keeps on this device; null where it keeps none: never seen with a connection, or
 * browsers' own stores shut to a page without HTTPS.
 */
export async function findThreadsOnDevice(words: string, most: number): Promise<{ threadId: string; name: string }[] | null> {
  try {
    const kept = await (await caches.open('larder-known')).match('/offline/things')
    if (!kept) return null
    const { searchDevice } = await import('#lib/search/device-index')
    return searchDevice((await kept.json()) as DeviceIndex, words, mostLooked)
      .hits.filter(({ noun }) => noun === 'thread')
      .slice(0, most)
      .map(({ id, title }) => ({ threadId: id, name: title }))
  } catch {
    return null
  }
}
