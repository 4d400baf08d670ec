/** The answer to something a person asked for: the value, or the facts of why not (tagged by `kind`, no sentences). */
export type Result<T, E> = { ok: true; value: T } | { ok: false; error: E }

export const ok = <T>(value: T): { ok: true; value: T } => ({ ok: true, value })
export const refused = <E>(error: E): { ok: false; error: E } => ({ ok: false, error })
