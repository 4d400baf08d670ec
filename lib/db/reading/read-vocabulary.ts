import 'server-only'
import { type Vocabulary, vocabularyOf } from '#lib/chart/key-text/vocabulary'
import { database } from '../client'
import { readRevision } from '../read-revision'

const shared = globalThis as unknown as { larderVocabulary?: { url: string; revision: number; vocabulary: Vocabulary } }

/** Every thread, maker and line of the collection, indexed for reading keys; kept until the collection changes. */
export async function readVocabulary(): Promise<Vocabulary> {
  const { prisma, url } = database()
  const revision = await readRevision()
  const kept = shared.larderVocabulary
  if (kept?.url === url && kept.revision === revision) return kept.vocabulary
  const [threads, lines, former] = await Promise.all([
    prisma.thread.findMany({
      where: { goneAt: null },
      select: { id: true, lineId: true, code: true, name: true },
      orderBy: { id: 'asc' },
    }),
    prisma.threadLine.findMany({ select: { id: true, name: true, maker: { select: { name: true } } }, orderBy: { id: 'asc' } }),
    prisma.formerThreadCode.findMany({ select: { threadId: true, code: true }, orderBy: { id: 'asc' } }),
  ])
  const lineOf = new Map(lines.map(({ id, name, maker }) => [id, { maker: maker.name, threadLine: name }]))
  const formerOf = new Map<string, string[]>()
  for (const { threadId, code } of former) formerOf.set(threadId, [...(formerOf.get(threadId) ?? []), code])
  const vocabulary = vocabularyOf(
    threads.flatMap(({ id, lineId, code, name }) => {
      const line = lineOf.get(lineId)
      const formerCodes = formerOf.get(id)
      return line ? [{ id, ...line, code, name, ...(formerCodes && { formerCodes }) }] : []
    }),
    [...lineOf.values()],
  )
  shared.larderVocabulary = { url, revision, vocabulary }
  return vocabulary
}
