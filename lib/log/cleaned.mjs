// What may be written of an error and of an address: never what somebody typed, nor what lets anybody in.

const words = /^[a-z]{1,24}(?:-[a-z]{1,24}){0,4}(?:\.(?:json|pdf|csv|xlsx|zip|svg|webp|ico))?$/

/**
 * An address by the words of its route: whatever names one thing, or lets somebody in, becomes `:id`, and what was asked is left out.
 * @param {string} url
 */
export function routeOf(url) {
  const [path = '/'] = url.split(/[?#]/, 1)
  const parts = path.split('/').slice(0, 12)
  return parts.map((part) => (part === '' || part === 'v1' || part === '_next' || words.test(part) ? part : ':id')).join('/')
}

const secrets =
  /\b(pass(?:word|wd|phrase)?|secret|token|cookie|authorization|bearer|set-cookie)\b(\s*[=:]\s*|\s+)(?:(?:bearer|basic)\s+)?(?:"[^"]*"|'[^']*'|\S+)/gi
const inAddress = /(\b[a-z][a-z0-9+.-]*:\/\/)[^\s/@]+@/gi

/** @param {string} text */
const withoutSecrets = (text) => text.replace(inAddress, '$1…@').replace(secrets, '$1$2…').slice(0, 2_000)

/**
 * The message of an error without the values it was given: Prisma repeats what it was called with, PostgreSQL the text it could not read.
 * @param {{ name?: unknown, message?: unknown, code?: unknown, severity?: unknown }} error
 */
function messageOf(error) {
  const message = String(error.message ?? '')
  const name = String(error.name ?? '')
  if (name === 'PrismaClientValidationError') return 'Prisma was called with what does not fit the schema.'
  // Its last line says what is wrong; those before it, where.
  const last = name.startsWith('PrismaClient') ? (message.trim().split('\n').at(-1) ?? '') : message
  const isOfDatabase = name.startsWith('PrismaClient') || error.severity !== undefined || /^[0-9A-Z]{5}$/.test(String(error.code))
  return isOfDatabase ? last.replace(/: ("|').*$/s, ': …').replace(/Key \(([^)]*)\)=\(.*?\)/g, 'Key ($1)') : last
}

/**
 * The same error as it may be written: its kind, code, message and where it happened.
 * @param {unknown} error
 * @returns {Error & { code?: string }}
 */
export function cleaned(error) {
  if (!(error instanceof Error)) return new Error(withoutSecrets(messageOf({ message: String(error) })))
  const message = withoutSecrets(messageOf(error))
  const clean = Object.assign(new Error(message), { name: error.name })
  const { code } = /** @type {{ code?: unknown }} */ (error)
  if (typeof code === 'string' || typeof code === 'number') Object.assign(clean, { code: String(code) })
  const frames = (error.stack ?? '').split('\n').filter((line) => /^\s+at /.test(line))
  clean.stack = [`${error.name}: ${message}`, ...frames].join('\n')
  if (error.cause !== undefined) clean.cause = cleaned(error.cause)
  return clean
}
