/**
 * What keeps the program from reading or writing, though neither it nor what was asked is at fault:
 * `full` there is no room on the disk; `busy` something else holds the database for longer than was waited;
 * `away` the database does not answer, its file cannot be opened, or there is an empty one in its place.
 */
export type Trouble = 'full' | 'busy' | 'away'

/** PostgreSQL's classes 08 and 57P, 53300: too many connections. */
const awayCodes = new Set([
  ...[
    'P1001',
    'P1002',
    'P1003',
    'P1017',
    'P2021',
    'ECONNREFUSED',
    'ECONNRESET',
    'EPIPE',
    'ENOTFOUND',
    'ETIMEDOUT',
    'EHOSTUNREACH',
    'SQLITE_CANTOPEN',
  ],
  ...['08000', '08001', '08003', '08004', '08006', '57P01', '57P02', '57P03', '53300', '3D000'],
])
const fullCodes = new Set(['ENOSPC', 'EDQUOT', 'EFBIG', 'SQLITE_FULL', '53100'])
const busyCodes = new Set(['P1008', 'SQLITE_BUSY', 'SQLITE_LOCKED', '55P03'])

const fullWords = /database or disk is full|no space left on device|SQLITE_FULL|disk quota exceeded|could not extend file/i
const busyWords =
  /SQLITE_BUSY|SQLITE_LOCKED|database is locked|database table is locked|due to lock timeout|Unable to start a transaction in the given time/i
const awayWords =
  /unable to open (?:connection to local )?database|SQLITE_CANTOPEN|Can't reach database server|Connection terminated|terminating connection|the database system is (?:starting up|shutting down|in recovery)|server closed the connection|connection refused|timeout exceeded when trying to connect|no such table|has closed the connection/i

/** What an error of the disk or the database means; null for a fault of the program. Looks through what Prisma and Node wrap it in. */
export function troubleOf(error: unknown): Trouble | null {
  const seen = new Set<unknown>()
  const waiting: unknown[] = [error]
  while (waiting.length > 0 && seen.size < 20) {
    const at = waiting.shift()
    if (at === null || typeof at !== 'object' || seen.has(at)) continue
    seen.add(at)
    const { code, message, originalCode, originalMessage, cause, meta, driverAdapterError, errors } = at as Record<
      string,
      unknown
    >
    for (const sign of [code, originalCode].map(String)) {
      if (fullCodes.has(sign)) return 'full'
      if (busyCodes.has(sign)) return 'busy'
      if (awayCodes.has(sign)) return 'away'
    }
    const says = `${String(message ?? '')} ${String(originalMessage ?? '')}`
    if (fullWords.test(says)) return 'full'
    if (busyWords.test(says)) return 'busy'
    if (awayWords.test(says)) return 'away'
    waiting.push(cause, meta, driverAdapterError, ...(Array.isArray(errors) ? errors : []))
  }
  return null
}
