import { say } from '#language/say'
import type { Answers } from '#lib/db/answers/answers'
import { threadLength } from './amounts'
import { pieceName } from './cloth'
import { threadName } from './thread'

/** What designs, threads and pieces are called, and lengths of a thread, for sentences about a choice. */
export function namesIn({ world }: Answers) {
  const lineOf = (threadId: string) => world.lines.get(world.lineOfThread.get(threadId) ?? '')
  return {
    names: {
      design: (designId: string) => world.designs.get(designId)?.design.title ?? say('a design that was removed'),
      thread: (threadId: string) => {
        const [thread, line] = [world.threads.get(threadId), lineOf(threadId)]
        return thread && line
          ? threadName({ makerName: line.makerName, code: thread.code, name: thread.name })
          : say('a thread that was removed')
      },
      piece: (pieceId: string) => {
        const piece = world.pieces.find(({ id }) => id === pieceId)
        return piece ? pieceName(piece) : say('a piece that is gone')
      },
    },
    length: (threadId: string, strandTenths: number) =>
      threadLength(strandTenths, lineOf(threadId)?.strands ?? 1, world.settings.threadUnit),
  }
}
