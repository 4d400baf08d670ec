// Runs in a worker thread: SQLite goes through a table and its indexes in one go, and would hold up every request on the main thread.
import { parentPort, workerData } from 'node:worker_threads'
import Libsql from 'libsql'

const { file, tables } = workerData

/** The first thing SQLite finds wrong with a table; null where it finds nothing. */
function integrityOf(database, table) {
  try {
    const [first] = database.prepare(`PRAGMA integrity_check("${table}")`).all()
    return first.integrity_check === 'ok' ? null : first.integrity_check
  } catch (error) {
    // So torn that it cannot be looked through.
    if (!/malformed|not a database|SQLITE_CORRUPT|SQLITE_NOTADB/i.test(`${error.code} ${error.message}`)) throw error
    return error.message
  }
}

const database = new Libsql(file, { timeout: 10_000 })
try {
  for (const table of tables) parentPort.postMessage({ table, says: integrityOf(database, table) })
} finally {
  database.close()
}
