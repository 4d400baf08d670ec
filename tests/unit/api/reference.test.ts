import { createElement } from 'react'
import { renderToStaticMarkup } from 'react-dom/server'
import { describe, expect, it } from 'vitest'
import { operations } from '#api/operations'
import { problemKinds } from '#api/problem'
import { OperationEntry } from '../../../app/reference/operation-entry'
import { ReferenceOverview } from '../../../app/reference/overview'
import { type Schemas, schemaRows } from '../../../app/reference/schema-rows'
import { operationView } from '../../../app/reference/views'

describe('fields of a schema', () => {
  const schemas: Schemas = {
    Thread: { type: 'object', properties: { code: { type: 'string', maxLength: 200 } }, required: ['code'] },
    Loop: { type: 'object', properties: { inner: { $ref: '#/components/schemas/Loop' } } },
  }

  it('are listed with the path to each, named schemas where first met', () => {
    const rows = schemaRows(
      {
        type: 'object',
        required: ['lines'],
        properties: {
          lines: { type: 'array', minItems: 1, maxItems: 5, items: { $ref: '#/components/schemas/Thread' } },
          other: { anyOf: [{ $ref: '#/components/schemas/Thread' }, { type: 'null' }], description: 'Another' },
          over: { enum: [1, 2], type: 'integer', default: 2 },
        },
      },
      schemas,
    )
    expect(rows).toEqual([
      { name: 'lines', type: 'list of Thread', isRequired: true, words: '1 to 5 entries.' },
      { name: 'lines[].code', type: 'text', isRequired: true, words: 'Up to 200 characters.' },
      { name: 'other', type: 'Thread or null', isRequired: false, words: 'Another.' },
      { name: 'over', type: 'whole number', isRequired: false, words: 'One of 1, 2. 2 when left out.' },
    ])
  })

  it('end where a schema holds itself', () => {
    expect(schemaRows({ $ref: '#/components/schemas/Loop' }, schemas).map(({ name }) => name)).toEqual(['inner'])
  })

  it('are told apart by kind where there are several forms', () => {
    const form = (kind: string, field: string) => ({
      type: 'object',
      properties: { kind: { enum: [kind] }, [field]: { type: 'boolean' } },
    })
    expect(schemaRows({ oneOf: [form('use', 'a'), form('move', 'b')] }, {}).map(({ name }) => name)).toEqual([
      '(use) kind',
      '(use) a',
      '(move) kind',
      '(move) b',
    ])
  })
})

describe('the reference', () => {
  const html = renderToStaticMarkup(createElement(ReferenceOverview))
  const ids = [...html.matchAll(/ id="([^"]+)"/g)].map((match) => match[1] as string)

  it('has every operation and every problem, each with an address of its own', () => {
    for (const { id } of operations) expect(ids).toContain(id)
    for (const kind of Object.keys(problemKinds)) expect(ids).toContain(`problem-${kind}`)
    expect(new Set(ids).size).toBe(ids.length)
  })

  it('points only at what is on it, and at each operation’s own page', () => {
    for (const [, target] of html.matchAll(/href="#([^"]+)"/g)) expect(ids).toContain(target)
    const pages = [...html.matchAll(/href="\/reference\?operation=([^"]+)"/g)].map(([, id]) => id)
    expect(pages.sort()).toEqual(operations.map(({ id }) => id as string).sort())
  })

  it('is no more than a phone reads in a moment', () => {
    expect(html.length).toBeLessThan(400_000)
  })

  it.each(operations.map((declared) => [declared.id, declared] as const))('says all of %s on a page', (_, declared) => {
    const page = renderToStaticMarkup(createElement(OperationEntry, { operation: operationView(declared) }))
    expect(page).toContain(`/api/v1${declared.path}`)
    for (const { kind } of operationView(declared).problems) expect(page).toContain(`href="/reference#problem-${kind}"`)
  })
})
