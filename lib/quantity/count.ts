/**
 * A count as an exact ratio: so many threads (or blocks) in so many micrometres.
 * 28 to the inch is `{ threads: 28, perUm: 25_400 }`, 110 per 10 cm is `{ threads: 110, perUm: 100_000 }`.
 */
export type Count = { threads: number; perUm: number }
