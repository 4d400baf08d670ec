// The HTTP server itself: started by app/serve.mjs with HOST, PORT and NODE_ENV. Every request is let in by the gate (app/_gate/gate.ts)
// before Next sees it; nobody is, before the gate is there.
import { randomUUID } from 'node:crypto'
import { createServer } from 'node:http'
import { createServer as createSecureServer } from 'node:https'
import { createServer as createDoor } from 'node:net'
import path from 'node:path'
import next from 'next'
import { log, logRequest } from '../lib/log/lines.mjs'
import { certificatePaths, followCertificate, readCertificate } from './certificate.mjs'
import { isOpenToNetwork, noKeeperSentence } from './host.mjs'

const root = path.dirname(import.meta.dirname)
const host = process.env.HOST || '127.0.0.1'
const port = Number(process.env.PORT || 4270)
const isDevelopment = process.env.NODE_ENV === 'development'
/** TRUST_PROXY: how many servers stand before this one and say truly who asks. */
const proxies = Math.max(0, Number.parseInt(process.env.TRUST_PROXY || '0', 10) || 0)
const listening = { host, isDevelopment, proxies }

/** With a certificate of its own it speaks HTTPS, and only that. */
const paths = certificatePaths(process.env)
const certificate = paths === null ? null : 'sentence' in paths ? paths : readCertificate(paths, Date.now())
if (certificate && 'sentence' in certificate) {
  console.error(`Chart Larder cannot speak HTTPS: ${certificate.sentence}`)
  process.exit(1)
}

const seconds = 1000
/** Headers come at once from anything that means it. */
const headersTimeoutMs = 20 * seconds
/** The whole of a request: an archive of gigabytes over a shop's radio network. */
const requestTimeoutMs = 3600 * seconds
/** A body that is waited for must not stand still for so long. */
const bodyStillMs = 30 * seconds
/** What is under way when it is told to stop has so long. */
const finishWithinMs = isDevelopment ? 500 : 15 * seconds
const endWithinMs = 10 * seconds

let upgrade = (_request, socket) => socket.destroy()
const app = next({
  dev: isDevelopment,
  dir: root,
  hostname: host,
  port,
  // Next would have every upgrade for itself; it is handed those that are meant for it.
  httpServer: {
    on: (_event, handler) => {
      upgrade = handler
    },
  },
})
await app.prepare()
const answer = app.getRequestHandler()

const gate = () => globalThis.larderGate

/** Next may still be calling register() (instrumentation.ts) when it says that it is prepared. */
for (let waited = 0; !gate() && waited < 1200; waited++) await new Promise((resolve) => setTimeout(resolve, 50))
if (!gate()) {
  console.error('Chart Larder could not begin: what lets requests in was not there after a minute.')
  process.exit(1)
}
if (isOpenToNetwork(host) && !(await gate().hasKeeper())) {
  console.error(noKeeperSentence(host))
  process.exit(1)
}

/** Requests under way, and how much had come of each when it was last looked at. */
const underWay = new Map()
let isStopping = false

function say503(response, sentence) {
  if (response.headersSent) return response.destroy()
  response.writeHead(503, {
    'content-type': 'text/plain; charset=utf-8',
    'cache-control': 'no-store',
    'retry-after': '5',
    connection: 'close',
  })
  response.end(`${sentence}\n`)
}

/** What a proxy that is trusted calls a request, else a name of our own: the same in its log and in ours. */
function requestIdOf(request) {
  const said = request.headers['x-request-id']
  return proxies > 0 && typeof said === 'string' && /^[\w-]{8,64}$/.test(said) ? said : randomUUID()
}

const make = (options, answers) =>
  certificate
    ? createSecureServer({ ...options, cert: certificate.value.cert, key: certificate.value.key, minVersion: 'TLSv1.2' }, answers)
    : createServer(options, answers)
const answerTo = (isInner) => async (request, response) => {
  underWay.set(request, { bytes: request.socket.bytesRead, sinceMs: Date.now() })
  const [beganMs, requestId] = [performance.now(), requestIdOf(request)]
  response.setHeader('x-request-id', requestId)
  response.once('close', () => {
    underWay.delete(request)
    const { method, url } = request
    logRequest({ method, url, status: response.statusCode, ms: performance.now() - beganMs, requestId })
  })
  if (isStopping) response.setHeader('connection', 'close')
  const admits = gate()
  if (!admits) return say503(response, 'Chart Larder is starting. Try again in a moment.')
  try {
    await admits.admit(request, response, { ...listening, isInner }, () => answer(request, response))
  } catch (error) {
    log.error('a request could not be answered', { error })
    say503(response, 'Chart Larder could not answer just now. Try again in a moment.')
  }
}
const limits = {
  headersTimeout: headersTimeoutMs,
  requestTimeout: requestTimeoutMs,
  keepAliveTimeout: 65 * seconds,
  connectionsCheckingInterval: 5 * seconds,
  maxHeaderSize: 32_768,
  // One without Host is no HTTP/1.1 request (RFC 9112, section 3.2).
  requireHostHeader: true,
}
const server = make(limits, answerTo(false))
server.maxHeadersCount = 100

/**
 * Where the program asks itself for the page that a sent form leads to, so that the answer brings it along and nobody waits for a page to be
 * loaded whole: by plain HTTP on this machine alone, since its own name and certificate are made for others. Next asks where this says.
 */
const inner = createServer(limits, answerTo(true))
inner.listen(0, '127.0.0.1', () => {
  process.env.__NEXT_PRIVATE_ORIGIN = `http://127.0.0.1:${inner.address().port}`
})
inner.on('error', (error) => log.warn('the program cannot ask itself for pages; forms load them whole', { error }))
inner.unref()

// A body sent a byte at a time would hold its place for as long as it likes.
const paces = setInterval(() => {
  const nowMs = Date.now()
  for (const [request, pace] of underWay) {
    const isWaitedFor = !request.complete && request.readableLength < request.readableHighWaterMark
    const { bytesRead } = request.socket
    if (!isWaitedFor || bytesRead - pace.bytes >= 1_000) underWay.set(request, { bytes: bytesRead, sinceMs: nowMs })
    else if (nowMs - pace.sinceMs >= bodyStillMs) request.socket.destroy()
  }
}, 5 * seconds)
paces.unref()

// The development server tells pages of changes by a socket; nothing else is upgraded.
server.on('upgrade', (request, socket, head) => {
  if (isDevelopment) upgrade(request, socket, head)
  else socket.destroy()
})
server.on('clientError', (error, socket) => {
  if (!socket.writable || error.code === 'ECONNRESET') return socket.destroy()
  const status =
    error.code === 'HPE_HEADER_OVERFLOW'
      ? '431 Request Header Fields Too Large'
      : error.code === 'ERR_HTTP_REQUEST_TIMEOUT'
        ? '408 Request Timeout'
        : '400 Bad Request'
  socket.end(`HTTP/1.1 ${status}\r\nconnection: close\r\ncontent-length: 0\r\n\r\n`)
})
/** Who comes by plain HTTP to where HTTPS is spoken is sent there, and told so. */
const plain = createServer({ headersTimeout: headersTimeoutMs }, (request, response) => {
  const { host: asked = '' } = request.headers
  const isPlainName = /^[\w.[\]:-]{1,255}$/.test(asked)
  const isLook = request.method === 'GET' || request.method === 'HEAD'
  const to = isPlainName ? `https://${asked}${isLook ? request.url : '/'}` : null
  response.writeHead(to && isLook ? 308 : 400, {
    ...(to && isLook ? { location: to } : {}),
    ...{ 'content-type': 'text/plain; charset=utf-8', 'cache-control': 'no-store', connection: 'close' },
  })
  response.end(`Chart Larder speaks HTTPS here${to ? `: ${to}` : ''}. Write https:// before the address.\n`)
})

/** The first byte of a connection says what is spoken: 22 begins a TLS handshake (RFC 8446, section 5.1). */
const door =
  certificate &&
  createDoor((socket) => {
    socket.on('error', () => socket.destroy())
    socket.setTimeout(headersTimeoutMs, () => socket.destroy())
    socket.once('data', (first) => {
      socket.pause()
      socket.setTimeout(0)
      socket.unshift(first)
      ;(first[0] === 22 ? server : plain).emit('connection', socket)
      process.nextTick(() => socket.resume())
    })
  })
if (paths && certificate) {
  const look = followCertificate(paths, {
    take: ({ cert, key }) => {
      server.setSecureContext({ cert, key })
      log.info('the certificate was read anew')
    },
    refuse: (sentence) => console.error(`The certificate was not read anew, and the one before stays: ${sentence}`),
  })
  process.on('SIGHUP', look)
}
const listener = door ?? server
listener.on('error', (error) => {
  console.error(`Chart Larder cannot listen to ${host} port ${port}: ${error.code ?? error.message}`)
  process.exit(1)
})
listener.listen(port, host)

const within = (ms, work) => Promise.race([work, new Promise((resolve) => setTimeout(resolve, ms).unref())])

/** No more is taken; what is under way is finished, then all that runs is ended, the database last. */
async function stop() {
  if (isStopping) return
  isStopping = true
  const closed = new Promise((resolve) => (door ? door.close(() => resolve(undefined)) : server.close(resolve)))
  server.closeIdleConnections()
  await within(finishWithinMs, closed)
  server.closeAllConnections()
  inner.closeAllConnections()
  for (const { name, end } of globalThis.larderBeforeShutdown ?? []) {
    try {
      await within(endWithinMs, Promise.resolve(end()))
    } catch (error) {
      log.error(`${name} did not end as it should`, { error })
    }
  }
  await within(endWithinMs, Promise.resolve(globalThis.larderDatabase?.prisma.$disconnect())).catch(() => {})
  process.exit(0)
}
for (const signal of ['SIGINT', 'SIGTERM']) process.on(signal, stop)
