// The certificate by which the program speaks HTTPS itself, where LARDER_CERT and LARDER_KEY name one.
import { createPrivateKey, X509Certificate } from 'node:crypto'
import { readFileSync, statSync } from 'node:fs'

/** Files written anew are seen within this long, also without being told (SIGHUP). */
const lookAgainMs = 30_000

/** @typedef {{ cert: string, key: string, endsAtMs: number }} Certificate PEM: the certificate with those above it, and its key. */

/**
 * Where the certificate is, by the environment.
 *
 * @returns {null | { certPath: string, keyPath: string } | { sentence: string }} null where none is wanted
 */
export function certificatePaths({ LARDER_CERT: certPath = '', LARDER_KEY: keyPath = '' }) {
  if (certPath === '' && keyPath === '') return null
  if (certPath === '')
    return { sentence: 'LARDER_KEY is set and LARDER_CERT is not. HTTPS wants both: the certificate and its key.' }
  if (keyPath === '')
    return { sentence: 'LARDER_CERT is set and LARDER_KEY is not. HTTPS wants both: the certificate and its key.' }
  return { certPath, keyPath }
}

/**
 * Read a certificate and its key, and hold them against each other and the clock.
 *
 * @param {{ certPath: string, keyPath: string }} paths
 * @param {number} nowMs
 * @returns {{ ok: true, value: Certificate } | { ok: false, sentence: string }}
 */
export function readCertificate({ certPath, keyPath }, nowMs) {
  const refused = (sentence) => ({ ok: false, sentence })
  const texts = []
  for (const [name, file] of [
    ['LARDER_CERT', certPath],
    ['LARDER_KEY', keyPath],
  ]) {
    try {
      texts.push(readFileSync(file, 'utf8'))
    } catch (error) {
      const why = error.code === 'ENOENT' ? 'there is no such file' : error.code === 'EACCES' ? 'it may not be read' : error.code
      return refused(`${name} names ${file}, and ${why}.`)
    }
  }
  const [cert, key] = texts
  let known
  try {
    known = new X509Certificate(cert)
  } catch {
    return refused(`LARDER_CERT names ${certPath}, which is no certificate in PEM form ("-----BEGIN CERTIFICATE-----").`)
  }
  let ownKey
  try {
    ownKey = createPrivateKey(key)
  } catch {
    return refused(`LARDER_KEY names ${keyPath}, which is no private key in PEM form, or one that is locked by a password.`)
  }
  if (!known.checkPrivateKey(ownKey))
    return refused(`The key in ${keyPath} does not belong to the certificate in ${certPath}. Name the key it was made with.`)
  const [beginsAtMs, endsAtMs] = [Date.parse(known.validFrom), Date.parse(known.validTo)]
  const day = (atMs) => new Date(atMs).toISOString().slice(0, 10)
  if (endsAtMs < nowMs) return refused(`The certificate in ${certPath} ran out on ${day(endsAtMs)}. Make or fetch a new one.`)
  if (beginsAtMs > nowMs)
    return refused(`The certificate in ${certPath} only holds from ${day(beginsAtMs)} on. Is this machine’s clock right?`)
  return { ok: true, value: { cert, key, endsAtMs } }
}

/**
 * Hear of a certificate that was written anew, and use it for the connections that come after.
 *
 * @param {{ certPath: string, keyPath: string }} paths
 * @param {{ take: (certificate: Certificate) => void, refuse: (sentence: string) => void }} hears  one that is wrong is not taken; the old one stays
 * @returns {() => void} look at once, whatever the files' times say
 */
export function followCertificate(paths, { take, refuse }) {
  const timesOf = () => {
    try {
      return [paths.certPath, paths.keyPath].map((file) => statSync(file).mtimeMs).join(' ')
    } catch {
      return ''
    }
  }
  let seen = timesOf()
  const look = () => {
    seen = timesOf()
    const read = readCertificate(paths, Date.now())
    if (read.ok) take(read.value)
    else refuse(read.sentence)
  }
  // Two files are not written in one moment: they are looked at when they have stood still for a turn.
  let isChanging = false
  setInterval(() => {
    const times = timesOf()
    const isSame = times === seen
    seen = times
    if (!isSame) isChanging = true
    else if (isChanging) {
      isChanging = false
      look()
    }
  }, lookAgainMs).unref()
  return look
}
