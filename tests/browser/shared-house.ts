import { appendFileSync, cpSync, readdirSync, readFileSync, rmSync } from 'node:fs'
import path from 'node:path'
import Libsql from 'libsql'
import type { Browser } from 'playwright-core'
import { inject } from 'vitest'
import { launchChromium } from './chromium'
import { type RunningServer, startServer } from './server'

declare module 'vitest' {
  export interface ProvidedContext {
    /** A data folder as a first start leaves it, and one with the sample in it: to copy. */
    emptyFolder: string
    sampleFolder: string
    /** Where the workers' servers keep their collections, and say that they run. */
    housesFolder: string
  }
}

type SharedHouse = { server: RunningServer; browser: Browser }

// Kept by the worker, whichever file of tests it is at.
const shared = globalThis as unknown as { larderHouse?: SharedHouse }

/** A server may know for two seconds who has an account, without asking its database. */
const accountsForgottenMs = 2_500

/** Started and ended by the server: the collection's own file, and the word that it runs. */
const isHeldOpen = (name: string) => /^larder\.db(-wal|-shm)?$/.test(name) || name === 'running'

/**
 * The one server and the one browser that all files of a worker use, with a collection that begins as that of `template` does. To start
 * them, and to have the server read its program and make its queries anew, takes longer than most files' own errands.
 */
export async function openSharedHouse(template: string): Promise<SharedHouse> {
  const { server: running, browser: open } = shared.larderHouse ?? {}
  const isUp = running !== undefined && (await answers(running))
  const server = isUp ? running : await startSharedServer()
  const browser = open?.isConnected() ? open : await launchChromium()
  shared.larderHouse = { server, browser }
  const { hadAccounts } = refill(server.dataFolder, template)
  if (hadAccounts) await new Promise((resolve) => setTimeout(resolve, accountsForgottenMs))
  return shared.larderHouse
}

const answers = ({ url }: RunningServer): Promise<boolean> =>
  fetch(`${url}/api/v1/health`).then(
    ({ ok }) => ok,
    () => false,
  )

async function startSharedServer(): Promise<RunningServer> {
  const houses = inject('housesFolder')
  const server = await startServer({
    dataFolder: path.join(houses, `of-${process.pid}-${Date.now()}`),
    // A visitor who asks for it by its cookie gets the tests' own language; nobody else does.
    env: { LARDER_TRIAL_LANGUAGE: '1' },
  })
  // A worker is ended without a word, so somebody else ends its server: `endSharedServers`.
  appendFileSync(path.join(houses, 'servers'), `${server.pid}\n`)
  return server
}

/** End every server that workers started, and wait for it. */
export async function endSharedServers(houses: string): Promise<void> {
  const isThere = (name: string) => readdirSync(houses).includes(name)
  const pids = isThere('servers') ? readFileSync(path.join(houses, 'servers'), 'utf8').trim().split('\n').map(Number) : []
  const signal = (pid: number, name: NodeJS.Signals | 0): boolean => {
    try {
      return process.kill(pid, name)
    } catch {
      return false
    }
  }
  for (const pid of pids) signal(pid, 'SIGTERM')
  for (let waited = 0; waited < 100 && pids.some((pid) => signal(pid, 0)); waited++)
    await new Promise((resolve) => setTimeout(resolve, 100))
}

/**
 * Put back what a server's data folder began with, under the running server: the files beside the collection, and every row of it, in one
 * transaction that raises the revision and names everything as changed, as a restore does. So what the server keeps in memory is made anew.
 */
function refill(dataFolder: string, template: string): { hadAccounts: boolean } {
  for (const name of readdirSync(dataFolder))
    if (!isHeldOpen(name)) rmSync(path.join(dataFolder, name), { recursive: true, force: true })
  cpSync(template, dataFolder, { recursive: true, filter: (file) => !isHeldOpen(path.basename(file)) })

  const database = new Libsql(path.join(dataFolder, 'larder.db'), { timeout: 10_000 })
  const named = (type: string) =>
    database.prepare("SELECT name, sql FROM main.sqlite_master WHERE type = ? AND name NOT LIKE 'sqlite_%'").all(type) as {
      name: string
      sql: string
    }[]
  try {
    database.exec('PRAGMA foreign_keys = OFF')
    database.prepare('ATTACH ? AS template').run(path.join(template, 'larder.db'))
    database.exec('BEGIN IMMEDIATE')
    const hadAccounts = database.prepare('SELECT 1 FROM main.Account LIMIT 1').get() !== undefined
    const { number: before } = database.prepare('SELECT number FROM main.Revision').get() as { number: number }
    // Triggers refuse to take a movement away.
    const triggers = named('trigger')
    for (const { name } of triggers) database.exec(`DROP TRIGGER main."${name}"`)
    for (const { name } of named('table')) {
      database.exec(`DELETE FROM main."${name}"`)
      database.exec(`INSERT INTO main."${name}" SELECT * FROM template."${name}"`)
    }
    for (const { sql } of triggers) database.exec(sql)
    database.prepare('UPDATE main.Revision SET number = max(number, ?) + 1').run(before)
    database.exec(
      "INSERT INTO main.Change (id, revision, noun, nounId) SELECT 'a-house-refilled', number, 'everything', '*' FROM main.Revision",
    )
    database.exec('COMMIT')
    return { hadAccounts }
  } finally {
    database.close()
  }
}
