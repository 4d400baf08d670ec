import { spawn } from 'node:child_process'
import { mkdtempSync, rmSync } from 'node:fs'
import { connect, createServer } from 'node:net'
import { networkInterfaces, tmpdir } from 'node:os'
import path from 'node:path'
import { afterEach, beforeEach, describe, expect, it } from 'vitest'
import { freePort, type RunningServer, serveScript, startServer } from './server'

let folder = ''
let running: RunningServer[] = []

beforeEach(() => {
  folder = mkdtempSync(path.join(tmpdir(), 'larder-set-up-'))
})
afterEach(async () => {
  await Promise.all(running.map((server) => server.stop()))
  running = []
  rmSync(folder, { recursive: true, force: true })
})

async function start(options: { canCrash?: boolean } = {}): Promise<RunningServer> {
  const server = await startServer({ dataFolder: folder, ...options })
  running.push(server)
  return server
}

/** Runs the start script to its end, for when it will not start. */
function runToEnd(port: string): Promise<{ code: number | null; said: string }> {
  const child = spawn(process.execPath, [serveScript], {
    env: { ...process.env, PORT: port, LARDER_DATA: folder },
    stdio: ['ignore', 'pipe', 'pipe'],
  })
  let said = ''
  child.stdout.on('data', (text) => {
    said += text
  })
  child.stderr.on('data', (text) => {
    said += text
  })
  return new Promise((resolve) => child.once('close', (code) => resolve({ code, said })))
}

/** Whether anything takes a connection there within two seconds. */
function isAnswered(host: string, port: number): Promise<boolean> {
  return new Promise((resolve) => {
    const socket = connect({ host, port, timeout: 2_000 })
    const end = (answer: boolean) => {
      socket.destroy()
      resolve(answer)
    }
    socket.once('connect', () => end(true))
    socket.once('timeout', () => end(false))
    socket.once('error', () => end(false))
  })
}

/** Every address of this machine but the one it should listen on; a server bound to all interfaces takes all of 127.x.x.x too. */
function otherAddresses(): string[] {
  const named = Object.entries(networkInterfaces()).flatMap(([name, addresses]) =>
    (addresses ?? []).map(({ address, scopeid }) => (scopeid ? `${address}%${name}` : address)),
  )
  return [...new Set(['127.0.0.2', '::1', ...named])].filter((address) => address !== '127.0.0.1')
}

describe('npm start', () => {
  it('says which port is taken, and how to choose another, in place of starting', async () => {
    const port = await freePort()
    const other = createServer()
    await new Promise<void>((resolve) => other.listen(port, '127.0.0.1', resolve))
    const { code, said } = await runToEnd(String(port))
    other.close()
    expect(code).toBe(1)
    expect(said).toMatch(new RegExp(`^Port ${port} is taken, .*PORT=${port + 1} npm start\n$`))
  })

  it.each(['abc', '0', '70000', '4270.5'])('refuses %s as a port in one sentence', async (port) => {
    const { code, said } = await runToEnd(port)
    expect(code).toBe(1)
    expect(said).toBe(`PORT must be a number from 1 to 65535; it is "${port}".\n`)
  })

  it('answers this machine only', async () => {
    const server = await start()
    const port = Number(new URL(server.url).port)
    expect(await isAnswered('127.0.0.1', port)).toBe(true)
    const answered = await Promise.all(otherAddresses().map(async (host) => ((await isAnswered(host, port)) ? host : null)))
    expect(answered.filter((host) => host !== null)).toEqual([])
  })

  it('says where it is and where the data is', async () => {
    const server = await start()
    expect(server.log()).toContain(`Chart Larder is at ${server.url}`)
    expect(server.log()).toContain(`Your data is in ${folder}`)
  })

  it('has all that was written when it is started again after a crash', async () => {
    const first = await start({ canCrash: true })
    const file = new FormData()
    file.set('file', new File(['Label,Kind\nLinen press,cabinet\nTin 4,box\n'], 'places.csv', { type: 'text/csv' }))
    const brought = await fetch(`${first.url}/api/v1/imports?kind=places`, { method: 'POST', body: file })
    expect(await brought.json()).toMatchObject({ isDryRun: false, counts: { added: 2 } })
    await first.crash()

    const second = await start()
    const page = await (await fetch(`${second.url}/places`)).text()
    expect(page).toContain('Linen press')
    expect(page).toContain('Tin 4')
  })
})
