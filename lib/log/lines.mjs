// What the program says of itself, to whoever keeps house: plain sentences, or with LARDER_LOG=json a line of JSON each, on stderr.
// Also for files that Node runs as they are (app/server.mjs, prisma/): so it is no TypeScript.
import { pino } from 'pino'
import { cleaned, routeOf } from './cleaned.mjs'

/** @typedef {'debug' | 'info' | 'warn' | 'error'} Level */
/**
 * What a line may carry beside its sentence. Nothing else is ever written: no body, no field of a form, no row.
 * @typedef {{
 *   id?: string, kind?: string, ms?: number, count?: number, revision?: number, process?: string, error?: unknown,
 *   method?: string, route?: string, status?: number, requestId?: string, sql?: string,
 * }} Facts
 */

const levels = ['debug', 'info', 'warn', 'error']
const facts = ['id', 'kind', 'ms', 'count', 'revision', 'process', 'method', 'route', 'status', 'requestId', 'sql']

const isJson = () => process.env.LARDER_LOG === 'json'

/** The least that is written: LARDER_LOG_LEVEL, or in JSON everything but what is for finding faults, in sentences what is amiss. */
function least() {
  const asked = process.env.LARDER_LOG_LEVEL ?? ''
  return levels.includes(asked) ? asked : isJson() ? 'info' : 'warn'
}

/** @type {{ level: string, logger: import('pino').Logger } | null} */
let writer = null

function json() {
  const level = least()
  if (writer?.level !== level) {
    const logger = pino(
      {
        level,
        messageKey: 'message',
        timestamp: pino.stdTimeFunctions.isoTime,
        base: { pid: process.pid },
        formatters: { level: (label) => ({ level: label }) },
      },
      // At once: the last line before an end is the one that is wanted.
      { write: (line) => process.stderr.write(line) },
    )
    writer = { level, logger }
  }
  return writer.logger
}

const plain = { debug: 'log', info: 'log', warn: 'warn', error: 'error' }

/**
 * @param {Level} level
 * @param {string} sentence  without anything a person typed
 * @param {Facts} [told]
 */
function say(level, sentence, told = {}) {
  const error = told.error === undefined ? undefined : cleaned(told.error)
  if (isJson()) {
    const kept = Object.fromEntries(facts.flatMap((name) => (told[name] === undefined ? [] : [[name, told[name]]])))
    const said = error && { error: { name: error.name, code: error.code, message: error.message, stack: error.stack } }
    json()[level]({ ...kept, ...said }, sentence)
    return
  }
  if (levels.indexOf(level) < levels.indexOf(least())) return
  const id = told.id ? ` (${told.id})` : ''
  if (error) console[plain[level]](`${sentence}${id}`, error)
  else console[plain[level]](`${sentence}${id}`)
}

export const log = {
  /** @type {(sentence: string, told?: Facts) => void} */
  debug: (sentence, told) => say('debug', sentence, told),
  /** @type {(sentence: string, told?: Facts) => void} */
  info: (sentence, told) => say('info', sentence, told),
  /** @type {(sentence: string, told?: Facts) => void} */
  warn: (sentence, told) => say('warn', sentence, told),
  /** @type {(sentence: string, told?: Facts) => void} */
  error: (sentence, told) => say('error', sentence, told),
}

/**
 * One line for a request that was answered, called once by the server when the answer is out.
 * @param {{ method: string, url: string, status: number, ms: number, requestId: string }} request
 */
export function logRequest({ method, url, status, ms, requestId }) {
  const level = status >= 500 ? 'warn' : 'info'
  const route = routeOf(url)
  const told = { method, route, status, ms: Math.round(ms), requestId }
  if (isJson()) json()[level](told, 'request')
  else log.info(`${method} ${route} ${status}, ${told.ms} ms`, { id: requestId })
}
