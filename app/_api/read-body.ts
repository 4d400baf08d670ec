import { Problem } from './problem'

const MB = 1_000_000
const mostJsonBytes = MB
const mostFileBytes = 60 * MB

const mediaTypeOf = (request: Request): string =>
  (request.headers.get('content-type') ?? '').split(';', 1)[0]?.trim().toLowerCase() ?? ''

/** The whole body, never more than `most` of it in memory. */
async function readBytes(request: Request, most: number): Promise<Uint8Array<ArrayBuffer> | Problem> {
  const tooLarge = new Problem('too-large', `The body is larger than ${most / MB} MB.`)
  if (Number(request.headers.get('content-length') ?? 0) > most) return tooLarge
  const chunks: Uint8Array[] = []
  let count = 0
  const reader = request.body?.getReader()
  while (reader) {
    const { done, value } = await reader.read()
    if (done) break
    count += value.byteLength
    if (count > most) {
      await reader.cancel()
      return tooLarge
    }
    chunks.push(value)
  }
  const bytes = new Uint8Array(count)
  let at = 0
  for (const chunk of chunks) {
    bytes.set(chunk, at)
    at += chunk.byteLength
  }
  return bytes
}

/** Half of a character: JSON can escape it (\\ud800 alone), and no text can hold it. */
const halfCharacter = /\p{Surrogate}/u
class HalfCharacter extends Error {}

function wholeCharacters(key: string, value: unknown): unknown {
  if (halfCharacter.test(key) || (typeof value === 'string' && halfCharacter.test(value))) throw new HalfCharacter()
  return value
}

/** The body as JSON, together with its text. */
export async function readJson(request: Request): Promise<{ value: unknown; text: string } | Problem> {
  const mediaType = mediaTypeOf(request)
  if (mediaType !== 'application/json' && !/^application\/[\w.-]+\+json$/.test(mediaType))
    return new Problem('unsupported-media-type', 'Send JSON, with Content-Type: application/json.')
  const bytes = await readBytes(request, mostJsonBytes)
  if (bytes instanceof Problem) return bytes
  try {
    const text = new TextDecoder('utf-8', { fatal: true }).decode(bytes)
    return { value: JSON.parse(text, /\\u[dD][89a-fA-F]/.test(text) ? wholeCharacters : undefined), text }
  } catch (error) {
    if (error instanceof HalfCharacter) return new Problem('bad-json', 'A text in the body holds half of a character.')
    return new Problem('bad-json', bytes.byteLength === 0 ? 'The body is empty.' : 'The body is not JSON in UTF-8.')
  }
}

export type PostedFile = { bytes: Uint8Array<ArrayBuffer>; name: string; fields: Record<string, string> }

export const fileMediaTypes = ['multipart/form-data', 'text/csv'] as const

/** A posted file: the body itself as text/csv, or the part named `file` of a form, whose other parts are `fields`. */
export async function readFile(request: Request): Promise<PostedFile | Problem> {
  const mediaType = mediaTypeOf(request)
  if (!fileMediaTypes.some((known) => known === mediaType))
    return new Problem('unsupported-media-type', `Send the file as ${fileMediaTypes.join(' or ')}.`)
  const bytes = await readBytes(request, mostFileBytes)
  if (bytes instanceof Problem) return bytes
  if (mediaType === 'text/csv') return { bytes, name: 'posted.csv', fields: {} }
  let form: FormData
  try {
    form = await new Response(bytes, { headers: { 'content-type': request.headers.get('content-type') ?? '' } }).formData()
  } catch {
    return new Problem('unsupported-media-type', 'The form could not be read: its boundary or its parts are broken.')
  }
  const file = form.get('file')
  if (!(file instanceof File))
    return new Problem('invalid', 'The form has no file.', {
      errors: [{ field: '/file', message: 'It is missing.', accepted: 'a file' }],
    })
  const fields: Record<string, string> = Object.create(null)
  for (const [name, value] of form) if (typeof value === 'string') fields[name] = value
  return { bytes: new Uint8Array(await file.arrayBuffer()), name: file.name || 'posted.csv', fields }
}
