import 'server-only'
import path from 'node:path'
import { Worker } from 'node:worker_threads'
import { archiveTables } from '#lib/archive/tables'
import type { Fault } from '#lib/checking/fault'
import { sqlitePath } from '../backup/copy-database'
import type { Database } from '../client'

// Read by Node itself, never bundled: the path is made at run time from the folder the project is started in.
const workerFile = () => path.join(process.cwd(), 'lib', 'db', 'checking', 'integrity-worker.mjs')

type Posted = { table: string; says: string | null }

/**
 * What SQLite itself says of its file, table by table, asked in a thread of its own. PostgreSQL watches over its own files.
 *
 * @param signal  ends the thread; what it has said by then is told
 */
export async function* findDamage({ engine, url }: Database, signal?: AbortSignal): AsyncGenerator<Fault, void, void> {
  if (engine !== 'sqlite') return
  const tables = [...archiveTables.map(({ name }) => name), 'Revision', 'Change']
  for (const { table, says } of await askWorker({ file: sqlitePath(url), tables }, signal)) {
    if (says === null) continue
    // A row that holds what its table does not allow reads whole all the same.
    const kind = says.startsWith('CHECK constraint failed') ? 'rule-broken' : 'database-damaged'
    const about = { noun: 'table' as const, id: table, name: table, linkId: null }
    yield { kind, id: `${kind}:${table}`, about, says: says.slice(0, 300) }
  }
}

async function askWorker(workerData: { file: string; tables: readonly string[] }, signal?: AbortSignal): Promise<Posted[]> {
  if (signal?.aborted) return []
  const worker = new Worker(workerFile(), { workerData })
  const said: Posted[] = []
  const end = () => void worker.terminate()
  signal?.addEventListener('abort', end)
  try {
    return await new Promise<Posted[]>((resolve, reject) => {
      worker.on('message', (posted: Posted) => said.push(posted))
      worker.once('error', reject)
      worker.once('exit', () => resolve(said))
    })
  } finally {
    signal?.removeEventListener('abort', end)
  }
}
