/**
 * Thrown where something is to be written that its writer does not see: another owner's goods, named by an id nobody gave them.
 *
 * `digest` is what the web framework's own "not found" carries: pages and forms then answer as for what is not there.
 */
export class NotSeen extends Error {
  readonly kind = 'not-seen'
  readonly digest = 'NEXT_HTTP_ERROR_FALLBACK;404'

  constructor(readonly model: string) {
    super(`${model}: not among what may be seen`)
    this.name = 'NotSeen'
  }
}

/** Bundles apart from each other have classes of their own, so that `instanceof` does not tell. */
export const isNotSeen = (error: unknown): error is NotSeen =>
  error instanceof Error && (error as { kind?: unknown }).kind === 'not-seen'
