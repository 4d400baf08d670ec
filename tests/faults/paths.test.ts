import { mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import net from 'node:net'
import { tmpdir } from 'node:os'
import path from 'node:path'
import { afterAll, beforeAll, describe, expect, it, vi } from 'vitest'
import type { Database } from '#lib/db/client'
import { openEmpty } from '../database/engines'
import { addOneOfEverything } from '../database/one-of-everything'
import { addSmallWorld } from '../database/small-world'

vi.mock('next/headers', () => ({ cookies: async () => new Map(), headers: async () => new Headers() }))
// Files of a group share what is loaded: the stand-in is seen by what is loaded anew, and by nothing after this file.
vi.resetModules()
afterAll(() => {
  vi.resetModules()
})

const app = path.join(import.meta.dirname, '../../app')
/** Every address that answers with something of its own and takes a part of it from whoever asks. */
const routes = readdirSync(app, { recursive: true, encoding: 'utf8' }).filter(
  (file) => /(?:^|\/)route\.tsx?$/.test(file.split(path.sep).join('/')) && file.includes('[') && !file.includes('[[...'),
)
const secret = 'nobody is to read this'

/** Ways out of a folder: plain, encoded once and twice, of both kinds, cut off by a zero, absolute, and over long. */
const waysOut = (target: string): string[] => {
  const up = [
    '../',
    '..\\',
    '..%2f',
    '..%5c',
    '%2e%2e%2f',
    '%2e%2e/',
    '..%252f',
    '%c0%ae%c0%ae/',
    '....//',
    '..;/',
    '..\u2215',
    '．．／',
  ]
  return [
    ...up.flatMap((step) => [3, 1].map((many) => `${step.repeat(many)}${target}`)),
    ...['.webp', '.pdf', '.zip', '.csv', '%00.webp', '\0.pdf'].map((ending) => `../../${target}${ending}`),
    ...[
      `/${target}`,
      `file:///${target}`,
      `C:\\${target}`,
      `\\\\host\\${target}`,
      `~/${target}`,
      '.',
      '..',
      '',
      '\0',
      'x'.repeat(5_000),
    ],
    ...['http://127.0.0.1:1/', 'http://169.254.0.1/', '//127.0.0.1/', 'gopher://127.0.0.1:1/x', '__proto__', 'constructor'],
  ]
}

/** Addresses that stand for a file are asked for all of them, those that stand for a row for some. */
const fewWays = 6
const isOfFiles = (file: string) => /\[(?:name|file|kind|stagedId|readingId|fileId|givenId|jobId)\]/.test(file)

// Files lie in the same folders whichever engine is used.
describe('an address with a name in it', () => {
  const folder = mkdtempSync(path.join(tmpdir(), 'larder-paths-'))
  const data = path.join(folder, 'data')
  const asked: string[] = []
  const held = globalThis as { larderDatabase?: Database | undefined }
  const before = held.larderDatabase
  let opened: Awaited<ReturnType<typeof openEmpty>> = null

  beforeAll(async () => {
    opened = await openEmpty('sqlite')
    if (!opened) return
    const { database } = opened
    held.larderDatabase = database
    for (const inside of ['uploads/photos', 'uploads/files', 'backups', 'archives/given'])
      mkdirSync(path.join(data, inside), { recursive: true })
    for (const place of [folder, data, path.join(data, 'uploads')]) writeFileSync(path.join(place, 'secret.txt'), secret)
    vi.stubEnv('LARDER_DATA', data)
    vi.stubEnv('DATABASE_URL', database.url)
    await addSmallWorld(database)
    await addOneOfEverything(database)
    // Nobody is to be asked for anything on behalf of whoever asks.
    vi.spyOn(globalThis, 'fetch').mockImplementation(async (input) => {
      asked.push(String(input))
      throw new Error('nothing is fetched')
    })
    const real = net.Socket.prototype.connect
    vi.spyOn(net.Socket.prototype, 'connect').mockImplementation(function (this: net.Socket, ...args: never[]) {
      const to = (args.flat() as { port?: number | string }[])[0]
      asked.push(JSON.stringify(to))
      return (real as (...given: never[]) => net.Socket).apply(this, args)
    } as never)
  })
  afterAll(async () => {
    vi.restoreAllMocks()
    vi.unstubAllEnvs()
    held.larderDatabase = before
    await opened?.drop()
    rmSync(folder, { recursive: true, force: true })
  })

  it(`leads to nothing beside what it is for, at all ${routes.length} of them, and has nobody else asked`, {
    timeout: 300_000,
  }, async () => {
    const faults: string[] = []
    const log = vi.spyOn(console, 'error').mockImplementation((...said) => {
      faults.push(`logged ${said.map(String).join(' ').slice(0, 300)}`)
    })
    let calls = 0
    for (const file of routes) {
      const route = (await import(path.join(app, file))) as Record<string, unknown>
      const names = [...file.matchAll(/\[(?:\.\.\.)?(\w+)\]/g)].map(([, name]) => name as string)
      for (const name of waysOut('secret.txt').slice(0, isOfFiles(file) ? undefined : fewWays)) {
        const params = Promise.resolve(Object.fromEntries(names.map((part) => [part, name])))
        const get = route.GET as ((request: Request, context: object) => Promise<Response>) | undefined
        if (!get) continue
        calls += 1
        const said = `${file} of ${JSON.stringify(name).slice(0, 60)}`
        try {
          const answer = await get(new Request('http://127.0.0.1:4270/asked'), { params })
          const body = Buffer.from(await answer.arrayBuffer())
          if (answer.status >= 500) faults.push(`${answer.status} from ${said}`)
          if (body.includes(secret) || body.includes('SQLite format 3')) faults.push(`the secret from ${said}`)
        } catch (error) {
          if (!String((error as { digest?: unknown }).digest).startsWith('NEXT_'))
            faults.push(`${said}: ${(error as Error).stack?.slice(0, 400)}`)
        }
      }
    }
    log.mockRestore()
    expect(faults).toEqual([])
    expect(asked).toEqual([])
    expect(calls).toBeGreaterThan(routes.length * 4)
  })
})

it('no part of the program asks another machine for anything: pages ask their own server alone', () => {
  const root = path.join(import.meta.dirname, '../..')
  const ways =
    /(?<![\w.])fetch\(\s*([^,)]*)|(?<!^import type .*)from '(?:axios|undici|got|node-fetch|ws|(?:node:)?(?:https?|http2|dgram|dns|net|tls)(?:\/promises)?)'|new (?:WebSocket|EventSource)\b|sendBeacon|\.open\('(?:GET|POST|PUT)', ([^,)]*)/gm
  const faults: string[] = []
  let fetches = 0
  for (const top of ['app', 'lib'])
    for (const name of readdirSync(path.join(root, top), { recursive: true, encoding: 'utf8' })) {
      const file = `${top}/${name.split(path.sep).join('/')}`
      if (!/\.(?:tsx?|mjs)$/.test(file) || /\/(?:generated|built)\//.test(file)) continue
      // The door itself, which listens.
      if (/^app\/server?\.mjs$/.test(file)) continue
      for (const [found, fetched, opened] of readFileSync(path.join(root, file), 'utf8').matchAll(ways)) {
        fetches += 1
        const address = fetched ?? opened
        // A page's own script, and an address that begins at its own server's root or is one such handed down.
        const isOwn =
          address !== undefined && top === 'app' && /^(?:['"`]\/|`\$\{(?:address|api)\}|address\b)/.test(address.trim())
        // What a page of ours asked for (course.ts passes over everything else), and files of the build that it names.
        if (file === 'app/_offline/worker.ts' && /^(?:request|file)$/.test(address?.trim() ?? '')) continue
        if (!isOwn) faults.push(`${file}: ${found}`)
      }
    }
  expect(faults).toEqual([])
  expect(fetches).toBeGreaterThan(5)
})
