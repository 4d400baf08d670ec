/**
 * Fold text for comparing names: compatibility forms, accents, case and runs of white space make no difference.
 * Codes are never folded for identity; see lib/thread/code-order.ts.
 */
export function textKey(text: string): string {
  // Most names are plain letters parted by single spaces, which the long way would only put into small ones.
  if (/^[!-~]*(?: [!-~]+)*$/.test(text)) return text.toLowerCase().trim()
  return text
    .normalize('NFKD')
    .replace(/\p{M}+/gu, '')
    .toLowerCase()
    .replace(/[\s\u00a0]+/gu, ' ')
    .trim()
}
