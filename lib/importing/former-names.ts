import { grouped } from '#lib/grouped'
import { textKey } from '#lib/quantity/text-key'
import { formerCodeKey } from '#lib/thread/former-code'
import type { CheckedRows, NamedThread } from './drafts'
import type { RowWarning } from './row-error'
import type { Snapshot } from './snapshot'

/** A file's rows with the names of today in the place of those given up, each said in a warning; a name on record again means what it says. */
export function meantNow(checked: CheckedRows, snapshot: Snapshot): CheckedRows {
  const { former } = snapshot
  if (!former || former.designers.length + former.titles.length + former.codes.length === 0) return checked
  const warnings: RowWarning[] = []
  const said = (rowNumber: number, field: string, raw: string, now: string) =>
    warnings.push({ rowNumber, field, column: checked.columnOf[field] ?? null, kind: 'former-name', raw, accepted: [now] })
  const threadNow = threadsNow(snapshot)
  const designerNow = designersNow(snapshot)
  const chartNow = chartsNow(snapshot)

  const thread = <T extends NamedThread>(named: T, rowNumber: number): T => {
    const now = threadNow(named)
    if (now === null) return named
    said(rowNumber, 'code', wordsOf(named), wordsOf(now))
    return { ...named, ...now }
  }
  const designers = (names: string[], rowNumber: number): string[] => {
    const now = names.map((name) => designerNow(name) ?? name)
    for (const [at, name] of names.entries()) if (now[at] !== name) said(rowNumber, 'designer', name, now[at] as string)
    return now.filter((name, at) => now.findIndex((other) => textKey(other) === textKey(name)) === at)
  }
  const chart = <T extends { chart: string | null; design: string | null; owner?: string }>(draft: T, rowNumber: number): T => {
    if (draft.chart === null) return draft
    const now = chartNow(draft.chart, draft.owner ?? null)
    if (now === null) return draft
    said(rowNumber, 'chart', draft.chart, now.title)
    const isNamedAlike = draft.design !== null && now.titleKeys.has(textKey(draft.design)) && now.onlyDesign !== null
    return { ...draft, chart: now.title, ...(isNamedAlike && { design: now.onlyDesign }) }
  }

  const read = (): CheckedRows => {
    switch (checked.kind) {
      case 'threads': {
        const rows = checked.rows.map((row) => {
          const draft = thread(row.draft, row.rowNumber)
          return { ...row, draft: { ...draft, standsInFor: draft.standsInFor.map((named) => thread(named, row.rowNumber)) } }
        })
        return { ...checked, rows }
      }
      case 'lists': {
        const rows = checked.rows.map((row) => {
          const draft = chart({ ...row.draft, designers: designers(row.draft.designers, row.rowNumber) }, row.rowNumber)
          return { ...row, draft: { ...draft, threads: draft.threads.map((named) => thread(named, row.rowNumber)) } }
        })
        return { ...checked, rows }
      }
      case 'charts': {
        const rows = checked.rows.map((row) => {
          const named = { ...row.draft, designers: designers(row.draft.designers, row.rowNumber) }
          return { ...row, draft: chart(named, row.rowNumber) }
        })
        return { ...checked, rows }
      }
      case 'projects':
        return { ...checked, rows: checked.rows.map((row) => ({ ...row, draft: chart(row.draft, row.rowNumber) })) }
      default:
        return checked
    }
  }
  const now = read()
  return { ...now, warnings: [...now.warnings, ...warnings] } as CheckedRows
}

const wordsOf = ({ maker, line, code }: NamedThread): string =>
  [maker, line, code].filter((part) => part !== null && part !== '').join(' ')

function threadsNow({ former, maker, line, thread }: Snapshot): (named: NamedThread) => NamedThread | null {
  const makerOf = new Map(maker.map((row) => [row.id, row.name]))
  const lineOf = new Map(line.map((row) => [row.id, { name: row.name, maker: makerOf.get(row.makerId) ?? '', id: row.id }]))
  const threadOf = new Map(thread.map((row) => [row.id, row]))
  const standing = new Set(
    thread
      .filter(({ isGone }) => !isGone)
      .map(({ lineId, code }) => {
        const { maker: makerName, name: lineName } = lineOf.get(lineId) ?? { maker: '', name: '' }
        return formerCodeKey({ makerName, lineName, code })
      }),
  )
  const codes = former?.codes ?? []
  const byCode = new Map(codes.map((row) => [formerCodeKey(row), row.threadId]))
  const byMakerAndCode = grouped(codes, ({ makerName, code }) => JSON.stringify([textKey(makerName), code]))
  const makers = new Set(maker.map(({ name }) => textKey(name)))
  const linesOfMaker = new Set([...lineOf.values()].map((row) => JSON.stringify([textKey(row.maker), textKey(row.name)])))
  // Where all codes of a former maker, or of its line, went under one line of today, a new code of it goes there too.
  const lineIdsOf = (rows: readonly { threadId: string }[]) => [
    ...new Set(rows.flatMap(({ threadId }) => threadOf.get(threadId)?.lineId ?? [])),
  ]
  const byLine = grouped(codes, ({ makerName, lineName }) => JSON.stringify([textKey(makerName), textKey(lineName)]))
  const byMaker = grouped(codes, ({ makerName }) => textKey(makerName))

  return ({ maker: makerName, line: lineName, code }) => {
    const at = (threadId: string | undefined): NamedThread | null => {
      const row = threadOf.get(threadId ?? '')
      const there = row && lineOf.get(row.lineId)
      return row && there && !row.isGone ? { maker: there.maker, line: there.name, code: row.code } : null
    }
    if (lineName !== null) {
      const key = formerCodeKey({ makerName, lineName, code })
      if (standing.has(key)) return null
      const exact = at(byCode.get(key))
      if (exact) return exact
      const lineKey = JSON.stringify([textKey(makerName), textKey(lineName)])
      const [only, ...others] = linesOfMaker.has(lineKey) ? [] : lineIdsOf(byLine.get(lineKey) ?? [])
      const there = others.length === 0 ? lineOf.get(only ?? '') : undefined
      return there ? { maker: there.maker, line: there.name, code } : null
    }
    const isStanding = thread.some(
      (row) => !row.isGone && row.code === code && textKey(lineOf.get(row.lineId)?.maker ?? '') === textKey(makerName),
    )
    if (isStanding) return null
    const had = byMakerAndCode.get(JSON.stringify([textKey(makerName), code])) ?? []
    if (new Set(had.map(({ threadId }) => threadId)).size === 1) return at(had[0]?.threadId)
    const [only, ...others] = makers.has(textKey(makerName)) ? [] : lineIdsOf(byMaker.get(textKey(makerName)) ?? [])
    const there = others.length === 0 ? lineOf.get(only ?? '') : undefined
    return there ? { maker: there.maker, line: there.name, code } : null
  }
}

function designersNow({ former, designer }: Snapshot): (name: string) => string | null {
  const nameOf = new Map(designer.map(({ id, name }) => [id, name]))
  const standing = new Set(designer.map(({ name }) => textKey(name)))
  const now = new Map((former?.designers ?? []).map(({ name, designerId }) => [textKey(name), nameOf.get(designerId) ?? null]))
  return (name) => (standing.has(textKey(name)) ? null : (now.get(textKey(name)) ?? null))
}

type ChartNow = { title: string; titleKeys: ReadonlySet<string>; onlyDesign: string | null }

function chartsNow({ former, chart, design, owner }: Snapshot): (title: string, ownerName: string | null) => ChartNow | null {
  const chartOf = new Map(chart.map((row) => [row.id, row]))
  const ownerOf = new Map(owner.map(({ id, name }) => [id, textKey(name)]))
  const titles = (former?.titles ?? []).filter(({ chartId }) => chartOf.has(chartId))
  const byTitle = grouped(titles, ({ title }) => textKey(title))
  const ofChart = grouped(titles, ({ chartId }) => chartId)
  const standing = grouped(chart, ({ title }) => textKey(title))
  const designsOf = grouped(design, ({ chartId }) => chartId)
  return (title, ownerName) => {
    const isTheirs = (ownerId: string) =>
      ownerName === null || ownerOf.get(ownerId) === undefined || ownerOf.get(ownerId) === textKey(ownerName)
    if ((standing.get(textKey(title)) ?? []).some(({ ownerId }) => isTheirs(ownerId))) return null
    const found = (byTitle.get(textKey(title)) ?? [])
      .flatMap(({ chartId }) => chartOf.get(chartId) ?? [])
      .filter((row) => isTheirs(row.ownerId))
    const [only, ...others] = found
    if (!only || others.length > 0) return null
    const designs = designsOf.get(only.id) ?? []
    const titleKeys = new Set((ofChart.get(only.id) ?? []).map((row) => textKey(row.title)))
    return { title: only.title, titleKeys, onlyDesign: designs.length === 1 ? (designs[0]?.title ?? null) : null }
  }
}
