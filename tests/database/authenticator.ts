import { createHash, createPrivateKey, generateKeyPairSync, type KeyObject, randomBytes, sign } from 'node:crypto'
import type { MadePasskey, UsedPasskey } from '#lib/access/passkey'

const sha256 = (bytes: Uint8Array | string): Buffer => createHash('sha256').update(bytes).digest()
const base64url = (bytes: Uint8Array | string): string => Buffer.from(bytes).toString('base64url')

/** CBOR of one byte's head and a count (RFC 8949, section 3), as far as these vectors need it. */
function head(major: number, count: number): Buffer {
  if (count < 24) return Buffer.from([(major << 5) | count])
  if (count < 256) return Buffer.from([(major << 5) | 24, count])
  return Buffer.from([(major << 5) | 25, count >> 8, count & 255])
}
const cborNumber = (value: number): Buffer => (value >= 0 ? head(0, value) : head(1, -1 - value))
const cborBytes = (bytes: Uint8Array): Buffer => Buffer.concat([head(2, bytes.length), bytes])
const cborText = (text: string): Buffer => Buffer.concat([head(3, Buffer.byteLength(text)), Buffer.from(text)])
const cborMap = (entries: readonly (readonly [Buffer, Buffer])[]): Buffer =>
  Buffer.concat([head(5, entries.length), ...entries.flat()])

type Flags = { isVerified?: boolean; isBackupEligible?: boolean; isBackedUp?: boolean }

/** Bits of authenticator data (W3C Web Authentication Level 3, section 6.1): UP 0, UV 2, BE 3, BS 4, AT 6. */
const flagsOf = ({ isVerified = true, isBackupEligible = false, isBackedUp = false }: Flags, hasKey: boolean): number =>
  1 | (isVerified ? 4 : 0) | (isBackupEligible ? 8 : 0) | (isBackedUp ? 16 : 0) | (hasKey ? 64 : 0)

export type Said = Flags & {
  challenge: string
  /** What the browser takes the site to be. */
  origin: string
  rpId: string
  counter?: number
}

/** A device that makes one passkey with a P-256 key of its own and signs with it, as a browser and an authenticator would together. */
export class Device {
  readonly credentialId = randomBytes(16)
  readonly #key: KeyObject
  readonly #x: Buffer
  readonly #y: Buffer
  readonly userHandle: string

  constructor(userHandle: string) {
    this.userHandle = userHandle
    const { privateKey, publicKey } = generateKeyPairSync('ec', { namedCurve: 'P-256' })
    this.#key = createPrivateKey(privateKey.export({ type: 'pkcs8', format: 'pem' }) as string)
    const { x, y } = publicKey.export({ format: 'jwk' })
    this.#x = Buffer.from(x as string, 'base64url')
    this.#y = Buffer.from(y as string, 'base64url')
  }

  /** Section 6.1: hash of the RP's id, flags, counter, and at registration the key (RFC 9052: kty EC2, alg ES256, crv P-256). */
  #data({ rpId, counter = 0, ...flags }: Said, hasKey: boolean): Buffer {
    const counted = Buffer.alloc(4)
    counted.writeUInt32BE(counter)
    const start = Buffer.concat([sha256(rpId), Buffer.from([flagsOf(flags, hasKey)]), counted])
    if (!hasKey) return start
    const length = Buffer.alloc(2)
    length.writeUInt16BE(this.credentialId.length)
    const key = cborMap([
      [cborNumber(1), cborNumber(2)],
      [cborNumber(3), cborNumber(-7)],
      [cborNumber(-1), cborNumber(1)],
      [cborNumber(-2), cborBytes(this.#x)],
      [cborNumber(-3), cborBytes(this.#y)],
    ])
    return Buffer.concat([start, Buffer.alloc(16), length, this.credentialId, key])
  }

  #named() {
    const id = base64url(this.credentialId)
    return { id, rawId: id, type: 'public-key' as const }
  }

  make(said: Said, format: 'none' | 'packed with certificates' = 'none'): MadePasskey {
    const statement =
      format === 'none'
        ? cborMap([])
        : cborMap([
            [cborText('alg'), cborNumber(-7)],
            [cborText('sig'), cborBytes(randomBytes(70))],
            [cborText('x5c'), Buffer.concat([head(4, 1), cborBytes(randomBytes(100))])],
          ])
    const attestation = cborMap([
      [cborText('fmt'), cborText(format === 'none' ? 'none' : 'packed')],
      [cborText('attStmt'), statement],
      [cborText('authData'), cborBytes(this.#data(said, true))],
    ])
    const clientData = JSON.stringify({
      type: 'webauthn.create',
      challenge: said.challenge,
      origin: said.origin,
      crossOrigin: false,
    })
    return {
      ...this.#named(),
      response: {
        clientDataJSON: base64url(clientData),
        attestationObject: base64url(attestation),
        transports: ['internal'],
      },
    }
  }

  /** Sign as section 6.3.3 has it: over the authenticator data and the hash of the client data. */
  use(said: Said): UsedPasskey {
    const data = this.#data(said, false)
    const clientData = JSON.stringify({
      type: 'webauthn.get',
      challenge: said.challenge,
      origin: said.origin,
      crossOrigin: false,
    })
    const signature = sign('sha256', Buffer.concat([data, sha256(clientData)]), this.#key)
    return {
      ...this.#named(),
      response: {
        clientDataJSON: base64url(clientData),
        authenticatorData: base64url(data),
        signature: base64url(signature),
        userHandle: this.userHandle,
      },
    }
  }
}
