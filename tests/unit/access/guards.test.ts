import { readdirSync, readFileSync } from 'node:fs'
import path from 'node:path'
import { describe, expect, it } from 'vitest'
import { rightOf } from '#api/operation'
import { operations } from '#api/operations'
import { admit } from '#lib/access/admit'

const app = path.join(import.meta.dirname, '../../../app')
const filesIn = (folder: string): string[] =>
  readdirSync(path.join(app, folder), { recursive: true, encoding: 'utf8' })
    .map((file) => path.join(folder, file))
    .filter((file) => /\.tsx?$/.test(file))
    .sort()
const read = (file: string): string => readFileSync(path.join(app, file), 'utf8')

/** The exported functions of a file with their bodies, as far as the next export. */
function exported(text: string): { name: string; body: string }[] {
  const starts = [...text.matchAll(/^export (?:default )?async function (\w+)/gm)]
  return starts.map((start, at) => ({
    name: start[1] as string,
    body: text.slice(start.index, starts[at + 1]?.index ?? text.length),
  }))
}

/** Where house is kept. A form may be sent to any page’s address, so each action asks for itself. */
const keepersFolders = ['settings', 'archive', '_backups']
/** What in these folders is anybody’s own, or daily work that the write itself asks for. */
const notKeepers = new Set([
  // Of this device alone.
  'chooseThemeAction',
  'chooseSlashAction',
  'saveTimeAwayAction',
  'removeTimeAwayAction',
  'saveOccasionAction',
  'removeOccasionAction',
  // What the format of an archive is, for whoever writes a program.
  'ArchiveFormatPage',
  // Shows what is set; each of its forms asks for itself.
  'SettingsPage',
])
const asksForKeeper = /requireRight\('keep'\)|mayDo\(who\(\), 'keep'\)/

describe('a keeper’s work', () => {
  const files = keepersFolders.flatMap(filesIn)
  const actions = files.filter((file) => read(file).startsWith("'use server'"))
  const routes = files.filter((file) => /\/route\.tsx?$/.test(file))
  const pages = files.filter((file) => /\/page\.tsx$/.test(file))

  it('is in forms, files and pages', () => {
    expect(Math.min(actions.length, routes.length, pages.length)).toBeGreaterThan(5)
  })

  it.each([...actions, ...routes, ...pages])('is asked for in all of app/%s', (file) => {
    const functions = exported(read(file)).filter(({ name }) => !notKeepers.has(name))
    for (const { name, body } of functions) expect(body, name).toMatch(asksForKeeper)
  })

  it('is asked for before anything else is done', () => {
    for (const file of actions) {
      for (const { name, body } of exported(read(file))) {
        if (notKeepers.has(name)) continue
        expect(body.slice(body.indexOf('{\n') + 2).trimStart(), name).toMatch(/^requireRight\('keep'\)/)
      }
    }
  })

  it('is asked for by the operations of backups, archives, checks and settings', () => {
    const keepers = operations.filter(({ path: address }) => /^\/(backups|archives|checks|set-aside|finishings)/.test(address))
    expect(keepers.length).toBeGreaterThan(20)
    for (const declared of keepers) {
      const isFinishingsList = declared.method === 'get' && declared.path === '/finishings'
      expect(rightOf(declared), declared.id).toBe(isFinishingsList ? 'read' : 'keep')
    }
  })
})

describe('what changes something', () => {
  it('is never asked for by a look, and is by every other operation but those that only reckon', () => {
    const onlyReckon = operations.filter((declared) => declared.method === 'post' && rightOf(declared) === 'read')
    expect(
      onlyReckon
        .map(({ id }) => id)
        .filter((id) => !/^calculate[A-Z]/.test(id))
        .sort(),
    ).toEqual(
      [
        ...[
          'askWhatIf',
          'chooseDesigns',
          'chooseTogether',
          'findHadByCover',
          'planFiling',
          'previewBulkEdit',
          'previewChartBulk',
        ],
        ...['previewManyPlaces', 'previewNewHome', 'previewProjectBulk', 'startCutJob', 'stopCutJob'],
      ].sort(),
    )
    for (const declared of operations) if (declared.method === 'get') expect(rightOf(declared)).not.toBe('change')
  })
})

it('lets whoever has not signed in ask for the operations that say they are for anybody, and for no other', () => {
  const asks = { host: 'larder.example', site: null, origin: null, accept: '*/*', contentLength: 2 }
  const plain = { isRouterFetch: false, isFormFetch: false, hasToken: false, isForwarded: false }
  const house = { hasAccounts: true, isOnNetwork: true, isDevelopment: false }
  for (const { id, method, path: address, isForAnybody = false } of operations) {
    const knock = { ...asks, ...plain, method: method.toUpperCase(), target: `/api/v1${address}` }
    expect(admit(knock, { kind: 'nobody' }, house).kind === 'in', id).toBe(isForAnybody)
  }
})
