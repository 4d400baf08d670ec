import { type ChildProcess, fork } from 'node:child_process'
import { renameSync } from 'node:fs'
import path from 'node:path'
import { build } from 'esbuild'

const root = path.resolve(import.meta.dirname, '../..')
/** Inside the project, so that packages are found from there. */
const folder = path.join(root, 'node_modules', '.cache', 'larder-tests')

const bundled = new Map<string, Promise<string>>()

/** One file of what it imports of ours: Node reads it in a third of the time that a loader takes over all the files. */
async function bundle(source: string): Promise<string> {
  const file = path.join(folder, `${path.basename(source, '.ts')}.mjs`)
  // Two workers at once each write a file of their own; the last to be renamed stands.
  const fresh = `${file}.${process.pid}`
  await build({
    entryPoints: [source],
    absWorkingDir: root,
    outfile: fresh,
    bundle: true,
    platform: 'node',
    target: 'node20',
    format: 'esm',
    packages: 'external',
    conditions: ['react-server'],
    alias: { 'server-only': path.join(root, 'tests', 'empty.ts') },
    logLevel: 'silent',
  })
  renameSync(fresh, file)
  return file
}

/**
 * Start a TypeScript file of tests as a process of its own, as a second one of the program would be, that is spoken to by messages.
 *
 * @param source  the file, absolute
 */
export async function startOwnProcess(source: string, env: Record<string, string>): Promise<ChildProcess> {
  const file = bundled.get(source) ?? bundle(source)
  bundled.set(source, file)
  return fork(await file, { execArgv: [], env: { ...process.env, ...env } })
}
