import type { Result } from '#lib/result'

/** The value of what was granted; a refusal fails the test with its facts. */
export function granted<T, E>(result: Result<T, E>): T {
  if (!result.ok) throw new Error(`refused: ${JSON.stringify(result.error)}`)
  return result.value
}
