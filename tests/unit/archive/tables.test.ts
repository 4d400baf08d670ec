import { createHash } from 'node:crypto'
import { readFileSync } from 'node:fs'
import { describe, expect, it } from 'vitest'
import { describeFormat } from '#lib/archive/describe-format'
import { archiveTables, type ColumnKind, tablesLeftOut } from '#lib/archive/tables'
import { archiveVersion } from '#lib/archive/versions'

type Model = { columns: Record<string, ColumnKind>; refersTo: Record<string, string> }

const kindOf: Record<string, ColumnKind> = {
  ...{ String: 'text', Int: 'whole', Float: 'real', Boolean: 'yes-no', DateTime: 'moment' },
}

/** The models of the schema as text has them: `labL Float?` and `line ThreadLine @relation(fields: [lineId], …)`. */
function modelsOf(schema: string): Map<string, Model> {
  const models = new Map<string, Model>()
  for (const [, name, body] of schema.matchAll(/^model (\w+) \{\n([\s\S]*?)\n\}/gm)) {
    const columns: Model['columns'] = {}
    const refersTo: Model['refersTo'] = {}
    for (const line of (body as string).split('\n')) {
      const field = /^\s*(\w+)\s+(\w+)(\?|\[\])?(.*)$/.exec(line)
      if (!field || /^\s*(?:@@|\/\/)/.test(line)) continue
      const [, column, type, mark, rest] = field as unknown as [string, string, string, string | undefined, string]
      const kind = kindOf[type]
      const from = /fields: \[(\w+)\]/.exec(rest)?.[1]
      if (kind && mark !== '[]') columns[column] = `${kind}${mark ?? ''}` as ColumnKind
      else if (from) refersTo[from] = type
    }
    models.set(name as string, { columns, refersTo })
  }
  return models
}

const models = modelsOf(readFileSync(new URL('../../../prisma/schema.prisma', import.meta.url), 'utf8'))

/** As the schema says it: it knows of no files. */
const plain = (kind: ColumnKind): ColumnKind => (kind === 'photo?' ? 'text?' : kind === 'file' ? 'text' : kind)

/** What the tables of each version came to. A version that was written once is never changed: raise `archiveVersion` instead. */
const cameTo: Record<number, string> = { 1: '04eb3350', 2: '08e5e264', 3: '1c219971' }

describe('the tables of an archive', () => {
  it('are those of the schema, but for those that say nothing of the collection', () => {
    const archived = archiveTables.map(({ name }) => name)
    expect([...archived, ...Object.keys(tablesLeftOut)].sort()).toEqual([...models.keys()].sort())
  })

  it.each(archiveTables.map((table) => [table.name, table] as const))('have every column of %s', (name, table) => {
    const columns = Object.fromEntries(Object.entries(table.columns).map(([column, kind]) => [column, plain(kind)]))
    expect(columns).toEqual(models.get(name)?.columns)
    expect(table.refersTo).toEqual(models.get(name)?.refersTo)
  })

  it('know every column that names a file', () => {
    for (const { name, columns } of archiveTables)
      for (const [column, kind] of Object.entries(columns)) {
        const namesFile = column !== 'fileHash' && /File$/.test(column)
        if (namesFile) expect([name, column, kind]).toEqual([name, column, 'photo?'])
      }
    expect(archiveTables.find(({ name }) => name === 'KeptFile')?.columns.fileName).toBe('file')
  })

  it('stand after those their rows name, or say that they wait for them', () => {
    const before = new Set<string>()
    for (const { name, refersTo, later = [], columns, key } of archiveTables) {
      before.add(name)
      for (const [column, other] of Object.entries(refersTo))
        if (!before.has(other) || other === name) expect([name, column, later.includes(column)]).toEqual([name, column, true])
      // What waits is empty until then, and its row is found again by one key.
      for (const column of later) expect(columns[column]).toMatch(/\?$/)
      if (later.length > 0) expect(key).toHaveLength(1)
    }
  })

  it('are those of their version: a changed table is a new version of the format', () => {
    const said = archiveTables.map(({ name, key, columns }) => [name, key, columns])
    const found = createHash('sha256').update(JSON.stringify(said)).digest('hex').slice(0, 8)
    expect({ [archiveVersion]: found }).toEqual({ [archiveVersion]: cameTo[archiveVersion] })
  })

  it('are described with the archive, column by column', () => {
    const description = describeFormat()
    for (const { name, columns, says } of archiveTables) {
      expect(says).not.toBe('')
      expect(description).toContain(`\n\n${name}: ${says}\n`)
      for (const column of Object.keys(columns)) expect(description).toContain(`\n    ${column}: `)
    }
  })
})
