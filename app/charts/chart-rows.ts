import { formatClothSize } from '#language/lengths'
import { say } from '#language/say'
import type { DesignRecord } from '#lib/chart/catalogue'
import { stitchSize } from '#lib/chart/design-size'
import { type FinishedSizeRequest, finishedSize } from '#lib/cloth/finished-size'
import type { KindAnswer } from '#lib/coverage/cloth-answers'
import type { EngineListAnswer } from '#lib/coverage/engine'
import type { LineStatus } from '#lib/coverage/line-status'
import type { Answers } from '#lib/db/answers/answers'
import type { FoundDesigns } from '#lib/db/answers/find-designs'
import { readCovers } from '#lib/db/chart/read-covers'
import type { Run } from '#lib/listing/runs'
import { isChartWithSomebody } from '#lib/loan/chart-out'
import { counted, listed } from '#words/amounts'
import { choiceSentence, fitWords, pieceName } from '#words/cloth'
import { listStateWords } from '#words/cover'
import { givenName } from '#words/given'

/** One design of the list with everything a column may show, in words: what the server draws and what the window over the list is sent. */
export type ChartRow = {
  id: string
  /** Its page, opened as it is answered here. */
  href: string
  title: string
  /** The chart it is in, where that is called otherwise. */
  inChart: string | null
  designers: string
  coverFile: string | null
  state: { state: LineStatus; word: string; note: string | null } | null
  size: { width: number; height: number; isEstimated: boolean } | null
  finished: string | null
  subjects: string
  forms: string
  seasons: string
  cloth: string | null
  place: { id: string; label: string; livesIn?: string; note?: string } | null
  /** Put-ups to buy; null where nothing can be said. */
  missing: number | null
  kind: string
  owner: string
  boughtOn: string | null
  yearsOwned: number | null
}

/** `on`: the kind of cloth that sizes and pieces are asked for on, as the catalogue names it; null for what each chart advises. */
export type ChartRowsAsked = { ownerIds: readonly string[]; today: string; on: string | null }

/** The rows of the designs found, with what each column says. */
export async function readChartRows(
  answers: Answers,
  found: Pick<FoundDesigns, 'records'>,
  { ownerIds, today, on }: ChartRowsAsked,
): Promise<ChartRow[]> {
  const { world } = answers
  const covers = await readCovers(found.records.map(({ chartId }) => chartId))
  const engine = answers.coverage(ownerIds)
  const unit = world.settings.lengthUnit
  const cloth = answers.cloth(ownerIds)
  const themes = (ids: readonly string[]) => ids.map((id) => givenName(world.themes.get(id)?.name ?? '')).join(', ')
  return found.records.map((record): ChartRow => {
    const answer = engine.answerFor(record.designId)
    const choice = cloth.choiceFor(record.designId)
    const taken =
      on === null ? null : (cloth.kindsFor(record.designId).find(({ kind, isUsualOver }) => kind === on && isUsualOver) ?? null)
    return {
      id: record.designId,
      href: taken
        ? `/designs/${record.designId}?${new URLSearchParams({ piece: taken.best.id, over: String(taken.over) })}`
        : `/designs/${record.designId}`,
      title: record.title,
      inChart: record.chartTitle === record.title ? null : record.chartTitle,
      designers: listed(record.designerNames),
      coverFile: covers.get(record.chartId)?.file ?? null,
      state: answer && stateOf(answer.best, answer.lists.length),
      size: sizeOf(answers, record.designId),
      finished: taken ? finishedOn(answers, record.designId, taken) : finishedOf(answers, record.designId),
      subjects: themes(record.subjectIds),
      forms: themes(record.formIds),
      seasons: themes(record.seasonIds),
      cloth: taken ? takenWords(answers, taken) : choice ? choiceSentence(choice, unit) : null,
      place: placeOf(answers, record),
      missing: answer && answer.best.threadCount > 0 ? answer.best.shortPutUps + answer.best.lotPutUps : null,
      kind: record.kind,
      owner: world.owners.get(record.ownerId) ?? '',
      boughtOn: record.boughtOn,
      yearsOwned: record.boughtOn === null ? null : wholeYears(record.boughtOn, today),
    }
  })
}

function stateOf(best: EngineListAnswer, listCount: number): ChartRow['state'] {
  const { state, word, note } = listStateWords(best)
  return { state, word, note: [note, listCount > 1 && say('best of its lists')].filter(Boolean).join(', ') || null }
}

const sizeOf = ({ world }: Answers, designId: string): ChartRow['size'] => {
  const facts = world.designs.get(designId)
  return facts ? stitchSize(facts.design) : null
}

/** Finished sizes in a list are for comparing: hundredths of an inch are enough. */
const toHundredth = (um: number): number => Math.round(um / 254) * 254

function finishedOf(answers: Answers, designId: string): string | null {
  const advised = answers.world.designs.get(designId)?.design.advised
  return advised
    ? sizeOn(answers, designId, { ends: advised.count, picks: advised.count, over: advised.over, isTurned: false })
    : null
}

const finishedOn = (answers: Answers, designId: string, { best, fit, over }: KindAnswer): string | null =>
  sizeOn(answers, designId, { ends: best.ends, picks: best.picks, over, isTurned: fit.isTurned })

/** The piece that takes it, and where that is. */
function takenWords({ world }: Answers, { best, fit }: KindAnswer): string {
  const place = world.places.get(best.currentPlaceId ?? best.homePlaceId ?? '')
  return say('{piece} {fits}{hasPlace, select, yes {, in {place}} other {}}', {
    piece: pieceName(best),
    fits: fitWords(fit, world.settings.lengthUnit),
    hasPlace: place !== undefined,
    place: place?.label ?? '',
  })
}

function sizeOn(answers: Answers, designId: string, worked: Omit<FinishedSizeRequest, 'width' | 'height'>): string | null {
  const size = sizeOf(answers, designId)
  if (!size) return null
  const { widthUm, heightUm } = finishedSize({ ...size, ...worked })
  const text = formatClothSize(
    { widthUm: toHundredth(widthUm), heightUm: toHundredth(heightUm) },
    answers.world.settings.lengthUnit,
  )
  return text.replace(/ (?:in|cm)$/, '')
}

function placeOf({ world }: Answers, record: DesignRecord): ChartRow['place'] {
  const home = world.places.get(record.homePlaceId ?? '')
  const current = world.places.get(record.currentPlaceId ?? record.homePlaceId ?? '')
  if (!current) return null
  const note = [
    isChartWithSomebody({ ...record, currentKind: current.kind }) && say('chart out'),
    record.copies > 1 && counted(record.copies, 'copy'),
  ]
  return {
    id: current.id,
    label: current.label,
    ...(home && home.id !== current.id && { livesIn: home.label }),
    ...(note.some(Boolean) && { note: note.filter(Boolean).join(', ') }),
  }
}

/** From one day to another, both yyyy-mm-dd. */
function wholeYears(from: string, to: string): number {
  const years = Number(to.slice(0, 4)) - Number(from.slice(0, 4))
  return Math.max(0, to.slice(5) < from.slice(5) ? years - 1 : years)
}

/** Whatever is drawn to scale in a list has the scale of the longest in all of it. */
export function longestOf(answers: Answers, { slots }: Pick<FoundDesigns, 'slots'>): number {
  let longest = 100
  for (const slot of slots) {
    const size = sizeOf(answers, answers.catalogue.recordAt(slot).designId)
    if (size) longest = Math.max(longest, size.width, size.height)
  }
  return longest
}

/** In the words one asks in: what can be begun, what wants how much. For a list that comes best covered first. */
export function chartRuns(answers: Answers, { slots }: Pick<FoundDesigns, 'slots'>, ownerIds: readonly string[]): Run[] {
  const engine = answers.coverage(ownerIds)
  const runs: { id?: string; title: string; first: number }[] = []
  let hasWanting = false
  slots.forEach((slot, row) => {
    const answer = engine.answerFor(answers.catalogue.recordAt(slot).designId)?.best ?? null
    const title = groupOf(answer)
    if (runs.at(-1)?.title === title) return
    const isFirstWanting = !hasWanting && isWanting(answer)
    hasWanting ||= isFirstWanting
    runs.push({ id: isFirstWanting ? 'wanting' : undefined, title, first: row })
  })
  return runs.map((run, at) => ({
    ...run,
    note: counted((runs[at + 1]?.first ?? slots.length) - run.first, 'design'),
  }))
}

/** Whether something has to be bought for it, and nothing else is in the way of saying so. */
const isWanting = (answer: EngineListAnswer | null): boolean =>
  answer !== null &&
  answer.threadCount > 0 &&
  !answer.isIncomplete &&
  !answer.isStitchable &&
  !answer.isStitchableWithSwaps &&
  answer.shortPutUps + answer.lotPutUps > 0

function groupOf(answer: EngineListAnswer | null): string {
  if (!answer || answer.threadCount === 0) return say('Thread list not in yet')
  if (answer.isIncomplete) return say('Thread list not all in')
  if (answer.isStitchable) return say('Stitchable now')
  if (answer.isStitchableWithSwaps) return say('Stitchable with swaps')
  const putUps = answer.shortPutUps + answer.lotPutUps
  if (putUps === 0) return say('Nothing to buy, but something to bring back or measure')
  if (putUps === 1) return say('One put-up wanting')
  if (putUps === 2) return say('Two put-ups wanting')
  return say('More wanting')
}
