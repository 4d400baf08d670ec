import type { Unframed } from '#lib/db/finish/list-unframed'
import type { FinishRecord, Sent, YearOfWork } from '#lib/db/finish/read-finishes'
import type { SetFrameRefused } from '#lib/db/project/set-frame'
import type { ThreadTag } from '#lib/db/thread/thread-tag'
import type { CostLine } from '#lib/project/finish-cost'
import { frameRefusalWords } from '#words/finish'
import { placeRef } from './collection'
import type { FinishAnswer } from './finishes'
import { notFound, Problem } from './problem'

const placed = ({ id, label }: { id: string; label: string }) => ({ placeId: id, label })
const describeSent = ({ place, ...terms }: Sent) => ({ ...terms, place: placed(place), kind: place.kind })
const threadRef = ({ id, makerName, code, name }: ThreadTag) => ({ threadId: id, makerName, code, name })

function idOf(line: CostLine): string | null {
  switch (line.kind) {
    case 'thread':
      return line.threadId
    case 'cloth':
      return line.pieceId
    case 'chart':
      return line.chartId
    case 'sent':
      return line.loanId
    case 'other':
      return null
  }
}

export const describeFinish = (record: FinishRecord): FinishAnswer => ({
  ...{ projectId: record.id, version: record.version, status: record.status, title: record.title, designers: record.designers },
  ...{ quantity: record.quantity, startedOn: record.startedOn, finishedOn: record.finishedOn, stitches: record.stitches },
  ...{ hoursTenths: record.hoursTenths, finishing: record.finishing, forWhom: record.forWhom, place: placeRef(record.place) },
  colours: record.colours.map(({ thread, ...use }) => ({ ...use, thread: threadRef(thread) })),
  sent: record.sent.map(describeSent),
  frame: {
    measured: record.frame.measured,
    reckoned: record.frame.reckoned && { opening: record.frame.reckoned.opening, board: record.frame.reckoned.board },
  },
  otherCostMinor: record.otherCostMinor,
  cost: {
    ...record.cost,
    lines: record.cost.lines.map((line) => ({ kind: line.kind, id: idOf(line), costMinor: line.costMinor })),
  },
})

export const describeUnframed = ({ id, place, sent, ...piece }: Unframed) => ({
  ...piece,
  projectId: id,
  place: placeRef(place),
  sent: sent && describeSent(sent),
})

export function describeYear(ownerIds: string[], { year, sum, finishes }: YearOfWork) {
  const threads = new Map(finishes.flatMap(({ colours }) => colours.map(({ thread }) => [thread.id, thread] as const)))
  const { longest, firstId, colours, threadByPiece, ...figures } = sum
  return {
    ...{ ownerIds, year, ...figures },
    threadByPiece: threadByPiece.map(({ id, threadTenths }) => ({ projectId: id, threadTenths })),
    colours: colours.flatMap(({ threadId, ...colour }) => {
      const thread = threads.get(threadId)
      return thread ? [{ ...colour, thread: threadRef(thread) }] : []
    }),
    longest: longest && {
      projectId: longest.id,
      hoursTenths: longest.by === 'hours' ? longest.hoursTenths : null,
      days: longest.by === 'days' ? longest.days : null,
    },
    firstProjectId: firstId,
    finishes: finishes.map(describeFinish),
  }
}

export const describeFrameRefusal = (refusal: SetFrameRefused): Problem =>
  refusal.kind === 'no-such-project'
    ? notFound('project', refusal.projectId)
    : refusal.kind === 'changed-meanwhile'
      ? new Problem('refused', 'It was changed meanwhile. Read the project again, then ask with its new version.')
      : new Problem('refused', frameRefusalWords(refusal))
