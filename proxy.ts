import { randomBytes } from 'node:crypto'
import { type NextRequest, NextResponse } from 'next/server'
import { pagePolicy } from './app/_ui/page-policy'

/** Every page is answered with a policy of its own: only scripts that carry this answer's number run. */
export function proxy(request: NextRequest): NextResponse {
  const policy = pagePolicy({
    nonce: randomBytes(16).toString('base64'),
    isDevelopment: process.env.NODE_ENV === 'development',
  })
  // Next finds the number in the request and gives it to the scripts it writes.
  const headers = new Headers(request.headers)
  headers.set('content-security-policy', policy)
  const response = NextResponse.next({ request: { headers } })
  response.headers.set('content-security-policy', policy)
  return response
}

export const config = {
  matcher: [
    {
      // Pages; not what is built, fetched or downloaded.
      source: '/((?!_next/|api/|language/|photos/|files/|.*\\.(?:pdf|csv|svg|png|webp|ico|ics|js|json|webmanifest|xlsx|zip)$).*)',
      // Forms and uploads come with a kind of content. A proxy would hold all of it in memory: next.config.mjs sees to those.
      missing: [{ type: 'header', key: 'content-type' }],
    },
  ],
}
