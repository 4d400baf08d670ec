// npm run migration -- <name>: writes the SQL that takes the checked-in schema to the edited one, for both engines,
// into <engine>/migrations/<timestamp>_<name>/migration.sql. Read it, add CHECK constraints and triggers by hand, say in a
// comment what it does to existing rows. Compares schema with schema, so no database is needed.
import { execFileSync } from 'node:child_process'
import { mkdirSync, readFileSync, writeFileSync } from 'node:fs'
import { createRequire } from 'node:module'
import path from 'node:path'
import { bindMigrationAwareSqlAdapterFactory, mockMigrationAwareAdapterFactory } from '@prisma/driver-adapter-utils'
import { derivePostgresqlSchema, generateClients } from './generate.mjs'

const require = createRequire(import.meta.url)
const here = import.meta.dirname

async function loadSchemaEngine() {
  const glue = await import('@prisma/schema-engine-wasm/schema_engine_bg')
  const folder = path.dirname(require.resolve('@prisma/schema-engine-wasm/schema_engine_bg'))
  const wasm = readFileSync(path.join(folder, 'schema_engine_bg.wasm'))
  const { instance } = await WebAssembly.instantiate(wasm, { './schema_engine_bg.js': glue })
  glue.__wbg_set_wasm(instance.exports)
  instance.exports.__wbindgen_start()
  globalThis.PRISMA_WASM_PANIC_REGISTRY = { set_message() {} }
  return glue.SchemaEngine
}

/** An adapter that only answers what the engine asks of a server's version; comparing two schemas needs no more. */
function silentAdapter(provider) {
  const connection = {
    provider,
    adapterName: 'silent',
    getConnectionInfo: () => ({ schemaName: 'public', supportsRelationJoins: true }),
    dispose: async () => {},
    queryRaw: async () => ({
      columnNames: ['version', 'numeric_version'],
      columnTypes: [7, 0],
      rows: [['PostgreSQL 16.0', 160000]],
    }),
    executeRaw: async () => 0,
    executeScript: async () => {},
  }
  return bindMigrationAwareSqlAdapterFactory({
    ...mockMigrationAwareAdapterFactory(provider),
    provider,
    adapterName: 'silent',
    connect: async () => connection,
  })
}

/** SQL from schema text `before` (empty for none) to `after`. One call a process: the engine's module keeps state between two. */
async function schemaDifference(provider, before, after) {
  const SchemaEngine = await loadSchemaEngine()
  const datamodel = (name, text) => ({ tag: 'schemaDatamodel', files: [{ path: name, content: text }] })
  const engine = await SchemaEngine.new({ datamodels: [['after.prisma', after]] }, () => {}, silentAdapter(provider))
  const { stdout } = await engine.diff({
    from: before === '' ? { tag: 'empty' } : datamodel('before.prisma', before),
    to: datamodel('after.prisma', after),
    script: true,
    shadowDatabaseUrl: null,
    exitCode: null,
    filters: { externalTables: [], externalEnums: [] },
  })
  return stdout
}

function checkedIn(file) {
  try {
    return execFileSync('git', ['show', `HEAD:prisma/${file}`], { encoding: 'utf8', stdio: ['ignore', 'pipe', 'ignore'] })
  } catch {
    return ''
  }
}

function main() {
  const name = process.argv[2]
  if (!/^[a-z][a-z0-9-]*$/.test(name ?? '')) throw new Error('author: name the migration in lower-case-with-dashes')
  const isFirst = process.argv.includes('--first')
  const after = readFileSync(path.join(here, 'schema.prisma'), 'utf8')
  const before = isFirst ? '' : checkedIn('schema.prisma')
  const stamp = new Date().toISOString().replace(/\D/g, '').slice(0, 14)
  for (const [engine, provider, derive] of [
    ['sqlite', 'sqlite', (text) => text],
    ['postgresql', 'postgres', (text) => text && derivePostgresqlSchema(text)],
  ]) {
    const folder = path.join(here, engine, 'migrations', `${stamp}_${name}`)
    mkdirSync(folder, { recursive: true })
    const sql = execFileSync(process.execPath, [import.meta.filename, '--difference', provider], {
      input: JSON.stringify([derive(before), derive(after)]),
      encoding: 'utf8',
    })
    writeFileSync(path.join(folder, 'migration.sql'), sql)
    console.log(`wrote prisma/${engine}/migrations/${stamp}_${name}/migration.sql`)
  }
  generateClients()
}

if (process.argv[2] === '--difference') {
  const [before, after] = JSON.parse(readFileSync(0, 'utf8'))
  process.stdout.write(await schemaDifference(process.argv[3], before, after))
} else {
  main()
}
