import { existsSync, mkdtempSync, rmSync, utimesSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import path from 'node:path'
import { afterAll, expect, it } from 'vitest'
import { whileHolding } from '#lib/db/reading/hold-file'

const folder = mkdtempSync(path.join(tmpdir(), 'larder-held-'))
const file = path.join(folder, 'r.held')
afterAll(() => rmSync(folder, { recursive: true, force: true }))

it('lets one at a time in, whoever else waits', async () => {
  let inside = 0
  let most = 0
  await Promise.all(
    Array.from({ length: 8 }, () =>
      whileHolding(file, async () => {
        inside += 1
        most = Math.max(most, inside)
        await new Promise((resolve) => setTimeout(resolve, 5))
        inside -= 1
      }),
    ),
  )
  expect(most).toBe(1)
  expect(existsSync(file)).toBe(false)
})

it('is let go of where the work breaks, and taken from whoever was killed while holding it', async () => {
  await expect(whileHolding(file, () => Promise.reject(new Error('broke')))).rejects.toThrow('broke')
  expect(existsSync(file)).toBe(false)
  writeFileSync(file, '')
  const longAgo = new Date(Date.now() - 60_000)
  utimesSync(file, longAgo, longAgo)
  expect(await whileHolding(file, async () => 'in')).toBe('in')
})
