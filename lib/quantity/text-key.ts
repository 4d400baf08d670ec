/**
 * Fold text for comparing names: compatibility forms, accents, case and runs of white space make no difference.
 * Codes are never folded for identity; see lib/thread/code-order.ts.
 */
export function textKey(text: string): string {
  return text
    .normalize('NFKD')
    .replace(/\p{M}+/gu, '')
    .toLowerCase()
    .replace(/[\s\u00a0]+/gu, ' ')
    .trim()
}
