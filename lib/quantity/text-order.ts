/** Texts as they stand, by their code units: the same order everywhere, whatever the language. For order only, never for what people read. */
export const byText = (a: string, b: string): number => (a < b ? -1 : a > b ? 1 : 0)
