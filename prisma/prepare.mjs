// Everything a fresh clone needs before it can start or be tested: packages, both database clients, workers, migrations.
// Runs before node_modules exists, so it imports nothing from there until they do.
import { spawnSync } from 'node:child_process'
import { createHash } from 'node:crypto'
import { existsSync, readFileSync, writeFileSync } from 'node:fs'
import path from 'node:path'

const root = path.dirname(import.meta.dirname)

/** @throws Error when this Node is older than package.json asks for */
function checkNode() {
  const [major, minor] = process.versions.node.split('.').map(Number)
  if (major < 20 || (major === 20 && minor < 19)) {
    throw new Error(`Chart Larder needs Node.js 20.19 or newer; this is ${process.versions.node}.`)
  }
}

/** `npm ci` when node_modules is missing or was installed from another lock file. */
function installPackages() {
  const stamp = path.join(root, 'node_modules', '.larder-lock')
  const lock = createHash('sha256')
    .update(readFileSync(path.join(root, 'package-lock.json')))
    .digest('hex')
  if (existsSync(stamp) && readFileSync(stamp, 'utf8') === lock) return
  console.log('Installing packages …')
  const run = spawnSync('npm', ['ci', '--include=dev', '--no-audit', '--no-fund', '--ignore-scripts', '--loglevel=error'], {
    cwd: root,
    stdio: 'inherit',
    shell: process.platform === 'win32',
  })
  if (run.status !== 0) throw new Error('npm ci did not finish; the lines above say why.')
  writeFileSync(stamp, lock)
}

/** @param {{ database?: boolean }} [wanted]  `database: false` leaves the data alone (tests bring their own) */
export async function prepare({ database = true } = {}) {
  checkNode()
  installPackages()
  const { generateClients } = await import('./generate.mjs')
  generateClients()
  const { bundleWorkers } = await import('./bundle-workers.mjs')
  await bundleWorkers()
  const { gatherMessages } = await import('../app/_language/gather.mjs')
  await gatherMessages()
  if (!database) return
  const { migrate } = await import('./migrate.mjs')
  const applied = await migrate()
  if (applied.length === 0) return
  const sentence = `Database brought up to date: ${applied.join(', ')}.`
  if (process.env.LARDER_LOG !== 'json') return console.log(sentence)
  const { log } = await import('../lib/log/lines.mjs')
  log.info(sentence, { kind: 'migrations', count: applied.length })
}

if (process.argv[1] === import.meta.filename) {
  // Whoever restores a backup may have a database that does not open.
  await prepare({ database: !process.argv.includes('--no-database') }).catch((error) => {
    console.error(error.message)
    process.exit(1)
  })
}
