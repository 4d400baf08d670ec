import { afterEach, describe, expect, it, vi } from 'vitest'
import { GET } from '../../../app/worker.js/route'

afterEach(() => vi.unstubAllEnvs())
const handedOut = async (env: Record<string, string | undefined>) => {
  for (const [name, value] of Object.entries(env)) vi.stubEnv(name, value)
  const response = await GET()
  return { response, text: await response.text() }
}

describe('the worker that is handed out', () => {
  it('is another for each build, looked at anew each time, and may ask this program alone', async () => {
    const { response, text } = await handedOut({ NODE_ENV: 'production' })
    expect(text).toMatch(/^\/\* .*\*\/\n/)
    expect(text).toContain('larder-pages')
    expect(response.headers.get('content-type')).toMatch(/^text\/javascript/)
    expect(response.headers.get('cache-control')).toBe('no-cache')
    expect(response.headers.get('content-security-policy')).toBe("default-src 'none'; connect-src 'self'")
  })

  it.each([{ NODE_ENV: 'production', LARDER_OFFLINE: 'no' }, { NODE_ENV: 'development' }])(
    'throws away what was kept, and itself, where it is not offered (%o)',
    async (env) => {
      const { text } = await handedOut(env)
      expect(text).not.toContain('larder-pages')

      // Run as a browser would, with stand-ins for what it is given there.
      const kept = new Set(['larder-pages', 'larder-known', 'serwist-precache-v2', 'of-something-else'])
      const heard = new Map<string, (event: unknown) => void>()
      const done: Promise<unknown>[] = []
      let isThere = true
      const scope = {
        addEventListener: (name: string, listener: (event: unknown) => void) => heard.set(name, listener),
        skipWaiting: () => {},
        registration: {
          unregister: async () => {
            isThere = false
          },
        },
      }
      new Function('self', 'caches', text)(scope, {
        keys: async () => [...kept],
        delete: async (name: string) => kept.delete(name),
      })
      heard.get('activate')?.({ waitUntil: (work: Promise<unknown>) => done.push(work) })
      await Promise.all(done)
      expect([...kept]).toEqual(['of-something-else'])
      expect(isThere).toBe(false)
    },
  )
})
