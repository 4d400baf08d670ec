import { type ChildProcess, fork } from 'node:child_process'
import { once } from 'node:events'
import { rmSync } from 'node:fs'
import path from 'node:path'
import { build } from 'esbuild'
import type { Said } from './hand'

const root = path.join(import.meta.dirname, '../..')
/** In the project, for the packages it asks for. */
const bundled = path.join(root, 'node_modules', '.cache', 'larder-tests', `hand-${process.pid}.mjs`)

export async function bundleHand(): Promise<void> {
  await build({
    entryPoints: [path.join(import.meta.dirname, 'hand.ts')],
    ...{ absWorkingDir: root, outfile: bundled, bundle: true, platform: 'node', target: 'node20', format: 'esm' },
    conditions: ['react-server'],
    alias: { 'server-only': path.join(root, 'tests/empty.ts') },
    external: ['@prisma/client', '@libsql/client', 'libsql', 'pg', 'sharp', 'yauzl', 'yazl', 'file-type', 'chardet'],
    // What is bundled and was written for `require` finds it.
    banner: { js: "import { createRequire } from 'node:module'; const require = createRequire(import.meta.url);" },
    logLevel: 'silent',
  })
}

export const forgetHand = (): void => rmSync(bundled, { force: true })

/** A hand that is ready to be told something, and what it has said since. */
export type Hand = { child: ChildProcess; said: { what: Said; atMs: number }[]; errors: () => string; isReady: Promise<unknown> }

export function beginHand({ url, folder }: { url: string; folder: string }): Hand {
  const { PATH, TMPDIR } = process.env
  const child = fork(bundled, {
    ...{ cwd: root, execArgv: [], stdio: ['ignore', 'ignore', 'pipe', 'ipc'] },
    env: { NODE_ENV: 'test', PATH, TMPDIR, DATABASE_URL: url, LARDER_DATA: folder },
  })
  let errors = ''
  child.stderr?.on('data', (text) => {
    errors += text
  })
  const said: Hand['said'] = []
  child.on('message', (what: Said) => said.push({ what, atMs: performance.now() }))
  return { child, said, errors: () => errors, isReady: Promise.race([once(child, 'message'), once(child, 'exit')]) }
}
