import type { Right } from './who'

/**
 * Thrown where somebody asks for what they may not do, whichever way they came.
 *
 * `digest` is what the web framework's own "forbidden" carries: pages and forms then answer with status 403 and the screen that says why
 * (app/forbidden.tsx), and nothing is logged as a fault. The API makes a problem of it.
 */
export class NotAllowed extends Error {
  readonly kind = 'not-allowed'
  readonly digest = 'NEXT_HTTP_ERROR_FALLBACK;403'

  constructor(readonly asked: Right) {
    super(`not allowed: ${asked}`)
    this.name = 'NotAllowed'
  }
}

/** Bundles apart from each other have classes of their own, so that `instanceof` does not tell. */
export const isNotAllowed = (error: unknown): error is NotAllowed =>
  typeof error === 'object' && error !== null && (error as { kind?: unknown }).kind === 'not-allowed' && error instanceof Error
