// npm test: prepare, then every group in turn, ending with one line `N passed, N failed`.
// node tests/run.mjs lint types imports unused unit property published database browser runs only those named.
import { spawn } from 'node:child_process'
import { chmodSync, mkdtempSync, readFileSync, rmSync, statfsSync } from 'node:fs'
import { tmpdir } from 'node:os'
import path from 'node:path'
import { prepare } from '../prisma/prepare.mjs'

const root = path.dirname(import.meta.dirname)
const isCi = process.env.CI === 'true'
const bin = (name) => path.join(root, 'node_modules', name)

/** Where test databases lie: in memory where the system keeps a roomy folder of it, since most of the waiting is for a disk. */
function folderForTests() {
  try {
    const { bavail, bsize } = statfsSync('/dev/shm')
    if (bavail * bsize > 3 * 2 ** 30) return mkdtempSync('/dev/shm/larder-tests-')
  } catch {
    // No such folder on this system.
  }
  return mkdtempSync(path.join(tmpdir(), 'larder-tests-'))
}
const temporary = folderForTests()
// PostgreSQL, started by root, runs as somebody else and has to pass through.
chmodSync(temporary, 0o711)
process.once('exit', () => rmSync(temporary, { recursive: true, force: true }))

/** A group that passes or fails as one. */
const checks = {
  lint: [bin('@biomejs/biome/bin/biome'), 'check', '--error-on-warnings', '.'],
  types: [bin('typescript/bin/tsc'), '--noEmit'],
  imports: [
    bin('dependency-cruiser/bin/dependency-cruise.mjs'),
    '--config',
    'tests/import-rule.cjs',
    'app',
    'lib',
    'seed',
    'tests',
  ],
  unused: [bin('knip/bin/knip.js'), '--config', 'tests/knip.json'],
}
/** Groups of tests, counted one by one. */
const suites = ['unit', 'property', 'published', 'database', 'browser']

const total = { passed: 0, failed: 0, skipped: 0 }
/** What failed, said once more at the end: of a long log often only the end is kept. */
const failures = []
const mostSaid = 40

function node(argumentsOfNode) {
  const child = spawn(process.execPath, argumentsOfNode, {
    cwd: root,
    stdio: 'inherit',
    env: { ...process.env, TMPDIR: temporary, NEXT_TELEMETRY_DISABLED: '1', FORCE_COLOR: process.env.FORCE_COLOR ?? '0' },
  })
  return new Promise((resolve) => child.once('close', (status) => resolve({ status })))
}

/** What a check says is kept until it ends, so that checks that run side by side are read one after the other. */
function say(argumentsOfNode) {
  return new Promise((resolve) => {
    const child = spawn(process.execPath, argumentsOfNode, { cwd: root, env: { ...process.env, NEXT_TELEMETRY_DISABLED: '1' } })
    let said = ''
    for (const stream of [child.stdout, child.stderr])
      stream.on('data', (text) => {
        said += text
      })
    child.once('close', (status) => resolve({ status, said }))
  })
}

async function check(name) {
  // Next writes the types of routes and of CSS modules.
  if (name === 'types') await say([bin('next/dist/bin/next'), 'typegen'])
  const { status, said } = await say(checks[name])
  const isGood = status === 0
  total[isGood ? 'passed' : 'failed'] += 1
  if (!isGood) failures.push({ name, because: said })
  console.log(`${said}${isGood ? 'passed' : 'FAILED'}: ${name}\n`)
}

async function runSuites(names, moreArguments = []) {
  if (names.length === 0) return
  const report = path.join(temporary, `${names.join('-')}.json`)
  const run = await node([
    bin('vitest/vitest.mjs'),
    'run',
    '--config',
    'tests/vitest.config.ts',
    ...names.flatMap((name) => ['--project', name]),
    ...moreArguments,
    '--reporter=default',
    '--reporter=json',
    `--outputFile.json=${report}`,
  ])
  try {
    const counted = JSON.parse(readFileSync(report, 'utf8'))
    total.passed += counted.numPassedTests
    total.failed += counted.numFailedTests
    total.skipped += counted.numPendingTests + counted.numTodoTests
    // A file that does not load, or an error outside every test, fails the run without failing a test.
    if (run.status !== 0 && counted.numFailedTests === 0) total.failed += Math.max(1, counted.numFailedTestSuites)
    for (const file of counted.testResults) {
      const name = path.relative(root, file.name)
      const failed = file.assertionResults.filter(({ status }) => status === 'failed')
      for (const { fullName, failureMessages } of failed)
        failures.push({ name: `${name} > ${fullName}`, because: failureMessages.join('\n') })
      if (file.status === 'failed' && failed.length === 0) failures.push({ name, because: file.message })
    }
  } catch (error) {
    total.failed += 1
    failures.push({ name: names.join(', '), because: `no report of the run: ${error.message}` })
  }
}

function sayFailures() {
  if (failures.length === 0) return
  console.log('\nWhat failed:')
  for (const { name, because } of failures.slice(0, mostSaid)) {
    const lines = because.split('\n').filter((line) => line.trim() !== '')
    console.log(`- ${name}\n    ${lines.slice(0, 6).join('\n    ').slice(0, 600)}`)
  }
  if (failures.length > mostSaid) console.log(`- and ${failures.length - mostSaid} more`)
}

const asked = process.argv.slice(2)
const known = [...Object.keys(checks), ...suites]
const unknown = asked.filter((name) => !known.includes(name))
if (unknown.length > 0) {
  console.error(`No such test group: ${unknown.join(', ')}. There are: ${known.join(', ')}.`)
  process.exit(2)
}
const wanted = (name) => asked.length === 0 || asked.includes(name)

try {
  await prepare({ database: false })
} catch (error) {
  console.error(error.message)
  process.exit(1)
}
// Types take one core as long as all other checks together and half as long again: they are waited for when the suites have ended.
const types = wanted('types') ? check('types') : null
for (const name of Object.keys(checks)) if (name !== 'types' && wanted(name)) await check(name)
await runSuites(suites.filter((name) => name !== 'browser' && wanted(name)))
await types
// By themselves: the build they need would slow the others down, and be slowed by them. A page waits more than it works, so that a third worker
// is kept busy by two cores.
if (wanted('browser')) await runSuites(['browser'], ['--maxWorkers=3'])

sayFailures()
if (isCi && total.skipped > 0) console.error(`With CI=true nothing may be skipped; ${total.skipped} were.`)
console.log(`\n${total.passed} passed, ${total.failed} failed${total.skipped > 0 ? `, ${total.skipped} skipped` : ''}`)
process.exit(total.failed > 0 || (isCi && total.skipped > 0) ? 1 : 0)
