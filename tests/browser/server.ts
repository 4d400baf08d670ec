import { spawn } from 'node:child_process'
import { mkdtempSync, rmSync } from 'node:fs'
import { createServer } from 'node:net'
import { tmpdir } from 'node:os'
import path from 'node:path'

const root = path.resolve(import.meta.dirname, '../..')

export type RunningServer = { url: string; dataFolder: string; log: () => string; stop: () => Promise<void> }

function freePort(): Promise<number> {
  return new Promise((resolve, reject) => {
    const probe = createServer()
    probe.once('error', reject)
    probe.listen(0, '127.0.0.1', () => {
      const address = probe.address()
      probe.close(() => resolve(typeof address === 'object' && address ? address.port : 0))
    })
  })
}

/** `npm start`'s own script on a free port, with a data folder of its own that goes when it stops. */
export async function startServer(dataFolder = mkdtempSync(path.join(tmpdir(), 'larder-browser-'))): Promise<RunningServer> {
  const port = await freePort()
  const { DATABASE_URL: _, ...env } = process.env
  const child = spawn(process.execPath, [path.join(root, 'app', 'serve.mjs')], {
    cwd: root,
    env: { ...env, PORT: String(port), LARDER_DATA: dataFolder },
    stdio: ['ignore', 'pipe', 'pipe'],
  })
  let log = ''
  child.stdout.on('data', (text) => {
    log += text
  })
  child.stderr.on('data', (text) => {
    log += text
  })
  const url = `http://127.0.0.1:${port}`
  await new Promise<void>((resolve, reject) => {
    child.stdout.on('data', () => log.includes(url) && resolve())
    child.once('exit', () => reject(new Error(`the server ended before it answered:\n${log}`)))
  })
  return {
    url,
    dataFolder,
    log: () => log,
    stop: async () => {
      const ended = new Promise((resolve) => child.once('exit', resolve))
      child.kill('SIGTERM')
      await ended
      rmSync(dataFolder, { recursive: true, force: true })
    },
  }
}
