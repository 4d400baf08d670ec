import 'server-only'
import { ok, type Result, refused } from '#lib/result'
import { isOut } from '#lib/stock/batch'
import { claimChart, journalChart } from '../chart/claim-chart'
import { claimCloth, journalCloth } from '../cloth/claim-cloth'
import { claimNotion, journalNotion } from '../notion/claim-notion'
import type { ChangedMeanwhile } from '../stock/apply-stock-change'
import type { Write } from '../write-gate'
import { ensureNotFoundPlace } from './not-found-place'
import { type AlreadyMissing, openQuestion } from './report-missing'

export const missingNouns = ['cloth', 'chart', 'notion'] as const
export type MissingNoun = (typeof missingNouns)[number]

export type ReportThingRefused =
  | ChangedMeanwhile
  | AlreadyMissing
  | { kind: 'no-such-thing' }
  /** Nobody can say which of them is missing. */
  | { kind: 'several-copies' }

export const thingIdOf = (noun: MissingNoun, id: string) =>
  noun === 'cloth' ? { clothPieceId: id } : noun === 'chart' ? { chartId: id } : { notionId: id }

/**
 * A piece of cloth, a chart or a notion was looked for and is not there: it goes on record as not found and a question is opened. What had
 * no home lived where it lay.
 */
export async function reportThing(
  writing: Write,
  input: {
    noun: MissingNoun
    id: string
    version?: number | undefined
    projectId?: string | null
    note?: string | null
    who?: string | null
  },
): Promise<Result<{ missingId: string }, ReportThingRefused>> {
  const { tx, at } = writing
  const { noun, id, projectId = null, note = null, who = null } = input
  const what = thingIdOf(noun, id)
  const open = await tx.missingThing.findFirst({ where: { ...what, status: 'open' }, select: { id: true } })
  if (open) return refused({ kind: 'already-missing', missingId: open.id })
  const version = input.version ?? (await versionOf(writing, noun, id))
  if (version === null) return refused({ kind: 'no-such-thing' })
  const claimed =
    noun === 'cloth'
      ? await claimCloth(writing, { id, version })
      : noun === 'chart'
        ? await claimChart(writing, { id, version })
        : await claimNotion(writing, { id, version })
  if (!claimed.ok) return claimed
  const held = claimed.value
  if ('copies' in held && held.copies > 1) return refused({ kind: 'several-copies' })
  const homePlaceId = held.homePlaceId ?? held.currentPlaceId
  const lastSeenPlaceId = held.currentPlaceId ?? held.homePlaceId
  const toPlaceId = await ensureNotFoundPlace(writing)
  if (lastSeenPlaceId !== null && lastSeenPlaceId !== toPlaceId) {
    const outSince = isOut(held) ? undefined : at
    const data = { homePlaceId, currentPlaceId: toPlaceId, ...(outSince && { outSince }) }
    const journal = { kind: 'take', fromPlaceId: lastSeenPlaceId, toPlaceId, projectId, who, reason: note ?? 'not found' }
    if (noun === 'cloth') {
      await tx.clothPiece.update({ where: { id }, data })
      await journalCloth(writing, { ...journal, clothPieceId: id })
    } else if (noun === 'chart') {
      await tx.chart.update({ where: { id }, data })
      await journalChart(writing, { ...journal, chartId: id })
    } else {
      await tx.notion.update({ where: { id }, data })
      await journalNotion(writing, { ...journal, notionId: id })
    }
  }
  const missingId = await openQuestion(writing, { ...what, lastSeenPlaceId, projectId, walkId: null, note, who })
  return ok({ missingId })
}

async function versionOf({ tx }: Write, noun: MissingNoun, id: string): Promise<number | null> {
  const asked = { where: { id, goneAt: null }, select: { version: true } } as const
  const row =
    noun === 'cloth'
      ? await tx.clothPiece.findFirst(asked)
      : noun === 'chart'
        ? await tx.chart.findFirst(asked)
        : await tx.notion.findFirst(asked)
  return row?.version ?? null
}
