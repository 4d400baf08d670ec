// npm start, npm run dev: prepare, build when sources changed, serve (on this machine only, unless HOST says otherwise), print the address.
import { spawn, spawnSync } from 'node:child_process'
import { existsSync, readdirSync, statSync } from 'node:fs'
import { request } from 'node:http'
import { request as secureRequest } from 'node:https'
import { createServer } from 'node:net'
import { networkInterfaces } from 'node:os'
import path from 'node:path'
import { countKeepers } from '../prisma/migrate.mjs'
import { prepare } from '../prisma/prepare.mjs'
import { certificatePaths, readCertificate } from './certificate.mjs'
import { isOpenToNetwork, noKeeperSentence } from './host.mjs'

const root = path.dirname(import.meta.dirname)
const host = process.env.HOST || '127.0.0.1'
const port = Number(process.env.PORT || 4270)
const isDevelopment = process.argv.includes('--dev')
const certificate = certificatePaths(process.env)
const protocol = certificate ? 'https' : 'http'

/** What the build is made of; anything newer than the last build means building again. */
const sources = ['app', 'lib', 'prisma', 'instrumentation.ts', 'next.config.mjs', 'package-lock.json', 'tsconfig.json']

function fail(sentence) {
  console.error(sentence)
  process.exit(1)
}

function newestChange(file) {
  const stats = statSync(file)
  if (!stats.isDirectory()) return stats.mtimeMs
  return Math.max(stats.mtimeMs, ...readdirSync(file).map((name) => newestChange(path.join(file, name))))
}

const networkAddresses = () =>
  Object.values(networkInterfaces())
    .flatMap((known) => known ?? [])
    .filter(({ family, internal }) => family === 'IPv4' && !internal)
    .map(({ address }) => `${protocol}://${address}:${port}`)

function isPortFree() {
  return new Promise((resolve) => {
    const probe = createServer()
    probe.once('error', (error) => resolve(error.code !== 'EADDRINUSE' && error.code !== 'EACCES'))
    probe.listen(port, host, () => probe.close(() => resolve(true)))
  })
}

if (!Number.isInteger(port) || port < 1 || port > 65_535)
  fail(`PORT must be a number from 1 to 65535; it is "${process.env.PORT}".`)
if (certificate) {
  // The server reads it again before it listens; this saves waiting for a build first.
  const read = 'sentence' in certificate ? { ok: false, ...certificate } : readCertificate(certificate, Date.now())
  if (!read.ok) fail(`Chart Larder cannot speak HTTPS: ${read.sentence}`)
}
if (!(await isPortFree())) {
  fail(
    `Port ${port} is taken, perhaps by Chart Larder itself. Close the other program, or choose another: PORT=${port + 1} npm start`,
  )
}

try {
  await prepare()
} catch (error) {
  fail(error.message)
}

const { dataFolder, databaseUrl } = await import('../prisma/migrate.mjs')
// The server asks again before it listens; this saves waiting for a build first.
if (isOpenToNetwork(host) && (await countKeepers()) === 0) fail(noKeeperSentence(host))

const env = {
  ...process.env,
  HOST: host,
  PORT: String(port),
  LARDER_DATA: dataFolder(),
  DATABASE_URL: databaseUrl(),
  NEXT_TELEMETRY_DISABLED: '1',
  NODE_ENV: isDevelopment ? 'development' : 'production',
}
const next = path.join(root, 'node_modules/next/dist/bin/next')
const lastBuild = path.join(root, '.next', 'BUILD_ID')

if (!isDevelopment) {
  const isStale =
    !existsSync(lastBuild) ||
    Math.max(...sources.map((name) => newestChange(path.join(root, name)))) > statSync(lastBuild).mtimeMs
  if (isStale) {
    console.log('Building …')
    const build = spawnSync(process.execPath, [next, 'build'], {
      cwd: root,
      env,
      stdio: ['ignore', 'pipe', 'pipe'],
      encoding: 'utf8',
    })
    if (build.status !== 0) fail(`${build.stdout}\n${build.stderr}\nThe build failed; the lines above say where.`)
  }
}

const server = spawn(process.execPath, [path.join(root, 'app', 'server.mjs')], {
  cwd: root,
  env,
  stdio: ['inherit', 'ignore', 'inherit'],
})
for (const signal of ['SIGINT', 'SIGTERM']) process.on(signal, () => server.kill(signal))
server.on('exit', (code) => process.exit(code ?? 0))

/** Every address of this machine is one of its own too. */
const own = host === '0.0.0.0' ? '127.0.0.1' : host === '::' ? '[::1]' : host.includes(':') ? `[${host}]` : host
const address = `${protocol}://${own}:${port}`
/** Asks itself, so whose name the certificate bears does not matter. */
const answers = () =>
  new Promise((resolve) => {
    const ask = certificate ? secureRequest : request
    const asked = ask(`${address}/api/v1/health`, { rejectUnauthorized: false }, (response) => {
      response.resume()
      resolve(response.statusCode === 200)
    })
    asked.on('error', () => resolve(false))
    asked.end()
  })
for (let waited = 0; waited < 600; waited++) {
  const isUp = await answers()
  if (isUp) {
    const others = host === '0.0.0.0' || host === '::' ? networkAddresses().map((other) => `\nOn the network: ${other}`) : []
    console.log(`Chart Larder is at ${address}${others.join('')}\nYour data is in ${env.LARDER_DATA}. Stop with Ctrl+C.`)
    break
  }
  await new Promise((resolve) => setTimeout(resolve, 100))
}
