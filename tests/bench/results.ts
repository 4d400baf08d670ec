import { existsSync, readFileSync, writeFileSync } from 'node:fs'
import os from 'node:os'
import path from 'node:path'
import type { Bench, Result } from './measurement'

const jsonFile = path.join(import.meta.dirname, 'results.json')
const pageFile = path.join(import.meta.dirname, 'RESULTS.md')

const systems: Partial<Record<NodeJS.Platform, string>> = { linux: 'Linux', darwin: 'macOS', win32: 'Windows' }

/** The machine in general words: "2 cores, 24 GB, Linux, Node 20". */
export function describeMachine(): string {
  const gigabytes = Math.round(os.totalmem() / 2 ** 30)
  const node = process.versions.node.split('.')[0]
  return `${os.availableParallelism()} cores, ${gigabytes} GB, ${systems[process.platform] ?? process.platform}, Node ${node}`
}

const readResults = (): Result[] => (existsSync(jsonFile) ? (JSON.parse(readFileSync(jsonFile, 'utf8')) as Result[]) : [])

/** Keep the results, those of groups not measured now as they were, and render the page of them. */
export function writeResults(measured: readonly Result[], benches: readonly Bench[]): void {
  const isNew = new Set(measured.map(({ group }) => group))
  const all = [...readResults().filter(({ group }) => !isNew.has(group)), ...measured]
  const results = benches.flatMap(({ name }) => all.filter(({ group }) => group === name))
  writeFileSync(jsonFile, `${JSON.stringify(results, null, 2)}\n`)
  writeFileSync(pageFile, renderPage(results, benches))
}

/** Three figures are enough of a measured time. */
const figure = (value: number): string => (value >= 100 ? value.toFixed(0) : Number(value.toPrecision(3)).toString())

const withRange = (value: number | null, range: [number, number] | null, unit: string): string =>
  value === null ? '' : `${figure(value)} ${unit}${range ? ` (${figure(range[0])}–${figure(range[1])})` : ''}`

const heads = ['what', 'ours', 'against', 'ratio', 'samples', 'goal']

const cellsOf = (result: Omit<Result, 'group' | 'measuredOn' | 'machine'>): string[] => [
  result.name,
  withRange(result.ours, result.oursRange, result.unit),
  withRange(result.against, result.againstRange, result.unit),
  result.ratio === null ? '' : `${figure(result.ratio)}×`,
  String(result.samples),
  result.goal ? `${result.goal.words}: ${result.goal.isMet ? 'met' : 'NOT MET'}` : '',
]

/** A group's table, columns in line, for the terminal. */
export function tableOf(results: readonly Result[]): string {
  const rows = [heads, ...results.map(cellsOf)]
  const widths = heads.map((_, column) => Math.max(...rows.map((row) => (row[column] as string).length)))
  return rows
    .map((row) =>
      row
        .map((cell, column) => cell.padEnd(widths[column] as number))
        .join('  ')
        .trimEnd(),
    )
    .join('\n')
}

function renderPage(results: readonly Result[], benches: readonly Bench[]): string {
  const markdownRow = (cells: readonly string[]) => `| ${cells.join(' | ')} |`
  const groups = benches.flatMap(({ name, about }) => {
    const rows = results.filter(({ group }) => group === name)
    const [first] = rows
    if (!first) return []
    return [
      `## ${name}`,
      ...about,
      `${first.measuredOn}, ${first.machine}.`,
      [markdownRow(heads), markdownRow(heads.map(() => '---')), ...rows.map((row) => markdownRow(cellsOf(row)))].join('\n'),
    ]
  })
  return `${[
    '# Speed, measured',
    'Written by `npm run bench` (`npm run bench coverage` measures one group and keeps the others). Times are medians, the least and the most in brackets unless the row says otherwise. Both sides are measured by turns in one run after a warm-up, so the ratio can be trusted further than the times. The ratio says how many times better ours is; below 1 the other is.',
    ...groups,
  ].join('\n\n')}\n`
}
