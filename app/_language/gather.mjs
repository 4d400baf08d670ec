// Gathers every message of the screens (say.ts) from their source, and apart those that reach the browser, whose catalogue holds no more.
// Part of preparing (prisma/prepare.mjs); some seconds, and nothing where no screen was changed since.
import { mkdirSync, readdirSync, readFileSync, renameSync, statSync, writeFileSync } from 'node:fs'
import path from 'node:path'
import vm from 'node:vm'

/** What is counted by words that stand in tables, or that people choose from what is usual: no call of `counted` has them written out. */
const putUpNouns = ['skein', 'put-up', 'card', 'spool', 'hank', 'ball', 'reel', 'tube', 'loop', 'packet', 'cone', 'cut']
const countedNouns = [
  ...putUpNouns,
  ...['whole skein', 'whole put-up'],
  ...[
    'chart',
    'design',
    'thread',
    'thread list',
    'batch',
    'notion',
    'place',
    'project',
    'piece',
    'piece of cloth',
    'strip',
    'part',
    'stitch',
    'day',
  ],
]

/** Tables of lib that hold labels and help, said by whoever shows them (`sayNoun`, `sayWord`), and the calls there that give them. */
const wordTables = [{ file: 'lib/importing/fields.ts', calls: /(?<![\w.$])(?:field|required)\(/g }]

const root = path.dirname(path.dirname(import.meta.dirname))
export const gatheredFile = path.join(import.meta.dirname, 'built', 'messages.json')

/** Where nothing is said to a person in their language: the API, and what says the messages. */
const isApart = (file) => /^app\/(_api|api|_language)\//.test(file)

function sourceFiles() {
  return readdirSync(path.join(root, 'app'), { recursive: true, encoding: 'utf8' })
    .map((file) => `app/${file.split(path.sep).join('/')}`)
    .filter((file) => /\.tsx?$/.test(file))
    .sort()
}

/** Write them down, where anything on the screens is newer than what was written last. */
export async function gatherMessages() {
  const kept = keptMessages()
  if (kept !== null) return kept
  const { messages, inBrowser, unreadable } = await findMessages()
  mkdirSync(path.dirname(gatheredFile), { recursive: true })
  // Two preparing at once each write a file of their own; the last to be renamed stands.
  const fresh = `${gatheredFile}.${process.pid}`
  writeFileSync(fresh, JSON.stringify({ messages, inBrowser, unreadable }))
  renameSync(fresh, gatheredFile)
  return { messages, inBrowser, unreadable }
}

/** What was written last, if it was after every change of the screens. */
function keptMessages() {
  try {
    const { mtimeMs } = statSync(gatheredFile)
    const isNewer = (file) => statSync(path.join(root, file)).mtimeMs >= mtimeMs
    const files = ['app/_language/gather.mjs', ...wordTables.map(({ file }) => file), ...sourceFiles()]
    if (files.some(isNewer)) return null
    return JSON.parse(readFileSync(gatheredFile, 'utf8'))
  } catch {
    return null
  }
}

/** @returns the messages, those that reach the browser, and every place that says what cannot be gathered: it is not written out there. */
export async function findMessages() {
  const { build, transform } = await import('esbuild')
  const [messages, unreadable] = [new Set(), []]
  const clients = []
  for (const file of sourceFiles()) {
    const source = readFileSync(path.join(root, file), 'utf8')
    if (/^(\s|\/\/.*\n|\/\*[\s\S]*?\*\/)*['"]use client['"]/.test(source)) clients.push(file)
    if (isApart(file) || !/\b(say|sayParts|sayings|counted)\(/.test(source)) continue
    const { code } = await transform(source, { loader: file.endsWith('x') ? 'tsx' : 'ts', charset: 'utf8', jsx: 'automatic' })
    const said = messagesIn(code)
    for (const message of said.messages) messages.add(message)
    unreadable.push(...said.unreadable.map((call) => `${file}: ${call}`))
  }
  for (const noun of countedNouns) messages.add(countedMessage(noun))
  for (const noun of putUpNouns) for (const word of [noun, ofMany(noun)]) messages.add(nounMessage(word))
  for (const { file, calls } of wordTables) {
    const { code } = await transform(readFileSync(path.join(root, file), 'utf8'), { loader: 'ts', charset: 'utf8' })
    for (const [label, help] of wordsOfCalls(code, calls)) messages.add(nounMessage(label)).add(help)
  }
  const bundled = await build({
    stdin: {
      contents: clients
        .map((file) => `import * as c from './${file}'; globalThis.c = c;`)
        .map((line, at) => line.replaceAll(/\bc\b/g, `c${at}`))
        .join('\n'),
      resolveDir: root,
    },
    absWorkingDir: root,
    bundle: true,
    write: false,
    format: 'esm',
    charset: 'utf8',
    jsx: 'automatic',
    packages: 'external',
    loader: { '.css': 'empty', '.module.css': 'empty' },
    logLevel: 'silent',
    plugins: [{ name: 'actions-stay', setup: leaveActions }],
  })
  const inBrowser = messagesIn(bundled.outputFiles[0].text).messages
  for (const noun of countedNouns) inBrowser.add(countedMessage(noun))
  for (const noun of putUpNouns) for (const word of [noun, ofMany(noun)]) inBrowser.add(nounMessage(word))
  return {
    messages: [...messages].sort(),
    inBrowser: [...inBrowser].filter((message) => messages.has(message)).sort(),
    unreadable,
  }
}

/** What a form is sent to stays on the server. */
function leaveActions(bundler) {
  bundler.onLoad({ filter: /\.tsx?$/ }, ({ path: file }) => {
    const contents = readFileSync(file, 'utf8')
    return /^['"]use server['"]/.test(contents) ? { contents: 'module.exports = {}', loader: 'js' } : undefined
  })
}

/** The messages in a program as esbuild prints it. */
export function messagesIn(code) {
  const [messages, unreadable] = [new Set(), []]
  const isMade = /["']#language\/say(-parts)?["']/.test(code)
  for (const call of code.matchAll(/(?<![\w.$])(say|sayParts|sayings|counted)\d*\(/g)) {
    const from = call.index + call[0].length
    // The function itself, where the whole program is in one.
    if (/(function|async)\s+$/.test(code.slice(Math.max(0, call.index - 12), call.index))) continue
    const given = argumentsFrom(code, from)
    try {
      for (const message of saidBy(call[1], given)) messages.add(message)
    } catch {
      // Things are counted by words that people choose, too.
      if (isMade && call[1] !== 'counted') unreadable.push(`${call[1]}(${given.join(', ').replace(/\s+/g, ' ').slice(0, 80)})`)
    }
  }
  return { messages, unreadable }
}

function saidBy(name, given) {
  if (name === 'sayings') return leaves(literal(given[0]))
  if (name === 'counted') return [countedMessage(literal(given[1]))]
  return [literal(given[0])]
}

/** What literals make; names of anything else are not known here. */
function literal(text) {
  const value = vm.runInNewContext(`(${text})`, {})
  if (typeof value !== 'string' && typeof value !== 'object') throw new TypeError('literal: no words')
  return value
}

const leaves = (value) =>
  typeof value === 'string' ? [value] : typeof value === 'object' && value ? Object.values(value).flatMap(leaves) : []

/** As app/_words/amounts.ts has it. */
const ofMany = (word) =>
  /(?:s|x|z|ch|sh)$/.test(word) ? `${word}es` : /[^aeiou]y$/.test(word) ? `${word.slice(0, -1)}ies` : `${word}s`
const countedMessage = (word) => `{count, plural, one {# ${word}} other {# ${ofMany(word)}}}`

const nounMessage = (label) => `{as, select, other {${label}}}`

/** The label and the help that each call of a table is given; not of a call that hands on what it was given itself. */
function wordsOfCalls(code, calls) {
  return [...code.matchAll(calls)]
    .map((call) => argumentsFrom(code, call.index + call[0].length).slice(0, 2))
    .filter(([label]) => /^["'`]/.test(label ?? ''))
    .map((texts) => texts.map(literal))
}

/** The texts of a call's arguments, from behind its opening parenthesis on. */
function argumentsFrom(code, from) {
  const given = []
  let [depth, start] = [0, from]
  for (let at = from; at < code.length; at++) {
    const sign = code[at]
    if (sign === '"' || sign === "'" || sign === '`') at = endOfText(code, at)
    else if ('([{'.includes(sign)) depth++
    else if (')]}'.includes(sign)) {
      if (depth === 0) return [...given, code.slice(start, at)].map((text) => text.trim()).filter(Boolean)
      depth--
    } else if (sign === ',' && depth === 0) {
      given.push(code.slice(start, at))
      start = at + 1
    }
  }
  return given
}

function endOfText(code, from) {
  for (let at = from + 1; at < code.length; at++) {
    if (code[at] === '\\') at++
    else if (code[at] === code[from]) return at
    else if (code[from] === '`' && code[at] === '$' && code[at + 1] === '{') {
      for (let depth = 0; at < code.length; at++) {
        if (code[at] === '{') depth++
        else if (code[at] === '}' && --depth === 0) break
        else if (code[at] === '`') at = endOfText(code, at)
      }
    }
  }
  return code.length
}

if (process.argv[1] === import.meta.filename) {
  const { messages, inBrowser, unreadable } = await gatherMessages()
  console.log(`${messages.length} messages, ${inBrowser.length} of them in the browser.`)
  for (const call of unreadable) console.log(call)
}
