import type { Handler } from '#api/serve'

type Asked = {
  path?: string
  body?: unknown
  headers?: Record<string, string>
  /** Sent as it stands instead of `body` as JSON. */
  raw?: BodyInit
  method?: string
  parts?: Record<string, string>
}

/** Call a handler as a request from a program would. */
export async function ask(handler: Handler, asked: Asked = {}): Promise<{ status: number; headers: Headers; body: unknown }> {
  const body = asked.raw ?? (asked.body === undefined ? undefined : JSON.stringify(asked.body))
  const request = new Request(`http://127.0.0.1:4270/api/v1/${asked.path ?? ''}`, {
    method: asked.method ?? (body === undefined ? 'GET' : 'POST'),
    headers: { ...(asked.body === undefined ? {} : { 'content-type': 'application/json' }), ...asked.headers },
    body,
    // Node asks for it where a body is a stream.
    ...(body instanceof ReadableStream ? { duplex: 'half' } : {}),
  })
  const response = await handler(request, { params: Promise.resolve(asked.parts ?? {}) })
  const text = await response.text()
  return { status: response.status, headers: response.headers, body: text === '' ? null : JSON.parse(text) }
}
