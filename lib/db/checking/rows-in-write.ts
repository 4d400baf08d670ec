import 'server-only'
import type { Cell, ReadRows } from '../read-snapshot'
import type { Write } from '../write-gate'

/** What a write sees, read as `readSnapshot` reads: so the same question is asked inside a write as before it. Columns need names of their own. */
export const rowsInWrite = ({ tx, engine }: Pick<Write, 'tx' | 'engine'>): ReadRows =>
  async function* (sql, values = []) {
    let at = 0
    const numbered = engine === 'postgresql' ? sql.replace(/\?/g, () => `$${++at}`) : sql
    const rows = await tx.$queryRawUnsafe<Record<string, Cell | boolean | bigint>[]>(numbered, ...values)
    yield rows.map((row) =>
      Object.values(row).map((cell) => (typeof cell === 'boolean' || typeof cell === 'bigint' ? Number(cell) : cell)),
    )
  }
