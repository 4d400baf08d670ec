import { readFileSync } from 'node:fs'
import { describe, expect, it } from 'vitest'
import { columnOf, type Relations, relations } from '#lib/db/sight/relations'
import { seenSql } from '#lib/db/sight/seen-sql'
import { seenWhere } from '#lib/db/sight/seen-where'
import { sightRules } from '#lib/db/sight/sight-rules'

const schema = readFileSync(new URL('../../../prisma/schema.prisma', import.meta.url), 'utf8')
const bodies = new Map([...schema.matchAll(/^model (\w+) \{\n([\s\S]*?)\n\}/gm)].map(([, name, body]) => [name, body as string]))

/** The relations of the schema as text has them: `batches Batch[]` and `owner Owner @relation(fields: [ownerId], …)`. */
const asWritten = new Map(
  [...bodies].map(([name, body]) => {
    const found: Required<Record<keyof Relations, Record<string, string>>> = { one: {}, many: {}, back: {} }
    const columns: Record<string, string> = {}
    for (const line of body.split('\n')) {
      const [, relation, to, mark, rest] = /^\s*(\w+)\s+(\w+)(\?|\[\])?(.*)$/.exec(line) ?? []
      if (!relation || !to || !bodies.has(to)) continue
      const column = /fields: \[(\w+)\]/.exec(rest ?? '')?.[1]
      if (column) {
        found.one[relation] = `${to}${mark ?? ''}`
        columns[relation] = column
      } else found[mark === '[]' ? 'many' : 'back'][relation] = to
    }
    return [name, { found, columns }]
  }),
)

describe('what an account sees', () => {
  it('has a place for every model of the schema, and for no other', () => {
    expect(Object.keys(sightRules).sort()).toEqual([...bodies.keys()].sort())
    expect(Object.keys(relations).sort()).toEqual([...bodies.keys()].sort())
  })

  it.each([...asWritten])('knows how rows of %s hang together with others', (name, { found, columns }) => {
    expect({ one: {}, many: {}, back: {}, ...relations[name as string] }).toEqual(found)
    for (const [relation, column] of Object.entries(columns)) expect(columnOf(relation)).toBe(column)
  })

  it('says of every model with an owner that it is the owner’s', () => {
    const withOwner = [...bodies].filter(([, body]) => /^\s*ownerId\s/m.test(body)).map(([name]) => name as string)
    // Which account sees which owner is said to keepers, who see all of it.
    for (const name of withOwner.filter((one) => one !== 'AccountOwner'))
      expect([name, sightRules[name]]).toEqual([name, expect.objectContaining({ by: 'ownerId' })])
  })

  it('calls no model shared whose rows name somebody’s goods', () => {
    // A shared row that names an owner's row would show it: its rule has to say whose it is.
    const shared = Object.keys(sightRules).filter((name) => sightRules[name] === 'shared')
    const naming = shared.filter((name) =>
      Object.values(relations[name]?.one ?? {}).some((to) => sightRules[to.replace('?', '')] !== 'shared'),
    )
    expect(naming).toEqual(['AccountOwner'])
  })

  it('asks for everything through its owner', () => {
    expect(seenWhere('ThreadList', ['a', 'b'])).toEqual({ design: { chart: { ownerId: { in: ['a', 'b'] } } } })
    expect(seenWhere('Thread', ['a'])).toBeNull()
    expect(seenWhere('KitLot', ['a'])).toEqual({
      AND: [{ project: { AND: [{ ownerId: 'a' }, { design: { chart: { ownerId: 'a' } } }] } }, { batch: { ownerId: 'a' } }],
    })
    expect(() => seenWhere('Heirloom', ['a'])).toThrow(RangeError)
  })

  it('reads tables by their own names through what is seen of them', () => {
    expect(seenSql('SELECT 1 FROM "Place"', ['a'], 'sqlite')).toBe('SELECT 1 FROM "Place"')
    expect(seenSql('SELECT 1 FROM "Design"', ["o'a"], 'postgresql')).toBe(
      `WITH "Chart" AS (SELECT * FROM "Chart" o WHERE "ownerId" IN ('o''a')), ` +
        `"Design" AS (SELECT * FROM "Design" o WHERE ("chartId" IN (SELECT "id" FROM "Chart"))) SELECT 1 FROM "Design"`,
    )
    expect(seenSql('SELECT 1 FROM "Batch"', [], 'sqlite')).toBe(
      'WITH "Batch" AS (SELECT * FROM main."Batch" o WHERE "ownerId" IN (NULL)) SELECT 1 FROM "Batch"',
    )
    expect(() => seenSql('WITH x AS (SELECT 1) SELECT * FROM x', ['a'], 'sqlite')).toThrow(RangeError)
  })
})
