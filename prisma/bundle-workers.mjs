// Bundles what a worker thread of its own runs: Node takes no TypeScript there, and the screens' bundler makes no entry for it.
import { mkdirSync, readFileSync, renameSync, writeFileSync } from 'node:fs'
import path from 'node:path'

const root = path.dirname(import.meta.dirname)
const folder = path.join(root, 'lib', 'solver')

/** Write `lib/solver/built/cut-worker.mjs` anew where it differs from its sources, so that file times keep their meaning. About 0.1 s. */
export async function bundleWorkers() {
  const { build } = await import('esbuild')
  const made = await build({
    entryPoints: [path.join(folder, 'cut-worker.ts')],
    absWorkingDir: root,
    bundle: true,
    write: false,
    platform: 'node',
    target: 'node20',
    format: 'esm',
    logLevel: 'silent',
  })
  const [{ text }] = made.outputFiles
  const file = path.join(folder, 'built', 'cut-worker.mjs')
  if (textOf(file) === text) return
  mkdirSync(path.dirname(file), { recursive: true })
  // Two preparing at once each write a file of their own; the last to be renamed stands.
  const fresh = `${file}.${process.pid}`
  writeFileSync(fresh, text)
  renameSync(fresh, file)
}

function textOf(file) {
  try {
    return readFileSync(file, 'utf8')
  } catch {
    return null
  }
}

if (process.argv[1] === import.meta.filename) await bundleWorkers()
