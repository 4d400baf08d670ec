import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import path from 'node:path'
import pg from 'pg'
import type { TestProject } from 'vitest/node'
import { migrate } from '../../prisma/migrate.mjs'
import { startPostgresqlServer } from './postgresql-server'

declare module 'vitest' {
  export interface ProvidedContext {
    /** A migrated SQLite file to copy. */
    sqliteTemplate: string
    /** A PostgreSQL server with a migrated database named `larder_template`, or why there is none. */
    postgresql: { urlOf: string } | { missing: string }
  }
}

/** One migrated template an engine; each test copies it. */
export default async function setUp(project: TestProject): Promise<() => Promise<void>> {
  const folder = mkdtempSync(path.join(tmpdir(), 'larder-test-'))
  const template = path.join(folder, 'template.db')
  await migrate(`file:${template}`)
  project.provide('sqliteTemplate', template)

  const server = await startPostgresqlServer()
  if (typeof server === 'string') {
    if (process.env.CI === 'true') throw new Error(`PostgreSQL is needed with CI=true: ${server}`)
    project.provide('postgresql', { missing: server })
  } else {
    const admin = new pg.Client({ connectionString: server.url('postgres') })
    await admin.connect()
    await admin.query('CREATE DATABASE larder_template')
    await admin.end()
    await migrate(server.url('larder_template'))
    project.provide('postgresql', { urlOf: server.url('{database}') })
  }
  return async () => {
    if (typeof server !== 'string') await server.stop()
    rmSync(folder, { recursive: true, force: true })
  }
}
