// Bundles what a worker thread of its own runs, here or on the device: neither takes TypeScript, and the screens' bundler makes no entry for it.
import { mkdirSync, readFileSync, renameSync, writeFileSync } from 'node:fs'
import path from 'node:path'

const root = path.dirname(import.meta.dirname)

/** Each becomes `built/<name>.mjs` beside it, `.js` for the device. Packages with files of their own (native, WASM, fonts) stay packages. */
const workers = [
  { folder: path.join(root, 'lib', 'solver'), name: 'cut-worker', external: [] },
  { folder: path.join(root, 'lib', 'solver'), name: 'choice-worker', external: [] },
  {
    folder: path.join(root, 'lib', 'reader'),
    name: 'reader-worker',
    external: ['pdfjs-dist', 'sharp', 'tesseract.js', 'file-type', '@napi-rs/canvas'],
  },
  { folder: path.join(root, 'lib', 'db', 'backup'), name: 'backup-work', external: ['libsql', 'pg', 'yauzl', 'yazl', 'zod'] },
  // Runs on the device that looks, not here: app/worker.js hands it out.
  { folder: path.join(root, 'app', '_offline'), name: 'worker', external: [], isForBrowser: true },
]

const forNode = { platform: 'node', target: 'node20', format: 'esm' }
const forBrowser = {
  ...{ platform: 'browser', target: 'es2022', format: 'iife', minify: true },
  define: { 'process.env.NODE_ENV': '"production"' },
}

/** Write the workers anew where they differ from their sources, so that file times keep their meaning. About 0.1 s each. */
export async function bundleWorkers() {
  const { build } = await import('esbuild')
  for (const { folder, name, external, isForBrowser } of workers) {
    const made = await build({
      entryPoints: [path.join(folder, `${name}.ts`)],
      absWorkingDir: root,
      bundle: true,
      write: false,
      ...(isForBrowser ? forBrowser : forNode),
      // What is for the server only says so by a package that refuses any other surroundings.
      conditions: ['react-server'],
      external,
      logLevel: 'silent',
    })
    const [{ text }] = made.outputFiles
    const file = path.join(folder, 'built', `${name}.${isForBrowser ? 'js' : 'mjs'}`)
    if (textOf(file) === text) continue
    mkdirSync(path.dirname(file), { recursive: true })
    // Two preparing at once each write a file of their own; the last to be renamed stands.
    const fresh = `${file}.${process.pid}`
    writeFileSync(fresh, text)
    renameSync(fresh, file)
  }
}

function textOf(file) {
  try {
    return readFileSync(file, 'utf8')
  } catch {
    return null
  }
}

if (process.argv[1] === import.meta.filename) await bundleWorkers()
