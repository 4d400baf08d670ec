import 'server-only'
import { type DecodeRefused, decodeText } from '#lib/importing/decode'
import { opinionRows } from '#lib/importing/opinion-rows'
import type { RowProblem, TableRefused } from '#lib/importing/read-table'
import { ok, type Result } from '#lib/result'
import { type ReadOpinions, readOpinions, ThreadNames } from '#lib/thread/substitution-opinions'
import type { Answers } from '../answers/answers'

export type OpinionListRefused = DecodeRefused | TableRefused

/** Read a list of what stands for what against the threads on record; nothing is written. */
export function readOpinionList(
  { world }: Answers,
  bytes: Uint8Array,
  lines: { lineId: string | null; otherLineId: string | null },
): Result<ReadOpinions & { problems: RowProblem[] }, OpinionListRefused> {
  const decoded = decodeText(bytes)
  if (!decoded.ok) return decoded
  const table = opinionRows(decoded.value.text)
  if (!table.ok) return table
  const names = new ThreadNames(
    [...world.threads.values()].flatMap(({ id, lineId, code, name }) => {
      const line = world.lines.get(lineId)
      return line ? [{ threadId: id, lineId, makerName: line.makerName, lineName: line.name, code, name }] : []
    }),
  )
  return ok({ ...readOpinions(table.value.rows, names, lines), problems: table.value.problems })
}
