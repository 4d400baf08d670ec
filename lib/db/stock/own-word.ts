import 'server-only'

/** What a batch calls one of its put-ups; null when its line says the same, so that goods called alike are laid together. */
export function ownWord(putUpWord: string | null, lineWord: string): string | null {
  const word = putUpWord?.trim().toLowerCase().replace(/\s+/gu, ' ') ?? ''
  return word === '' || word === lineWord.toLowerCase() ? null : word
}
