import type { Lab } from '#lib/colour/lab'
import { compareExact } from '#lib/stock/batch'
import {
  areCompatible,
  type ChosenColour,
  judgeSwap,
  type SwapStock,
  type SwapThread,
  type SwapVerdict,
  usableDeltaE,
} from '#lib/thread/substitution'

/** `isDesignersOwn`: the chart offers it itself, in another of its thread lists. */
export type SwapCandidate = { thread: SwapThread; stock: SwapStock; isDesignersOwn?: boolean }

/** What a charted thread is used for: its need in strand tenths, and the strands most of it is worked with. */
export type SwapNeed = { strandTenths: number; strands: number }

/**
 * A thread of the list. `kept`: worked as charted. The others have candidates: `missing` ones are assigned a stand-in, `chosen` have
 * theirs already, and of `bought` somebody said that they are to be worked as charted after all.
 */
export type SwapColour = { charted: SwapThread; need: SwapNeed } & (
  | { state: 'kept' }
  | { state: 'missing' | 'bought'; candidates: readonly SwapCandidate[] }
  | { state: 'chosen'; candidates: readonly SwapCandidate[]; candidate: SwapCandidate }
)

export type SwapTask = {
  colours: readonly SwapColour[]
  cloth: Lab | null
  /** Pairs of charted threads that may be worked in one: an explicit choice, never made here. */
  merges: readonly (readonly [string, string])[]
}

/** What each missing thread is worked in; null when nothing serves and it is to be bought. */
export type SwapAssignment = ReadonlyMap<string, string | null>

type Option = { candidate: SwapCandidate; crossings: number; costHundredths: number; needStrandTenths: number }
type Line = { colour: SwapColour; options: Option[] }

/** The model of an assignment: a text for the solver, and how to read its answer. */
export type SwapModel = {
  lpText: string
  /** By column: the charted thread and its stand-in. */
  columns: ReadonlyMap<string, { chartedThreadId: string; threadId: string }>
  missingThreadIds: readonly string[]
}

/** Candidates of one thread weighed against those of the others; beyond the nearest so many none is proposed unasked. */
export const candidatesWeighed = 12

/** What a candidate whose colour is not known counts as: no better than the last that is usable. Only a designer's own can be one. */
const unknownHundredths = usableDeltaE * 100

export const costOf = (verdict: SwapVerdict): number =>
  verdict.deltaE === null ? unknownHundredths : Math.round(verdict.deltaE * 100)

/** How often a swap crosses over in dyeing or fibre: the rules that come before the difference. */
export const crossingsOf = (verdict: SwapVerdict): number => verdict.findings.filter(({ kind }) => crossingKinds.has(kind)).length

const crossingKinds: ReadonlySet<string> = new Set(['loses-mottling', 'brings-mottling', 'other-mottling', 'other-fibre'])
/** Once in dyeing, once in fibre. */
const mostCrossings = 2

/**
 * Judge one candidate of a task with every other colour as chosen.
 *
 * @param assignment  What the missing threads are worked in; one left out stands as charted.
 */
export function judgeInTask(
  task: SwapTask,
  colour: SwapColour,
  candidate: SwapCandidate,
  assignment: SwapAssignment,
): SwapVerdict {
  const mergedWith = mergesOf(task, colour.charted.threadId)
  const others = task.colours.filter((other) => other !== colour)
  const chosen = others.map((other) => chosenOf(other, assignment))
  // What is worked in the same thread by choice takes its own share of it first.
  const shared = others.reduce(
    (sum, other, at) =>
      mergedWith.has(other.charted.threadId) && chosen[at]?.chosenThreadId === candidate.thread.threadId
        ? sum + other.need.strandTenths
        : sum,
    0,
  )
  const { stock } = candidate
  return judgeSwap({
    original: colour.charted,
    candidate: candidate.thread,
    others: chosen,
    mergedWith,
    cloth: task.cloth,
    need: colour.need,
    stock: {
      ...stock,
      freeStrandTenths: Math.max(0, stock.freeStrandTenths - shared),
      bestLotStrandTenths: Math.max(0, stock.bestLotStrandTenths - shared),
    },
    isDesignersOwn: candidate.isDesignersOwn,
  })
}

function mergesOf(task: SwapTask, threadId: string): Set<string> {
  return new Set(task.merges.flatMap(([a, b]) => (a === threadId ? [b] : b === threadId ? [a] : [])))
}

function chosenOf(colour: SwapColour, assignment: SwapAssignment): ChosenColour {
  const { charted } = colour
  const chosen = chosenThread(colour, assignment)
  return { chartedThreadId: charted.threadId, chartedLab: charted.lab, chosenThreadId: chosen.threadId, chosenLab: chosen.lab }
}

/** The thread a colour is worked in as things stand. */
export function chosenThread(colour: SwapColour, assignment: SwapAssignment): SwapThread {
  if (colour.state === 'chosen') return colour.candidate.thread
  const threadId = assignment.get(colour.charted.threadId)
  if (colour.state !== 'missing' || threadId == null) return colour.charted
  return colour.candidates.find(({ thread }) => thread.threadId === threadId)?.thread ?? colour.charted
}

/**
 * The model that finds stand-ins for all missing threads of a list together: as many threads served as can be; of those
 * assignments the ones that cross over in dyeing or fibre least often, for these rules come first; of those the least total difference
 * (ΔE00 to a hundredth); and of those that tie, the one with the lowest places in the order of the threads' ids.
 *
 * One variable for each thread and candidate, one for each thread that stays as charted and is bought. A missing thread takes one of
 * them. Two candidates, or a candidate and a thread that stays, exclude each other where their colours would come too near, turn a
 * shading run or be one thread; and where an explicit merge puts two threads in one, it holds enough for both. Each candidate has
 * already passed, alone, against the cloth, its stock and every colour that is settled.
 *
 * Picking the nearest for one thread after another fails: with originals 1204 and 1205, the one stand-in that keeps clear of both may be
 * 1204's nearest and 1205's only one.
 *
 * The order of colours and candidates makes no difference to the text.
 *
 * @returns null when nothing is missing that anything could stand in for.
 */
export function modelSwaps(task: SwapTask): SwapModel | null {
  const lines = linesOf(task)
  const missingThreadIds = lines.map(({ colour }) => colour.charted.threadId)
  if (lines.every(({ options }) => options.length === 0)) return null
  const columns = new Map<string, { chartedThreadId: string; threadId: string }>()
  const most = Math.max(...lines.flatMap(({ options }) => options.map(({ costHundredths }) => costHundredths)))
  const crossingCost = (most + 1) * lines.length
  const unservedCost = (mostCrossings * crossingCost + most + 1) * lines.length
  // Places in the order of ids, summed over all threads, stay below one hundredth of difference.
  const place = 1 / (candidatesWeighed * lines.length + 1)

  const objective: string[] = []
  const rows: string[] = []
  const row = (terms: string[], end: string) => rows.push(` ${wrapped(terms)} ${end}`)
  lines.forEach(({ colour, options }, at) => {
    const byId = options.map(({ candidate }) => candidate.thread.threadId).sort(compareExact)
    options.forEach(({ candidate, crossings, costHundredths }, index) => {
      const { threadId } = candidate.thread
      columns.set(`x${at}_${index}`, { chartedThreadId: colour.charted.threadId, threadId })
      const cost = crossings * crossingCost + costHundredths + byId.indexOf(threadId) * place
      objective.push(`${cost} x${at}_${index}`)
    })
    objective.push(`${unservedCost} s${at}`)
    row([...options.map((_, index) => `x${at}_${index}`), `s${at}`], '= 1')
  })
  for (let at = 0; at < lines.length; at++) {
    for (let other = at + 1; other < lines.length; other++) {
      for (const [mine, theirs] of exclusions(task, lines[at] as Line, lines[other] as Line)) {
        row([nameOf(at, mine), ...theirs.map((index) => nameOf(other, index))], '<= 1')
      }
    }
  }
  for (const { terms, most: held } of sharedThreads(lines)) row(terms, `<= ${held}`)
  const binaries = [...columns.keys(), ...lines.map((_, at) => `s${at}`)]
  const lpText = `Minimize\n cost: ${wrapped(objective)}\nSubject To\n${rows.join('\n')}\nBinaries\n ${binaries.join('\n ')}\nEnd\n`
  return { lpText, columns, missingThreadIds }
}

/** What the solver's figures mean. */
export function readAssignment(model: SwapModel, values: ReadonlyMap<string, number>): SwapAssignment {
  const assignment = new Map<string, string | null>(model.missingThreadIds.map((threadId) => [threadId, null]))
  for (const [name, { chartedThreadId, threadId }] of model.columns) {
    if ((values.get(name) ?? 0) > 0.5) assignment.set(chartedThreadId, threadId)
  }
  return assignment
}

/** Missing threads by id, each with the nearest candidates that pass against all that is settled. */
function linesOf(task: SwapTask): Line[] {
  const settled: SwapTask = { ...task, colours: task.colours.filter(({ state }) => state !== 'missing') }
  return task.colours
    .flatMap((colour) => (colour.state === 'missing' ? [colour] : []))
    .sort((a, b) => compareExact(a.charted.threadId, b.charted.threadId))
    .map((colour) => {
      const options = colour.candidates
        .filter(({ thread }) => thread.threadId !== colour.charted.threadId)
        .map((candidate) => ({ candidate, verdict: judgeInTask(settled, colour, candidate, new Map()) }))
        .filter(({ verdict }) => verdict.isAccepted)
        .map(({ candidate, verdict }) => ({
          candidate,
          crossings: crossingsOf(verdict),
          costHundredths: costOf(verdict),
          needStrandTenths: verdict.needStrandTenths,
        }))
        .sort(
          (a, b) => a.costHundredths - b.costHundredths || compareExact(a.candidate.thread.threadId, b.candidate.thread.threadId),
        )
        .slice(0, candidatesWeighed)
      return { colour, options }
    })
}

/** −1 stands for a thread that stays as charted. */
const nameOf = (at: number, index: number): string => (index === -1 ? `s${at}` : `x${at}_${index}`)

/** For each choice of one thread, the choices of another that cannot stand beside it. */
function exclusions(task: SwapTask, one: Line, other: Line): [number, number[]][] {
  if (mergesOf(task, one.colour.charted.threadId).has(other.colour.charted.threadId)) return []
  const sideOf = ({ colour, options }: Line, index: number) => ({
    charted: colour.charted,
    chosen: index === -1 ? colour.charted : (options[index] as Option).candidate.thread,
  })
  const choices = ({ options }: Line) => [-1, ...options.keys()]
  return choices(one).flatMap((mine): [number, number[]][] => {
    const theirs = choices(other).filter(
      (index) => !(mine === -1 && index === -1) && !areCompatible(sideOf(one, mine), sideOf(other, index)),
    )
    return theirs.length > 0 ? [[mine, theirs]] : []
  })
}

/** Threads offered to several lines, with the most that all of them together may take. */
function sharedThreads(lines: readonly Line[]): { terms: string[]; most: number }[] {
  const shared = new Map<string, { terms: string[]; most: number }>()
  lines.forEach(({ options }, at) => {
    options.forEach(({ candidate, needStrandTenths }, index) => {
      const { stock, thread } = candidate
      const most = thread.line.lotsMatter ? stock.bestLotStrandTenths : stock.freeStrandTenths
      const entry = shared.get(thread.threadId) ?? { terms: [], most }
      entry.terms.push(`${needStrandTenths} x${at}_${index}`)
      shared.set(thread.threadId, entry)
    })
  })
  return [...shared.entries()]
    .sort(([a], [b]) => compareExact(a, b))
    .map(([, entry]) => entry)
    .filter(({ terms }) => terms.length > 1)
}

/** A sum, a few terms to a line: readers of the format may refuse long lines. */
function wrapped(terms: readonly string[]): string {
  const lines: string[] = []
  for (let at = 0; at < terms.length; at += 8) lines.push(terms.slice(at, at + 8).join(' + '))
  return lines.join('\n + ')
}

export type JudgedCandidate = { candidate: SwapCandidate; verdict: SwapVerdict }

/** One thread's place in a finished assignment. */
export type ExplainedSwap = {
  charted: SwapThread
  chosen: JudgedCandidate | null
  /**
   * Candidates nearer than the one chosen (near ones, where none was) that were not taken, the nearest first: each breaks a rule, or
   * crosses over in dyeing or fibre where the one chosen does not.
   */
  nearer: JudgedCandidate[]
  /** Others that would pass as things are chosen, the nearest first. */
  others: JudgedCandidate[]
}

/** Why each missing thread is worked in what it is, every candidate judged against the others as actually chosen. */
export function explainAssignment(task: SwapTask, assignment: SwapAssignment): ExplainedSwap[] {
  return task.colours.flatMap((colour) => {
    if (colour.state === 'kept') return []
    const { charted } = colour
    const judge = (candidate: SwapCandidate) => ({ candidate, verdict: judgeInTask(task, colour, candidate, assignment) })
    const judged = colour.candidates
      .filter(({ thread }) => thread.threadId !== charted.threadId)
      .map(judge)
      .sort(
        (a, b) => costOf(a.verdict) - costOf(b.verdict) || compareExact(a.candidate.thread.threadId, b.candidate.thread.threadId),
      )
    const chosenId = colour.state === 'chosen' ? colour.candidate.thread.threadId : (assignment.get(charted.threadId) ?? null)
    const isChosen = ({ candidate }: JudgedCandidate) => candidate.thread.threadId === chosenId
    const chosen = colour.state === 'chosen' ? judge(colour.candidate) : (judged.find(isChosen) ?? null)
    const isNearer = ({ verdict }: JudgedCandidate) => chosen === null || costOf(verdict) < costOf(chosen.verdict)
    const isNotTaken = ({ verdict }: JudgedCandidate) =>
      !verdict.isAccepted || (chosen !== null && crossingsOf(verdict) > crossingsOf(chosen.verdict))
    const nearer = judged.filter((one) => !isChosen(one) && isNearer(one) && isNotTaken(one))
    return [
      {
        charted,
        chosen,
        nearer,
        others: judged.filter((one) => !isChosen(one) && one.verdict.isAccepted && !nearer.includes(one)),
      },
    ]
  })
}
