import type { Random } from '#seed/random'

/** As much of JSON Schema 2020-12 as the API's document writes. */
export type Schema = {
  $ref?: string
  type?: string | string[]
  const?: unknown
  enum?: unknown[]
  anyOf?: Schema[]
  oneOf?: Schema[]
  allOf?: Schema[]
  properties?: Record<string, Schema>
  required?: string[]
  additionalProperties?: boolean | Schema
  items?: Schema
  prefixItems?: Schema[]
  minItems?: number
  maxItems?: number
  minimum?: number
  maximum?: number
  exclusiveMinimum?: number
  exclusiveMaximum?: number
  minLength?: number
  maxLength?: number
  pattern?: string
  format?: string
}

/** Ids of every table and labels on record: half of what is asked is about things there are. */
export type Pool = { ids: readonly string[]; labels: readonly string[] }

/** How often a value is nothing its schema takes. */
const wildShare = 0.06

const hostileTexts: readonly string[] = [
  '',
  ' ',
  '\0',
  'a\0b',
  '\ud800',
  '\udfff\ud800 lone halves',
  '‮gnihtemos ⁦ ⁩',
  '../../../../etc/passwd',
  '..\\..\\larder.db',
  'file:///etc/passwd',
  'http://127.0.0.1:1/',
  '%00',
  '%2e%2e%2f',
  '{{7*7}}#{7*7}',
  '<script>alert(1)</script>',
  '"><img src=x onerror=alert(1)>',
  '\'; DROP TABLE "Batch"; --',
  "' OR 1=1 --",
  '$1 ? ?1 :a @b',
  '=1+1',
  '@SUM(A1)',
  '-0',
  '1e999',
  'NaN',
  '__proto__',
  'constructor',
  'toString',
  '0311',
  '0'.repeat(60),
  'é'.normalize('NFD'),
  'İıſß',
  '🧵'.repeat(50),
  'x'.repeat(201),
  '\n\r\t,;"\'',
  '(((((((((((((((((((((((((((((((a+)+)+)+)+)+)+',
  '9'.repeat(400),
  '9999-12-31',
  '0000-00-00',
  '2026-02-30',
  '-000001-01-01',
  '275760-09-13',
  '2026-13-01T00:00:00Z',
]

const hostileNumbers: readonly number[] = [
  0,
  -0,
  -1,
  1,
  0.1,
  -0.5,
  1e-320,
  2 ** 31 - 1,
  2 ** 31,
  -(2 ** 31) - 1,
  2 ** 53,
  -(2 ** 53),
  1e21,
  1e308,
  -1e308,
  4_294_967_296,
]

/** Anything that JSON can say. */
function wildValue(random: Random, pool: Pool, depth = 0): unknown {
  switch (random.int(0, depth > 4 ? 5 : 9)) {
    case 0:
      return null
    case 1:
      return random.pick([true, false])
    case 2:
    case 3:
      return random.pick(hostileNumbers)
    case 4:
      return random.pick(hostileTexts)
    case 5:
      return random.pick(pool.ids)
    case 6:
      return Array.from({ length: random.chance(1 / 20) ? 2_000 : random.int(0, 3) }, () => wildValue(random, pool, depth + 3))
    case 7:
      return JSON.parse(`{"__proto__":{"isAdmin":true},"constructor":{"prototype":null},"length":-1}`)
    case 8:
      return Object.fromEntries(
        Array.from({ length: random.int(0, 3) }, () => [random.pick(hostileTexts), wildValue(random, pool, depth + 1)]),
      )
    default: {
      let deep: unknown = random.pick(hostileTexts)
      for (let level = 0; level < 300; level++) deep = level % 2 === 0 ? [deep] : { deep }
      return deep
    }
  }
}

function textOf(schema: Schema, random: Random, pool: Pool): string {
  const days = ['2026-11-30', '2026-12-25', '2024-02-29', '1900-01-01', '2199-12-31']
  if (schema.format === 'date' || schema.pattern?.includes('\\d{4}-')) return random.pick([...days, ...hostileTexts.slice(-6)])
  if (schema.format === 'uuid') return random.pick(pool.ids)
  switch (random.int(0, 5)) {
    case 0:
    case 1:
      return random.pick(pool.ids)
    case 2:
      return random.pick(pool.labels)
    case 3:
      return random.pick(days)
    case 4:
      return 'x'.repeat(Math.min(5_000, Math.max(0, (schema.maxLength ?? 10) + random.int(0, 2) - 1)))
    default:
      return random.pick(hostileTexts)
  }
}

function numberOf(schema: Schema, random: Random): number {
  const { minimum, maximum, exclusiveMinimum, exclusiveMaximum } = schema
  const low = minimum ?? (exclusiveMinimum === undefined ? -3 : exclusiveMinimum + 1)
  const high = maximum ?? (exclusiveMaximum === undefined ? low + 40 : exclusiveMaximum - 1)
  switch (random.int(0, 7)) {
    case 0:
      return low
    case 1:
      return high
    case 2:
      return low - 1
    case 3:
      return high + 1
    case 4:
      return random.pick(hostileNumbers)
    default: {
      const span = Math.min(40, Math.max(0, high - low))
      return Math.trunc(low) + random.int(0, Math.floor(span))
    }
  }
}

/** A value that mostly is what a schema takes, at its edges and about what there is, and now and then is not. */
export function hostileValue(
  schema: Schema,
  asked: { random: Random; pool: Pool; resolve: (ref: string) => Schema },
  depth = 0,
): unknown {
  const { random, pool, resolve } = asked
  const inner = (one: Schema) => hostileValue(one, asked, depth + 1)
  if (random.chance(wildShare)) return wildValue(random, pool)
  if (schema.$ref !== undefined) return inner(resolve(schema.$ref))
  if ('const' in schema) return schema.const
  if (schema.enum) return random.pick(schema.enum)
  const choices = schema.anyOf ?? schema.oneOf
  if (choices) return inner(random.pick(choices))
  if (schema.allOf) return Object.assign({}, ...schema.allOf.map((one) => inner(one)).filter((one) => typeof one === 'object'))
  const type = Array.isArray(schema.type) ? random.pick(schema.type) : schema.type
  switch (type) {
    case 'null':
      return null
    case 'boolean':
      return random.pick([true, false])
    case 'integer':
    case 'number':
      return numberOf(schema, random)
    case 'string':
      return textOf(schema, random, pool)
    case 'array': {
      if (schema.prefixItems) return schema.prefixItems.map(inner)
      const least = schema.minItems ?? 0
      const most = schema.maxItems ?? 3
      const many = random.chance(1 / 30) ? most + 1 : Math.max(least, random.int(0, Math.min(most, 3)))
      const one = schema.items
      return one ? Array.from({ length: Math.min(many, 3_000) }, () => inner(one)) : []
    }
    case 'object': {
      const made: Record<string, unknown> = {}
      for (const [name, property] of Object.entries(schema.properties ?? {})) {
        const isNeeded = schema.required?.includes(name) ?? false
        if (isNeeded ? random.chance(1 / 40) : random.chance(1 / 2)) continue
        if (depth < 8) made[name] = inner(property)
      }
      const rest = schema.additionalProperties
      if (typeof rest === 'object')
        for (let left = random.int(0, 2); left > 0; left--)
          made[random.chance(1 / 3) ? random.pick(hostileTexts) : random.pick(pool.ids)] = inner(rest)
      if (random.chance(1 / 30)) Object.defineProperty(made, '__proto__', { value: 1, enumerable: true, configurable: true })
      return made
    }
    default:
      return wildValue(random, pool)
  }
}
