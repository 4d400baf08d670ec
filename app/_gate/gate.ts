import { randomBytes } from 'node:crypto'
import type { IncomingMessage, ServerResponse } from 'node:http'
import { Problem } from '#api/problem'
import { admit, isLoopbackHost, type Knock } from '#lib/access/admit'
import { readCookie, sessionCookie, sessionCookieName } from '#lib/access/session'
import type { Who } from '#lib/access/who'
import { whoseOf } from '#lib/access/whose'
import { hasKeeper } from '#lib/db/access/accounts'
import { whileAsking } from '#lib/db/access/asking'
import { hasAccounts } from '#lib/db/access/known-accounts'
import { findSignedIn, rotateSession } from '#lib/db/access/sessions'
import { holderOfToken } from '#lib/db/access/tokens'
import { keepCatalogues, mayBeTrial } from '../_language/catalogues'
import { chooseLanguage, languageCookie } from '../_language/choose'
import { isPagePath, pagePolicy } from './page-policy'
import { refusals } from './refusal'

/** What app/server.mjs tells of itself. */
export type Listening = {
  /** The address it listens to. */
  host: string
  isDevelopment: boolean
  /** How many servers stand before it whose X-Forwarded-… headers are believed; 0 for none. */
  proxies: number
  /** Asked at the door where the program asks itself. */
  isInner: boolean
}

export type Gate = {
  /** Whether somebody can keep house: without, it stays off the network. */
  hasKeeper: () => Promise<boolean>
  /** Answer whoever is not let in; let the others' requests be answered by `next`, with who asks known throughout. */
  admit: (request: IncomingMessage, response: ServerResponse, listening: Listening, next: () => Promise<void>) => Promise<void>
}

const one = (value: string | string[] | undefined): string | null => (Array.isArray(value) ? (value[0] ?? null) : (value ?? null))

const forwardedNames = ['x-forwarded-for', 'x-forwarded-host', 'x-forwarded-proto', 'x-forwarded-port', 'forwarded'] as const

/** Nothing in a URL, and nothing kept by anybody between. */
const always = {
  'cache-control': 'no-store',
  'x-content-type-options': 'nosniff',
  'x-frame-options': 'DENY',
  'referrer-policy': 'same-origin',
  'content-security-policy': "default-src 'none'; frame-ancestors 'none'",
}

/** Only a form that was let in, and what Next asks on its behalf, knows it. */
const insideWord = randomBytes(18).toString('base64url')
const insideHeader = 'larder-inside'

type Arrival = { address: string; isHttps: boolean; isForwarded: boolean }

/**
 * Where a request comes from. Headers of servers between are believed where it was said that there are such (TRUST_PROXY): the last that
 * many hops of a list that anybody may begin. Otherwise they are taken off, so that nothing behind the gate believes them either.
 */
function arrivalOf(request: IncomingMessage, { proxies, isInner }: Listening): Arrival {
  const { headers, socket } = request
  if (isInner) {
    // As it was told of the form on whose behalf this is asked.
    headers.host = one(headers['x-forwarded-host']) ?? headers.host
    const address = (one(headers['x-forwarded-for']) ?? '').split(',').at(-Math.max(1, proxies))?.trim() ?? ''
    return { address, isHttps: one(headers['x-forwarded-proto']) === 'https', isForwarded: false }
  }
  const isForwarded = forwardedNames.some((name) => headers[name] !== undefined)
  const direct = (socket.remoteAddress ?? '').replace(/^::ffff:/, '')
  if (proxies === 0) {
    for (const name of forwardedNames) delete headers[name]
    return { address: direct, isHttps: 'encrypted' in socket && socket.encrypted === true, isForwarded }
  }
  const hops = (one(headers['x-forwarded-for']) ?? '').split(',').map((hop) => hop.trim())
  const host = one(headers['x-forwarded-host'])
  if (host !== null) headers.host = host
  return {
    address: hops.at(-proxies) || direct,
    isHttps: one(headers['x-forwarded-proto'])?.split(',').at(-1)?.trim() === 'https',
    isForwarded,
  }
}

const tokenIn = (request: IncomingMessage): string | null =>
  /^Bearer +(\S+)$/i.exec(one(request.headers.authorization) ?? '')?.[1] ?? null

function knockOf(request: IncomingMessage, { isForwarded }: Arrival): Knock {
  const { headers } = request
  const length = Number(headers['content-length'])
  return {
    method: request.method ?? 'GET',
    target: request.url ?? '/',
    host: one(headers.host),
    site: one(headers['sec-fetch-site']),
    origin: one(headers.origin),
    accept: one(headers.accept) ?? '',
    isRouterFetch: headers.rsc !== undefined,
    isFormFetch: headers['next-action'] !== undefined,
    hasToken: tokenIn(request) !== null,
    isForwarded,
    contentLength: Number.isFinite(length) ? length : null,
  }
}

/** Pages, whole or in part: what a new cookie may be handed out with. */
const isPageLook = ({ method, accept, isRouterFetch }: Knock): boolean =>
  method === 'GET' && (isRouterFetch || /\btext\/html\b/.test(accept))

async function admitRequest(
  request: IncomingMessage,
  response: ServerResponse,
  listening: Listening,
  next: () => Promise<void>,
): Promise<void> {
  const nowMs = Date.now()
  const arrival = arrivalOf(request, listening)
  const knock = knockOf(request, arrival)
  const isMeant = request.headers[insideHeader] === insideWord && knock.method === 'GET' && knock.isRouterFetch
  delete request.headers[insideHeader]
  if (listening.isInner && !isMeant) return refuse(request, response, refusals['other-site'], knock)
  const house = {
    hasAccounts: await hasAccounts(nowMs),
    isOnNetwork: !isLoopbackHost(listening.host.includes(':') ? `[${listening.host}]` : listening.host),
    isDevelopment: listening.isDevelopment,
  }
  const token = house.hasAccounts ? tokenIn(request) : null
  const secret =
    house.hasAccounts && token === null ? readCookie(request.headers.cookie, sessionCookieName(arrival.isHttps)) : null
  const who: Who = !house.hasAccounts
    ? { kind: 'alone' }
    : ((token !== null ? await holderOfToken(token) : secret !== null ? await findSignedIn(secret, nowMs) : null) ?? {
        kind: 'nobody',
      })

  if (arrival.isHttps) response.setHeader('strict-transport-security', 'max-age=31536000')
  // By it the worker on the device keeps apart what different people saw. What is built is everybody's, and kept by browsers.
  if (!knock.target.startsWith('/_next/')) response.setHeader('larder-whose', whoseOf(who))
  const admission = admit(knock, who, house)
  if (admission.kind === 'refused') return refuse(request, response, refusals[admission.why], knock)
  if (admission.kind === 'sign-in') return toSignIn(request, response, admission.returnTo, knock)
  // Nothing of what is asked within comes to a browser but the page: a new cookie would be lost.
  if (secret !== null && who.kind === 'account' && isPageLook(knock) && !listening.isInner) {
    const rotated = await rotateSession(secret, nowMs)
    if (rotated)
      response.appendHeader('set-cookie', sessionCookie(rotated.secret, { isHttps: arrival.isHttps, lastsMs: rotated.lastsMs }))
  }
  // What is signed in with is nobody's business behind the gate: no page can print it by mistake.
  delete request.headers.authorization
  // What everything behind the gate goes by.
  request.headers['x-forwarded-proto'] = arrival.isHttps ? 'https' : 'http'
  if (isPagePath(pathOf(knock))) giveNumber(request, response, listening)
  else delete request.headers['content-security-policy']
  if (knock.isFormFetch) request.headers[insideHeader] = insideWord
  const onceKey = one(request.headers['idempotency-key'])
  const isPlainForm = knock.method === 'POST' && !knock.isFormFetch && !knock.target.startsWith('/api/')
  const language = knock.target.startsWith('/api/') ? undefined : languageAsked(request)
  return whileAsking({ who, address: arrival.address, onceKey, isPlainForm, language }, next)
}

const pathOf = ({ target }: Knock): string => /^[^?#]*/.exec(target)?.[0] ?? target

/**
 * Every page is answered with a policy of its own: only scripts that carry this answer's number run. Next finds the number in the request
 * and gives it to the scripts it writes. A page that answers a form has one too: it may have been sent before its page's scripts ran.
 */
function giveNumber(request: IncomingMessage, response: ServerResponse, { isDevelopment }: Listening): void {
  const policy = pagePolicy({ nonce: randomBytes(16).toString('base64'), isDevelopment })
  request.headers['content-security-policy'] = policy
  response.setHeader('content-security-policy', policy)
}

/** Pages are said in the language chosen on the device, or the browser's. What programs ask for stays English. */
const languageAsked = ({ headers }: IncomingMessage): string =>
  chooseLanguage(
    { cookie: readCookie(headers.cookie, languageCookie), acceptLanguage: headers['accept-language'] ?? null },
    mayBeTrial(),
  ).key

async function refuse(
  request: IncomingMessage,
  response: ServerResponse,
  { problem, sentence }: (typeof refusals)[keyof typeof refusals],
  { accept, target }: Knock,
): Promise<void> {
  const answer = new Problem(problem, sentence).toResponse()
  const isForPerson = /\btext\/html\b/.test(accept) && !target.startsWith('/api')
  response.writeHead(answer.status, {
    ...always,
    ...(answer.status === 401 ? { 'www-authenticate': 'Bearer' } : {}),
    'content-type': isForPerson ? 'text/plain; charset=utf-8' : 'application/problem+json',
    // What is still on its way is not waited for.
    ...(request.complete ? {} : { connection: 'close' }),
  })
  response.end(isForPerson ? `${sentence}\n` : await answer.text())
}

/**
 * To the sign-in page. A page's own scripts are told so that they leave the page altogether, since nothing of it stands any more: one that
 * sent a form by its own redirect, one that asks for a part of a page by an answer it can do nothing with but load the whole.
 */
async function toSignIn(request: IncomingMessage, response: ServerResponse, returnTo: string, knock: Knock): Promise<void> {
  const location = returnTo === '/' ? '/sign-in' : `/sign-in?to=${encodeURIComponent(returnTo)}`
  const headers = { ...always, ...(request.complete ? {} : { connection: 'close' }) }
  if (knock.isFormFetch) response.writeHead(303, { ...headers, 'x-action-redirect': `${location};push` })
  else if (knock.isRouterFetch) response.writeHead(401, { ...headers, 'content-type': 'text/plain' })
  else response.writeHead(303, { ...headers, location })
  response.end()
}

/** Called once when the program has started: from then on app/server.mjs lets requests in. */
export function registerGate(): void {
  keepCatalogues()
  ;(globalThis as unknown as { larderGate?: Gate }).larderGate = { hasKeeper, admit: admitRequest }
}
