import { type Span, SpanStatusCode, type Tracer, trace } from '@opentelemetry/api'
import { afterAll, beforeAll, expect, it } from 'vitest'
import { inSpan } from '#lib/log/span'

/** What a SDK that was loaded would have been told. */
const told: { name: string; attributes: unknown; status: unknown; isEnded: boolean }[] = []

beforeAll(() => {
  const tracer = {
    startActiveSpan(name: string, { attributes }: { attributes: unknown }, work: (span: Span) => unknown) {
      const one: (typeof told)[number] = { name, attributes, status: null, isEnded: false }
      told.push(one)
      return work({
        setStatus: (status: unknown) => {
          one.status = status
        },
        end: () => {
          one.isEnded = true
        },
      } as unknown as Span)
    },
  } as unknown as Tracer
  trace.setGlobalTracerProvider({ getTracer: () => tracer })
})
afterAll(() => trace.disable())

it('tells a SDK that was loaded what was done, and that it broke, but not of what', async () => {
  expect(await inSpan('write', { 'larder.tried': 1 }, async () => 'written')).toBe('written')
  const error = new RangeError('keep the oat linen for Aunt Hanne')
  await expect(inSpan('job', {}, () => Promise.reject(error))).rejects.toBe(error)
  expect(told).toEqual([
    { name: 'write', attributes: { 'larder.tried': 1 }, status: null, isEnded: true },
    { name: 'job', attributes: {}, status: { code: SpanStatusCode.ERROR, message: 'RangeError' }, isEnded: true },
  ])
})

it('does the work all the same where none was loaded', async () => {
  trace.disable()
  expect(await inSpan('write', {}, async () => 7)).toBe(7)
})
