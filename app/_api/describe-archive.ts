import type { ArchiveRefused } from '#lib/archive/refusal'
import { findGiven } from '#lib/db/archive/archive-files'
import type { ArchiveJob } from '#lib/db/archive/archive-jobs'
import { heldHere } from '#lib/db/archive/held-here'
import { lookAtArchive } from '#lib/db/archive/look-at-archive'
import { database } from '#lib/db/client'
import { describeArchiveRefusal, diskFullWords, tooManyWords } from '#words/archive'
import type { ArchiveJobAnswer, GivenArchiveAnswer } from './archives'
import { notFound, Problem } from './problem'

const hrefOf = (name: string): string => `/archive/files/${name}`

export const describeKeptArchive = ({ name, bytes, madeAt }: { name: string; bytes: number; madeAt: Date }) => ({
  ...{ name, bytes, madeAt: madeAt.toISOString(), href: hrefOf(name) },
})

export const tooManyArchives = (): Problem => new Problem('refused', tooManyWords())

export const refusedArchive = (refusal: ArchiveRefused): Problem => new Problem('refused', describeArchiveRefusal(refusal))

export function describeArchiveJob({ id, about, state, progress }: ArchiveJob): ArchiveJobAnswer {
  const answer: ArchiveJobAnswer = {
    ...{ jobId: id, verb: about.kind, state: 'running', ...progress, rowCount: null, uploadCount: null, missing: [] },
    ...{ archive: null, refusal: null },
  }
  if (state.kind === 'running') return answer
  if (state.kind === 'failed')
    return { ...answer, state: 'failed', refusal: `Something went wrong; the log has the details beside ${state.errorId}.` }
  const ending = state.answer
  switch (ending.kind) {
    case 'written': {
      const { rowCount, uploadCount, missing } = ending.written
      const archive = about.kind === 'take-out' ? { name: about.name, href: hrefOf(about.name) } : null
      return { ...answer, state: 'done', rowCount, uploadCount, missing, archive }
    }
    case 'brought-back': {
      const { rowCount, uploadCount, missing } = ending.back
      return { ...answer, state: 'done', rowCount, uploadCount, missing }
    }
    case 'refused':
      if (ending.refusal.kind === 'stopped') return { ...answer, state: 'stopped' }
      return { ...answer, state: 'refused', refusal: describeArchiveRefusal(ending.refusal) }
    case 'disk-full':
      return { ...answer, state: 'refused', refusal: diskFullWords() }
  }
}

/** What is in an archive that was sent, and what is here. */
export async function describeGiven(givenId: string): Promise<GivenArchiveAnswer | Problem> {
  const given = await findGiven(givenId)
  if (!given) return notFound('archive', givenId)
  const [looked, held] = await Promise.all([lookAtArchive(given.file), heldHere(database().prisma)])
  if (!looked.ok) return refusedArchive(looked.error)
  const { madeAt, ...summary } = looked.value
  return { givenId, ...summary, madeAt: madeAt.toISOString(), held }
}
