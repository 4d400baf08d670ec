/**
 * Long work in steps: it yields every few milliseconds, so that whoever runs it can answer others in between, say how far it is, or let it
 * be. What it returns does not hang on how it is run.
 */
export type Steps<T> = Generator<undefined, T, undefined>

/** Run all of it at once. */
export function finish<T>(steps: Steps<T>): T {
  for (;;) {
    const step = steps.next()
    if (step.done) return step.value
  }
}

/** Rows after which a loop over rows yields. */
export const rowsAStep = 500
