import { mkdtempSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import path from 'node:path'
import { describe, expect, it } from 'vitest'
import { certificatePaths, readCertificate } from '../../../app/certificate.mjs'

// Made by openssl for these tests alone: for localhost and 127.0.0.1, good from November 2026 for a hundred years.
const folder = path.join(import.meta.dirname, '../../certificates')
const certPath = path.join(folder, 'localhost.pem')
const keyPath = path.join(folder, 'localhost-key.pem')
const within = Date.UTC(2030, 0, 1)
const sentenceOf = (read: ReturnType<typeof readCertificate>) => (read.ok ? null : read.sentence)

describe('a certificate of its own', () => {
  it('is read with its key while it is good', () => {
    const read = readCertificate({ certPath, keyPath }, within)
    expect(read.ok && new Date(read.value.endsAtMs).getUTCFullYear()).toBe(2126)
  })

  it('is refused once it ran out, and before it holds', () => {
    expect(sentenceOf(readCertificate({ certPath, keyPath }, Date.UTC(2200, 0, 1)))).toMatch(/ran out on 2126-\d\d-\d\d/)
    expect(sentenceOf(readCertificate({ certPath, keyPath }, Date.UTC(2020, 0, 1)))).toMatch(/only holds from 2026-11-30 on/)
  })

  it('is refused with another certificate’s key', () => {
    const read = readCertificate({ certPath, keyPath: path.join(folder, 'other-key.pem') }, within)
    expect(sentenceOf(read)).toMatch(/does not belong to the certificate/)
  })

  it('says which of the two files is not there, and which is something else', () => {
    expect(sentenceOf(readCertificate({ certPath: '/nowhere/c.pem', keyPath }, within))).toBe(
      'LARDER_CERT names /nowhere/c.pem, and there is no such file.',
    )
    const other = path.join(mkdtempSync(path.join(tmpdir(), 'larder-cert-')), 'note.pem')
    writeFileSync(other, 'A note.')
    expect(sentenceOf(readCertificate({ certPath: other, keyPath }, within))).toMatch(
      /^LARDER_CERT .* no certificate in PEM form/,
    )
    expect(sentenceOf(readCertificate({ certPath, keyPath: other }, within))).toMatch(/^LARDER_KEY .* no private key in PEM form/)
  })

  it('wants both files or neither', () => {
    expect(certificatePaths({})).toBeNull()
    expect(certificatePaths({ LARDER_CERT: 'a' })).toHaveProperty('sentence')
    expect(certificatePaths({ LARDER_KEY: 'a' })).toHaveProperty('sentence')
    expect(certificatePaths({ LARDER_CERT: 'a', LARDER_KEY: 'b' })).toEqual({ certPath: 'a', keyPath: 'b' })
  })
})
