import type { Right } from './who'

/**
 * Thrown where somebody asks for what they may not do, whichever way they came.
 *
 * `digest` is what the web framework's own "forbidden" carries: pages and forms then answer with status 403 and the screen that says why
 * (app/forbidden.tsx), and nothing is logged as a fault. A form sent without scripts has no such screen there, and is led to one by what
 * the framework's redirect carries (app/not-allowed). The API makes a problem of it.
 */
export class NotAllowed extends Error {
  readonly kind = 'not-allowed'
  readonly digest: string

  constructor(
    readonly asked: Right,
    { isPlainForm = false } = {},
  ) {
    super(`not allowed: ${asked}`)
    this.name = 'NotAllowed'
    this.digest = isPlainForm ? `NEXT_REDIRECT;replace;/not-allowed?asked=${asked};303;` : 'NEXT_HTTP_ERROR_FALLBACK;403'
  }
}

/** Bundles apart from each other have classes of their own, so that `instanceof` does not tell. */
export const isNotAllowed = (error: unknown): error is NotAllowed =>
  typeof error === 'object' && error !== null && (error as { kind?: unknown }).kind === 'not-allowed' && error instanceof Error
