import {
  getAccessFallbackHTTPStatus,
  isHTTPAccessFallbackError,
} from 'next/dist/client/components/http-access-fallback/http-access-fallback'
import { getRedirectStatusCodeFromError, getURLFromRedirectError } from 'next/dist/client/components/redirect'
import { isRedirectError } from 'next/dist/client/components/redirect-error'
import { describe, expect, it } from 'vitest'
import { z } from 'zod'
import { operation } from '#api/operation'
import { serve } from '#api/serve'
import { textFields } from '#forms/text-fields'
import type { Right, Role, Who } from '#lib/access/who'
import { whileAsking } from '#lib/db/access/asking'
import { requireRight } from '#lib/db/access/right'
import { ask } from '#tests/unit/api/ask'

const signedIn = (role: Role = 'helper'): Who => ({
  ...{ kind: 'account', accountId: 'a1', name: 'Ines Coldwell', role, ownerIds: null },
  by: { kind: 'session', sessionId: 's1' },
})
const as = <T>(who: Who, work: () => T): T => whileAsking({ who, address: '192.168.1.20', onceKey: null }, work)

const anything = z.looseObject({})
/** An operation that answers with the body it was handed. */
const echo = (declared: { right?: Right; isForAnybody?: boolean } = {}) =>
  serve(
    operation({
      ...{ method: 'post', path: '/echo', id: 'echo', group: 'Service', summary: '', body: anything, answer: anything },
      ...{ answerMeans: '', example: { body: {}, answer: {} }, ...declared },
    }),
    async ({ body }) => body,
  )

describe('the name beside a change', () => {
  const said = { who: 'Somebody Else', by: null, note: 'by hand', ticks: [{ lineId: 'l1', by: 'Hanne Drewitt' }] }

  it('is the account’s, whatever a program says', async () => {
    const { body } = await as(signedIn(), () => ask(echo(), { body: said }))
    expect(body).toEqual({
      ...{ who: 'Ines Coldwell', by: 'Ines Coldwell', note: 'by hand' },
      ticks: [{ lineId: 'l1', by: 'Ines Coldwell' }],
    })
  })

  it('is what was said where nobody signs in', async () => {
    expect((await as({ kind: 'alone' }, () => ask(echo(), { body: said }))).body).toEqual(said)
  })

  it('is the account’s, whatever a form says', () => {
    const form = new FormData()
    for (const [name, value] of Object.entries({ who: 'Somebody Else', by: 'days' })) form.set(name, value)
    expect(textFields(form)).toEqual({ who: 'Somebody Else', by: 'days' })
    expect(as(signedIn(), () => textFields(form))).toEqual({ who: 'Ines Coldwell', by: 'days' })
    expect(as(signedIn(), () => textFields(form, 'by'))).toEqual({ who: 'Somebody Else', by: 'Ines Coldwell' })
  })
})

describe('an operation', () => {
  it.each([
    ['looker', 'read', 200],
    ['looker', 'change', 403],
    ['helper', 'change', 200],
    ['helper', 'keep', 403],
    ['keeper', 'keep', 200],
  ] as const)('asked for by a %s answers by what it asks, to %s: %i', async (role, right, status) => {
    const answered = await as(signedIn(role), () => ask(echo({ right }), { body: {} }))
    expect(answered.status).toBe(status)
    if (status === 403) expect(answered.body).toMatchObject({ type: '/reference#problem-not-allowed', status: 403 })
  })

  it('changes something unless it says otherwise', async () => {
    expect((await as(signedIn('looker'), () => ask(echo(), { body: {} }))).status).toBe(403)
  })

  it('says so where what it does asks for more than it said', async () => {
    const asksForMore = serve(
      operation({
        ...{ method: 'get', path: '/more', id: 'more', group: 'Service', summary: '', answer: anything },
        ...{ answerMeans: '', example: { answer: {} } },
      }),
      async () => {
        requireRight('keep')
        return {}
      },
    )
    expect((await as(signedIn(), () => ask(asksForMore))).status).toBe(403)
  })
})

it('leads a form that was sent without scripts to a page, and stops all else where it stands', () => {
  const thrown = (isPlainForm: boolean) => {
    try {
      whileAsking({ who: signedIn('looker'), address: '', onceKey: null, isPlainForm }, () => requireRight('change'))
    } catch (error) {
      return error as Error & { digest: string }
    }
    throw new Error('it was let through')
  }
  // As the framework itself reads what it is handed.
  const [led, stopped] = [thrown(true), thrown(false)]
  if (!isRedirectError(led)) throw led
  expect(getURLFromRedirectError(led)).toBe('/not-allowed?asked=change')
  expect(getRedirectStatusCodeFromError(led)).toBe(303)
  expect(isHTTPAccessFallbackError(stopped) && getAccessFallbackHTTPStatus(stopped)).toBe(403)
})
