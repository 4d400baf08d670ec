/** What one cell of a sheet of drawers says of a thread; the name and the number of skeins are blank where it says none. */
export type Held = { code: string; name: string; skeins: string }

/** The threads of a cell: parted by semicolons, line ends, strokes with a space about them, and commas that are not a decimal mark. */
export const splitHeld = (cell: string): string[] =>
  cell
    .split(/[;\r\n]+|\s\/\s|,(?=\s|\p{L}{0,3}\d{3})(?![^(]*\))/u)
    .map((part) => part.replace(/\s+/gu, ' ').trim())
    .filter((part) => part !== '')

const amount = String.raw`\d{1,4}(?:[.,]\d{1,2})?|\d{1,2}\/\d{1,2}|\d{0,3}[½¼¾⅓⅔]`
const behind = new RegExp(
  String.raw`^(.*\S)\s*(?:\(\s*(?:[x×]\s*)?(${amount})\s*(?:[x×]|sk\p{L}*\.?)?\s*\)|(?:\s[x×*]|×)\s*(${amount})|[:=]\s*(${amount}))$`,
  'iu',
)
const before = new RegExp(String.raw`^(${amount})\s*[x×]\s+(.+)$`, 'iu')

/** `0311 (2)`, `0311 Pine ×2`, `2 x 0311`, `Ecru`: the code comes first, and is a word with a figure in it where there is one. */
export function readHeld(text: string): Held {
  const [, inFront, what] = before.exec(text) ?? []
  const [, rest, ...amounts] = (inFront === undefined ? behind.exec(text) : null) ?? []
  const skeins = inFront ?? amounts.find((one) => one !== undefined) ?? ''
  const thread = (what ?? rest ?? text).trim()
  const [, code, name = ''] = /^(\S*\d\S*)(?:\s+[-–]?\s*(.+))?$/u.exec(thread) ?? []
  return { code: code ?? thread, name: name.replace(/^\((.*)\)$/u, '$1'), skeins }
}
