// Derives postgresql/schema.prisma from schema.prisma and generates one client for each engine.
// Prisma's native schema engine is never needed, so any existing file serves as its "binary": nothing is downloaded.
import { spawnSync } from 'node:child_process'
import { existsSync, mkdirSync, readFileSync, writeFileSync } from 'node:fs'
import path from 'node:path'

const here = import.meta.dirname
const root = path.dirname(here)

export function derivePostgresqlSchema(source) {
  return `// Derived from ../schema.prisma by generate.mjs: edit that one.\n\n${source
    .replace('provider = "sqlite"', 'provider = "postgresql"')
    .replace('"../lib/db/generated/sqlite"', '"../../lib/db/generated/postgresql"')}`
}

/** Write `file` only when its text differs, so that file times keep their meaning. */
function writeIfChanged(file, text) {
  mkdirSync(path.dirname(file), { recursive: true })
  if (!existsSync(file) || readFileSync(file, 'utf8') !== text) writeFileSync(file, text)
}

export function generateClients() {
  const source = readFileSync(path.join(here, 'schema.prisma'), 'utf8')
  writeIfChanged(path.join(here, 'postgresql', 'schema.prisma'), derivePostgresqlSchema(source))

  const stamp = path.join(root, 'lib', 'db', 'generated', '.schema')
  if (existsSync(stamp) && readFileSync(stamp, 'utf8') === source) return
  for (const schema of ['schema.prisma', 'postgresql/schema.prisma']) {
    const run = spawnSync(
      process.execPath,
      [path.join(root, 'node_modules/prisma/build/index.js'), 'generate', '--schema', path.join(here, schema), '--no-hints'],
      {
        cwd: root,
        stdio: ['ignore', 'ignore', 'inherit'],
        env: {
          ...process.env,
          PRISMA_SCHEMA_ENGINE_BINARY: process.execPath,
          PRISMA_HIDE_UPDATE_MESSAGE: '1',
          CHECKPOINT_DISABLE: '1',
        },
      },
    )
    if (run.status !== 0) throw new Error(`generate: prisma generate failed for ${schema}`)
  }
  writeFileSync(stamp, source)
}

if (process.argv[1] === import.meta.filename) generateClients()
