import { textKey } from '#lib/quantity/text-key'

/** Characters, as a person counts them. */
export const shortestPassword = 12
export const longestPassword = 200

export type PasswordRefusal = { kind: 'too-short'; least: number } | { kind: 'too-long'; most: number } | { kind: 'too-plain' }

/** One text for what two keyboards send differently (NIST SP 800-63B-4, section 3.1.1.2: NFKC or NFC before it is hashed). */
export const sameText = (password: string): string => password.normalize('NFKC')

/** What is guessed first; with digits and stops around it, it is no better. */
const guessable = [
  'password',
  'passphrase',
  'passwort',
  'letmein',
  'welcome',
  'administrator',
  'admin',
  'changeme',
  'iloveyou',
  'sunshine',
  'princess',
  'football',
  'baseball',
  'superman',
  'dragon',
  'monkey',
  'master',
  'secret',
  'login',
  'chartlarder',
  'chart',
  'larder',
  'crossstitch',
  'stitching',
  'stitch',
  'needlework',
  'embroidery',
] as const

/** Keys and letters in their order, once round, and backwards. */
const rows = ['abcdefghijklmnopqrstuvwxyz', '01234567890', 'qwertyuiop', 'qwertzuiop', 'azertyuiop', 'asdfghjkl', 'zxcvbnm']
const runs = rows.flatMap((row) => [row, [...row].reverse().join('')])

/** The length of the run along one of the rows that begins here: "cdefg" is 5. */
function runFrom(text: string, at: number): number {
  let longest = 1
  for (const run of runs) {
    let length = 1
    let place = run.indexOf(text[at] as string)
    while (place >= 0 && at + length < text.length && run[place + 1] === text[at + length]) {
      place++
      length++
    }
    longest = Math.max(longest, length)
  }
  return longest
}

/** What is left of a text without runs of four or more along a row of keys or letters. */
function withoutRuns(text: string): string {
  let left = ''
  for (let at = 0; at < text.length; ) {
    const length = runFrom(text, at)
    if (length < 4) left += text[at]
    at += length < 4 ? 1 : length
  }
  return left
}

/** "abcabcabcabc" → "abc"; a text that is no repeat stays. */
const unitOf = (text: string): string => /^(.+?)\1+$/su.exec(text)?.[1] ?? text

/**
 * Whether a password may be taken for an account of this name. No mixture of kinds of characters is asked for (NIST SP 800-63B-4, section
 * 3.1.1.2): length counts, and not being what is guessed first: the name, the program, a well-known word with figures after it, one piece
 * over and over, a run of keys.
 */
export function refusePassword(password: string, accountName: string): PasswordRefusal | null {
  const text = sameText(password)
  const count = [...text].length
  if (count < shortestPassword) return { kind: 'too-short', least: shortestPassword }
  if (count > longestPassword) return { kind: 'too-long', most: longestPassword }
  return isPlain(text, accountName) ? { kind: 'too-plain' } : null
}

function isPlain(text: string, accountName: string): boolean {
  const folded = textKey(text)
  if (new Set(folded).size < 4 || unitOf(folded).length < 5) return true
  const names = textKey(accountName)
    .split(/[^\p{L}\p{N}]+/u)
    .filter((part) => part.length > 2)
  const words = [...guessable, ...names, names.join('')].sort((a, b) => b.length - a.length)
  let left = folded.replace(/[^\p{L}\p{N}]+/gu, '')
  // A text of signs alone is nobody's first guess.
  if (left === '') return false
  for (const word of words) if (word !== '') left = left.replaceAll(word, ' ')
  return withoutRuns(left).replace(/[\d\s]+/gu, '').length < 3
}
