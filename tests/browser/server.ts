import { spawn, spawnSync } from 'node:child_process'
import { cpSync, mkdtempSync, rmSync } from 'node:fs'
import { createServer } from 'node:net'
import { tmpdir } from 'node:os'
import path from 'node:path'

const root = path.resolve(import.meta.dirname, '../..')

export type RunningServer = {
  url: string
  /** Of the start script, which ends the server with itself. */
  pid: number
  dataFolder: string
  log: () => string
  stop: () => Promise<void>
  /** Ends it and all it started in an instant, as a power cut would. Only for one started with `canCrash`. */
  crash: () => Promise<void>
}

type ServerOptions = {
  /** Kept when the server stops. Left out, it gets a folder of its own, which goes with it. */
  dataFolder?: string
  /** What the folder of its own begins with: a copy of this one. */
  copyOf?: string
  canCrash?: boolean
  /** Beside the environment of the tests. */
  env?: Record<string, string>
}

export const serveScript = path.join(root, 'app', 'serve.mjs')

export function freePort(): Promise<number> {
  return new Promise((resolve, reject) => {
    const probe = createServer()
    probe.once('error', reject)
    probe.listen(0, '127.0.0.1', () => {
      const address = probe.address()
      probe.close(() => resolve(typeof address === 'object' && address ? address.port : 0))
    })
  })
}

/** `npm start`'s own script on a free port. */
export async function startServer({
  dataFolder: kept,
  copyOf,
  canCrash = false,
  env: more = {},
}: ServerOptions = {}): Promise<RunningServer> {
  const dataFolder = kept ?? mkdtempSync(path.join(tmpdir(), 'larder-browser-'))
  if (copyOf !== undefined) cpSync(copyOf, dataFolder, { recursive: true })
  const port = await freePort()
  const { DATABASE_URL: _, ...env } = process.env
  const child = spawn(process.execPath, [serveScript], {
    cwd: root,
    env: { ...env, PORT: String(port), LARDER_DATA: dataFolder, ...more },
    stdio: ['ignore', 'pipe', 'pipe'],
    // A group of its own can be killed whole; the others stay in ours, so that Ctrl+C ends them with the tests.
    detached: canCrash,
  })
  let log = ''
  child.stdout.on('data', (text) => {
    log += text
  })
  child.stderr.on('data', (text) => {
    log += text
  })
  const url = `${more.LARDER_CERT ? 'https' : 'http'}://127.0.0.1:${port}`
  await new Promise<void>((resolve, reject) => {
    child.stdout.on('data', () => log.includes(url) && resolve())
    child.once('exit', () => reject(new Error(`the server ended before it answered:\n${log}`)))
  })
  const ended = new Promise((resolve) => child.once('exit', resolve))
  return {
    url,
    pid: child.pid as number,
    dataFolder,
    log: () => log,
    stop: async () => {
      child.kill('SIGTERM')
      await ended
      if (kept === undefined) rmSync(dataFolder, { recursive: true, force: true })
    },
    crash: async () => {
      if (!canCrash || child.pid === undefined) throw new TypeError('crash: the server was not started with canCrash')
      if (process.platform === 'win32') spawnSync('taskkill', ['/pid', String(child.pid), '/T', '/F'])
      else process.kill(-child.pid, 'SIGKILL')
      await ended
    },
  }
}
