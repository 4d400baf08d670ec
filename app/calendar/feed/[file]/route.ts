import { say } from '#language/say'
import { asProgram } from '#lib/db/access/asking'
import { findFeedOwner } from '#lib/db/planning/days/calendar-feed'
import { readRevision } from '#lib/db/read-revision'
import { calendarDay } from '#lib/quantity/day'
import { calendarText } from '../../../_planning/calendar-text'
import { mayFetch } from '../may-fetch'

const plain = { 'x-content-type-options': 'nosniff', 'referrer-policy': 'no-referrer', 'x-robots-tag': 'noindex' }

/** Raised when the same collection is told otherwise. */
const form = 1

/**
 * One owner's calendar, to be followed by the address alone. It says the same until the collection or the day is another, so a calendar
 * that asks whether anything is new is mostly told that nothing is.
 */
export const GET = (request: Request, context: Context): Promise<Response> =>
  // Who knows the address need not sign in, and is shown that owner's days and nobody else's.
  asProgram(() => answer(request, context))

type Context = { params: Promise<{ file: string }> }

async function answer(request: Request, { params }: Context): Promise<Response> {
  const token = /^([\w-]{1,64})\.ics$/.exec((await params).file)?.[1] ?? ''
  const owner = await findFeedOwner(token)
  if (!owner) return new Response(say('There is no calendar at this address.\n'), { status: 404, headers: plain })
  const wait = mayFetch(token, Date.now())
  if (wait > 0)
    return new Response(say('Too often. Once in a quarter of an hour is enough.\n'), {
      status: 429,
      headers: { ...plain, 'retry-after': String(wait) },
    })
  const today = calendarDay(new Date())
  const etag = `"${form}-${await readRevision()}-${today}"`
  const headers = { ...plain, etag, 'cache-control': 'private, no-cache' }
  const known = (request.headers.get('if-none-match') ?? '').split(',').map((one) => one.trim().replace(/^W\//, ''))
  if (known.includes(etag)) return new Response(null, { status: 304, headers })
  return new Response(await calendarText([owner.id], owner.name, today), {
    headers: { ...headers, 'content-type': 'text/calendar; charset=utf-8' },
  })
}
