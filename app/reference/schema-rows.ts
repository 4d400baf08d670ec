import { numberText } from '#language/figures'
/** As much of a JSON schema as the page shows. */
export type Schema = {
  $ref?: string
  type?: string | string[]
  description?: string
  enum?: unknown[]
  const?: unknown
  default?: unknown
  minimum?: number
  maximum?: number
  exclusiveMinimum?: number
  minLength?: number
  maxLength?: number
  minItems?: number
  maxItems?: number
  format?: string
  items?: Schema
  properties?: Record<string, Schema>
  required?: string[]
  additionalProperties?: boolean | Schema
  anyOf?: Schema[]
  oneOf?: Schema[]
  allOf?: Schema[]
}

export type Schemas = Readonly<Record<string, Schema>>

export type SchemaRow = { name: string; type: string; isRequired: boolean; words: string }

const nameOfRef = (ref: string): string => ref.slice(ref.lastIndexOf('/') + 1)
const number = (value: number): string => numberText(value)

function resolve(schema: Schema, schemas: Schemas): Schema {
  return schema.$ref === undefined
    ? schema
    : { ...schemas[nameOfRef(schema.$ref)], ...(schema.description && { description: schema.description }) }
}

const isNull = (schema: Schema): boolean => schema.type === 'null'
const variantsOf = (schema: Schema): Schema[] => (schema.oneOf ?? schema.anyOf ?? []).filter((variant) => !isNull(variant))

/** What a value is, in a few words: "whole number", "list of text", "text or null". */
function typeWords(schema: Schema, schemas: Schemas): string {
  if (schema.$ref !== undefined) {
    const name = nameOfRef(schema.$ref)
    const { type } = resolve(schema, schemas)
    return type === 'object' || variantsOf(resolve(schema, schemas)).length > 0
      ? name
      : typeWords(resolve(schema, schemas), schemas)
  }
  const variants = schema.oneOf ?? schema.anyOf
  if (variants) return [...new Set(variants.map((variant) => typeWords(variant, schemas)))].join(' or ')
  const types = [schema.type ?? []].flat()
  const words = types.map((type) => {
    if (type === 'integer') return 'whole number'
    if (type === 'string') return schema.format === 'date' ? 'day' : 'text'
    if (type === 'boolean') return 'true or false'
    if (type === 'array') return schema.items ? `list of ${typeWords(schema.items, schemas)}` : 'list'
    return type
  })
  return words.join(' or ') || 'anything'
}

/** What of it is taken, and what it means. */
function meaningWords(schema: Schema): string {
  const parts: string[] = []
  if (schema.description) parts.push(/[.!?]$/.test(schema.description) ? schema.description : `${schema.description}.`)
  const values = schema.enum ?? (schema.const === undefined ? undefined : [schema.const])
  if (values) parts.push(`${values.length > 1 ? 'One of ' : 'Always '}${values.map(String).join(', ')}.`)
  const { minimum, maximum, minItems, maxItems, maxLength } = schema
  const isList = maxItems !== undefined
  const [least, most] = isList ? [minItems, maxItems] : [minimum, maximum ?? maxLength]
  const unit = isList ? ' entries' : maxLength === undefined ? '' : ' characters'
  if (most !== undefined && most < Number.MAX_SAFE_INTEGER)
    parts.push(least === undefined ? `Up to ${number(most)}${unit}.` : `${number(least)} to ${number(most)}${unit}.`)
  if (schema.default !== undefined && schema.default !== null) parts.push(`${JSON.stringify(schema.default)} when left out.`)
  return parts.join(' ')
}

/** Deeper than this the names say little; the document has it all. */
const deepest = 4

/** Every field of a schema, a row each, with the path to it: `lines[].tally`. What a named schema holds is shown where it is first met. */
export function schemaRows(schema: Schema, schemas: Schemas): SchemaRow[] {
  const rows: SchemaRow[] = []
  const met = new Set<string>()

  function walk(inner: Schema, path: string, depth: number): void {
    if (inner.$ref !== undefined) {
      const name = nameOfRef(inner.$ref)
      if (met.has(name)) return
      met.add(name)
    }
    const here = resolve(inner, schemas)
    const variants = variantsOf(here)
    if (variants.length > 0) {
      for (const variant of variants) {
        const kind = resolve(variant, schemas).properties?.kind
        const value = kind?.enum?.[0] ?? kind?.const
        walk(variant, typeof value === 'string' && variants.length > 1 ? `${path}(${value}) ` : path, depth)
      }
      return
    }
    if (here.items) {
      walk(here.items, `${path}[]`, depth)
      return
    }
    if (depth > deepest) return
    for (const [name, property] of Object.entries(here.properties ?? {})) {
      const separator = path === '' || path.endsWith(' ') ? '' : '.'
      const full = `${path}${separator}${name}`
      const isRequired = here.required?.includes(name) ?? false
      rows.push({
        name: full,
        type: typeWords(property, schemas),
        isRequired,
        words: meaningWords(property.$ref ? resolve(property, schemas) : property),
      })
      walk(property, full, depth + 1)
    }
  }
  walk(schema, '', 0)
  return rows
}

export const parameterRow = (
  parameter: { name: string; required?: boolean; schema?: Schema; in: string },
  schemas: Schemas,
): SchemaRow => {
  const schema = parameter.schema ?? {}
  const where = parameter.in === 'path' ? ' in the path' : parameter.in === 'header' ? ' header' : ''
  const { items } = schema
  const words = meaningWords(items?.enum ? { ...schema, enum: items.enum } : schema)
  return {
    name: `${parameter.name}`,
    type: `${typeWords(schema, schemas)}${where}`,
    isRequired: parameter.required ?? false,
    words,
  }
}
