/**
 * Messages in the part of ICU MessageFormat that this house writes (Unicode, ICU User Guide, "Formatting Messages"):
 *
 *   {name}   {count, number}   {count, plural, =0 {…} one {…} other {… # …}}   {place, selectordinal, …}   {isOwn, select, yes {…} other {…}}
 *   <link>words</link>, and apostrophes that quote: '{' and ''
 *
 * Written here because it is sent to the browser: a tenth of a library's size. tests/unit/language holds it to one.
 */
export type Part = string | { name: string; isNumber?: true } | { hash: true } | Choice | { tag: string; parts: Part[] }
type Choice = { name: string; by: 'plural' | 'selectordinal' | 'select'; cases: Record<string, Part[]> }

const parsed = new Map<string, Part[]>()

/** @throws {RangeError} if it is no such message. */
export function parseMessage(message: string): Part[] {
  let parts = parsed.get(message)
  if (!parts) {
    const reader = { message, at: 0 }
    parts = readParts(reader, false, null)
    if (reader.at < message.length) throw wrong(reader)
    parsed.set(message, parts)
  }
  return parts
}

type Reader = { message: string; at: number }

const wrong = ({ message, at }: Reader) => new RangeError(`parseMessage: ${JSON.stringify(message)} at ${at}`)

/** Parts up to the end, the closing brace of a case, or the closing tag of an element. */
function readParts(reader: Reader, hasHash: boolean, tag: string | null): Part[] {
  const { message } = reader
  const parts: Part[] = []
  let text = ''
  const flush = () => {
    if (text !== '') parts.push(text)
    text = ''
  }
  while (reader.at < message.length) {
    const sign = message.charAt(reader.at)
    if (sign === "'") {
      text += readQuoted(reader, hasHash)
    } else if (sign === '{') {
      flush()
      parts.push(readArgument(reader))
    } else if (sign === '}') {
      break
    } else if (sign === '#' && hasHash) {
      flush()
      parts.push({ hash: true })
      reader.at++
    } else if (sign === '<' && /^<\/?[a-z]/i.test(message.slice(reader.at, reader.at + 3))) {
      if (message.charAt(reader.at + 1) === '/') break
      flush()
      const name = take(reader, /<([a-z]\w*)>/iy)
      const inside = readParts(reader, hasHash, name)
      if (take(reader, /<\/([a-z]\w*)>/iy) !== name) throw wrong(reader)
      parts.push({ tag: name, parts: inside })
    } else {
      text += sign
      reader.at++
    }
  }
  if (tag !== null && !message.startsWith(`</${tag}>`, reader.at)) throw wrong(reader)
  flush()
  return parts
}

/** From an apostrophe on: one that stands for itself, or what it quotes up to the next. */
function readQuoted(reader: Reader, hasHash: boolean): string {
  const { message } = reader
  const next = message.charAt(reader.at + 1)
  if (next === "'") {
    reader.at += 2
    return "'"
  }
  if (next !== '{' && next !== '}' && next !== '<' && next !== '>' && !(next === '#' && hasHash)) {
    reader.at++
    return "'"
  }
  let text = ''
  for (reader.at++; reader.at < message.length; reader.at++) {
    if (message.charAt(reader.at) !== "'") text += message.charAt(reader.at)
    else if (message.charAt(reader.at + 1) === "'") {
      text += "'"
      reader.at++
    } else {
      reader.at++
      break
    }
  }
  return text
}

function take(reader: Reader, pattern: RegExp): string {
  pattern.lastIndex = reader.at
  const found = pattern.exec(reader.message)
  if (!found) throw wrong(reader)
  reader.at = pattern.lastIndex
  return found[1] ?? ''
}

function readArgument(reader: Reader): Part {
  const name = take(reader, /\{\s*(\w+)\s*/y)
  if (reader.message.charAt(reader.at) === '}') {
    reader.at++
    return { name }
  }
  const by = take(reader, /,\s*(number|plural|selectordinal|select)\s*/y)
  if (by === 'number') {
    take(reader, /\}/y)
    return { name, isNumber: true }
  }
  take(reader, /,\s*/y)
  const cases: Record<string, Part[]> = {}
  while (reader.message.charAt(reader.at) !== '}') {
    const key = take(reader, /(=\d+|[\w-]+)\s*\{/y)
    cases[key] = readParts(reader, by !== 'select', null)
    take(reader, /\}\s*/y)
  }
  reader.at++
  if (!cases.other) throw wrong(reader)
  return { name, by: by as Choice['by'], cases }
}

const rules = new Map<string, Intl.PluralRules>()

/** Of whole numbers these have one case for 1 and one for all others (CLDR, plural rules). A browser takes long to be ready to say so. */
const oneAndOther = /^(?:en|de)\b/

/** The parts of the case that a value chooses; `yes` and `no` for what is true and what is not. */
export function chosenCase({ by, cases }: Choice, value: unknown, tag: string): Part[] {
  const other = cases.other as Part[]
  if (by === 'select') return cases[typeof value === 'string' ? value : value ? 'yes' : 'no'] ?? other
  const exact = cases[`=${value}`]
  if (exact) return exact
  const number = Number(value)
  if (by === 'plural' && Number.isInteger(number) && oneAndOther.test(tag)) return (Math.abs(number) === 1 && cases.one) || other
  const key = `${tag} ${by}`
  let rule = rules.get(key)
  if (!rule) {
    rule = new Intl.PluralRules(tag, { type: by === 'plural' ? 'cardinal' : 'ordinal' })
    rules.set(key, rule)
  }
  return cases[rule.select(number)] ?? other
}
