import { textKey } from '#lib/quantity/text-key'
import { codeKey } from '#lib/thread/code-order'
import type { Working } from '#lib/thread/stitches'
import type { Dyeing } from '#lib/thread/thread'
import { mostSaid } from './agree'
import type { NamedThread } from './drafts'
import type { PlanningDesk } from './planning-desk'
import type { ThreadRow } from './snapshot'

/** What the rows of a file say of a line, all of them together. */
export type LineFacts = {
  fibre: string | null
  strands: number | null
  putUpTenths: number | null
  putUpWord: string | null
  dyeing: Dyeing | null
  lotsMatter: boolean | null
}

export const noLineFacts: LineFacts = {
  fibre: null,
  strands: null,
  putUpTenths: null,
  putUpWord: null,
  dyeing: null,
  lotsMatter: null,
}

/** What a new line is taken to be where nothing is said: six strands, skeins of 8 m (common practice, no published source). */
const usualStrands = 6
const usualPutUpTenths = 80_000
/** The name of the line of a maker none of whose lines was ever named. */
const unnamedLine = 'Thread'

/** Finds the thread a row names, and the line where the row names only maker and code; makes those that are new. */
export class ThreadFinder {
  private readonly lineIds = new Map<string, string>()
  private readonly threadIds = new Map<string, string>()
  /** Line and folded code → the codes there were before. */
  private readonly knownCodes = new Map<string, string[]>()
  /** Maker → the names of its lines, folded → as written. */
  private readonly lineNames = new Map<string, Map<string, string>>()
  /** Maker and code → folded names of the lines that have it. */
  private readonly linesOfCode = new Map<string, Set<string>>()

  /**
   * @param named      Every thread the file names, so that a row without a line can be told from the others.
   * @param lineFacts  What the file says of a line, by `lineKey`.
   */
  constructor(
    private readonly desk: PlanningDesk,
    named: Iterable<NamedThread>,
    private readonly lineFacts: (lineKey: string) => LineFacts,
  ) {
    for (const line of desk.list('line')) {
      const maker = desk.get('maker', line.makerId).name
      this.lineIds.set(lineKey(maker, line.name), line.id)
      this.noteLine(maker, line.name)
    }
    for (const thread of desk.list('thread')) {
      this.threadIds.set(`${thread.lineId} ${thread.code}`, thread.id)
      const line = desk.get('line', thread.lineId)
      this.noteCode(desk.get('maker', line.makerId).name, line.name, thread.code)
      const bare = `${thread.lineId} ${codeKey(thread.code)}`
      this.knownCodes.set(bare, [...(this.knownCodes.get(bare) ?? []), thread.code])
    }
    const spelled = new Map<string, { maker: string; line: string }[]>()
    for (const { maker, line, code } of named) {
      if (line === null) continue
      this.noteCode(maker, line, code)
      const key = lineKey(maker, line)
      const spellings = spelled.get(key)
      if (spellings) spellings.push({ maker, line })
      else spelled.set(key, [{ maker, line }])
    }
    for (const spellings of spelled.values()) {
      const { maker, line } = mostSaid(spellings) as { maker: string; line: string }
      this.noteLine(maker, line)
    }
  }

  /** The thread's id; null when the row was refused because its line cannot be told. */
  threadFor(named: NamedThread, rowNumber: number): string | null {
    const lineName = this.lineNameFor(named, rowNumber)
    if (lineName === null) return null
    const lineId = this.lineFor(named.maker, lineName, rowNumber)
    const key = `${lineId} ${named.code}`
    const known = this.threadIds.get(key)
    if (known !== undefined) {
      this.desk.change('thread', known, { isGone: false }, rowNumber)
      return known
    }
    const alike = this.knownCodes.get(`${lineId} ${codeKey(named.code)}`)
    if (alike) this.desk.warn(rowNumber, 'code', 'code-nearly-known', named.code, alike)
    const row: Omit<ThreadRow, 'id'> = {
      lineId,
      code: named.code,
      name: null,
      lab: null,
      minimumPutUps: null,
      note: null,
      isGone: false,
    }
    const id = this.desk.add('thread', row, rowNumber)
    this.threadIds.set(key, id)
    return id
  }

  /** The name of the line a row means: the one it names, the maker's only one, or the only one that has the code. */
  lineNameFor({ maker, line, code }: NamedThread, rowNumber: number): string | null {
    const names = this.lineNames.get(textKey(maker)) ?? new Map<string, string>()
    if (line !== null) return names.get(textKey(line)) ?? line
    if (names.size === 0) {
      this.desk.warn(rowNumber, 'line', 'line-assumed', '', [unnamedLine])
      return unnamedLine
    }
    if (names.size === 1) return [...names.values()][0] as string
    const having = this.linesOfCode.get(`${textKey(maker)} ${code}`)
    if (having?.size === 1) return names.get([...having][0] as string) as string
    this.desk.refuse(rowNumber, 'line', 'which-line', code, [...names.values()].sort())
    return null
  }

  lineFor(maker: string, name: string, rowNumber: number): string {
    const key = lineKey(maker, name)
    const known = this.lineIds.get(key)
    if (known !== undefined) return known
    const facts = this.lineFacts(key)
    const strands = facts.strands ?? usualStrands
    const named = { dyeing: facts.dyeing ?? dyeingOfName(name) ?? 'solid', fibre: facts.fibre, name }
    const { dyeing } = named
    if (facts.dyeing === null && dyeing !== 'solid') this.desk.warn(rowNumber, 'line', 'dyeing-assumed', name, [dyeing])
    const id = this.desk.add(
      'line',
      {
        makerId: this.desk.makerNamed(maker, rowNumber),
        name,
        fibre: facts.fibre,
        strands,
        putUpStrandTenths: (facts.putUpTenths ?? usualPutUpTenths) * strands,
        putUpWord: facts.putUpWord ?? 'skein',
        dyeing,
        lotsMatter: facts.lotsMatter ?? lotsMatterFor(named),
        working: workingOf(dyeing),
      },
      rowNumber,
    )
    this.lineIds.set(key, id)
    return id
  }

  private noteLine(maker: string, line: string): void {
    const key = textKey(maker)
    const names = this.lineNames.get(key) ?? new Map<string, string>()
    if (!names.has(textKey(line))) names.set(textKey(line), line)
    this.lineNames.set(key, names)
  }

  private noteCode(maker: string, line: string, code: string): void {
    const key = `${textKey(maker)} ${code}`
    this.linesOfCode.set(key, (this.linesOfCode.get(key) ?? new Set<string>()).add(textKey(line)))
  }
}

export const lineKey = (maker: string, line: string): string => JSON.stringify([textKey(maker), textKey(line)])

/** Lots matter for hand-dyed and overdyed lines and for silk, unless somebody says otherwise. */
export const lotsMatterFor = (line: { dyeing: Dyeing; fibre: string | null; name: string }): boolean =>
  line.dyeing === 'overdyed' || isSilk(line.fibre ?? '') || isSilk(line.name)

/** The dyeing a line's name gives away; null when it does not. */
const dyeingOfName = (name: string): Dyeing | null =>
  /hand[ -]?dyed|over[ -]?dyed|handgefarbt|\bteinte? (?:a la )?main\b/u.test(textKey(name)) ? 'overdyed' : null

/** Colours that shade or mottle are worked cross by cross, solids in rows. */
export const workingOf = (dyeing: Dyeing): Working => (dyeing === 'solid' ? 'rows' : 'crosses')

const isSilk = (text: string): boolean => /\b(?:silk|seide|soie)\b/u.test(textKey(text))
