import { readdirSync } from 'node:fs'
import path from 'node:path'
import { describe, expect, it } from 'vitest'
import { apiDocument } from '#api/document'
import { operations } from '#api/operations'
import { POST as clothSize } from '../../../app/api/v1/calculate/cloth-size/route'
import { POST as coverage } from '../../../app/api/v1/calculate/coverage/route'
import { POST as drumStrip } from '../../../app/api/v1/calculate/drum-strip/route'
import { POST as needle } from '../../../app/api/v1/calculate/needle/route'
import { POST as rulerCount } from '../../../app/api/v1/calculate/ruler-count/route'
import { POST as stitchesFrom } from '../../../app/api/v1/calculate/stitches-from/route'
import { POST as threadUse } from '../../../app/api/v1/calculate/thread-use/route'
import { POST as yardage } from '../../../app/api/v1/calculate/yardage/route'
import { GET } from '../../../app/api/v1/openapi.json/route'
import { ask } from './ask'

const folder = path.join(import.meta.dirname, '../../../app/api/v1')
const routeFiles = readdirSync(folder, { recursive: true, encoding: 'utf8' })
  .filter((file) => path.basename(file) === 'route.ts' && !file.includes('[[...'))
  .sort()
const addressOf = (file: string) => `/${path.dirname(file).split(path.sep).join('/')}`.replace(/\[(\w+)\]/g, '{$1}')

/** As a reader gets it: through JSON. */
const document = JSON.parse(JSON.stringify(apiDocument()))

function* refsIn(value: unknown): Generator<string> {
  if (value === null || typeof value !== 'object') return
  for (const [key, inner] of Object.entries(value)) {
    if (key === '$ref' && typeof inner === 'string') yield inner
    else yield* refsIn(inner)
  }
}

describe('openapi.json', () => {
  it('is served, in version 3.1', async () => {
    const { status, body } = await ask(GET)
    expect(status).toBe(200)
    expect(body).toEqual(document)
    expect(document.openapi).toMatch(/^3\.1\.\d$/)
    expect(document.info).toMatchObject({ title: 'Chart Larder' })
  })

  it('points only at what it holds', () => {
    const refs = [...refsIn(document)]
    expect(refs.length).toBeGreaterThan(0)
    for (const ref of refs) {
      const found = ref
        .split('/')
        .slice(1)
        .reduce((part: unknown, name) => (part as Record<string, unknown> | undefined)?.[name], document)
      expect(found, ref).toBeTypeOf('object')
    }
  })

  it('has every address there is, and no other', () => {
    expect(Object.keys(document.paths).sort()).toEqual(routeFiles.map(addressOf).sort())
  })

  it('has every method an address takes, and no other', async () => {
    for (const file of routeFiles) {
      const route = await import(path.join(folder, file))
      const response: Response = await route.OPTIONS(new Request('http://127.0.0.1/'))
      const taken = (response.headers.get('allow') ?? '').split(', ').filter((method) => !['OPTIONS', 'HEAD'].includes(method))
      const described = Object.keys(document.paths[addressOf(file)]).map((method) => method.toUpperCase())
      expect(described.sort(), file).toEqual(taken.sort())
    }
  })

  it('names each part of an address as a parameter', () => {
    for (const declared of operations) {
      const parts = [...declared.path.matchAll(/\{(\w+)\}/g)].map((part) => part[1])
      expect(Object.keys(declared.pathParameters?.shape ?? {}), declared.path).toEqual(parts)
    }
  })

  it('gives each operation an id of its own, words, and the problems it may answer with', () => {
    const ids = operations.map(({ id }) => id)
    expect(new Set(ids).size).toBe(ids.length)
    for (const methods of Object.values<Record<string, Record<string, unknown>>>(document.paths)) {
      for (const described of Object.values(methods)) {
        expect(described.summary).toBeTruthy()
        expect(Object.keys(described.responses as object)).toContain('500')
      }
    }
  })

  it.each(operations.map((declared) => [declared.id, declared] as const))(
    'shows examples of %s that pass its own schemas',
    (_id, declared) => {
      const { body, answer } = declared.example
      expect(declared.answer.safeParse(answer).error).toBeUndefined()
      expect(body !== undefined).toBe(declared.body !== undefined)
      if (declared.body) expect(declared.body.safeParse(body).error).toBeUndefined()
    },
  )

  it.each([
    ['calculateThreadUse', threadUse],
    ['calculateStitchesFrom', stitchesFrom],
    ['calculateClothSize', clothSize],
    ['calculateDrumStrip', drumStrip],
    ['calculateRulerCount', rulerCount],
    ['calculateCoverage', coverage],
    ['calculateYardage', yardage],
    ['calculateNeedle', needle],
  ] as const)('shows of %s the answer it gives', async (id, handler) => {
    const example = operations.find((declared) => declared.id === id)?.example
    expect((await ask(handler, { body: example?.body })).body).toEqual(example?.answer)
  })
})
