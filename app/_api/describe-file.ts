import { type FileListed, findFileOf } from '#lib/db/file/queries'
import type { removeFile } from '#lib/db/file/remove-file'
import { describeFileChangeRefusal } from '../_files/words'
import type { FileAnswer } from './files'
import { chosenOwners } from './owners'
import { notFound, Problem } from './problem'

/** A kept file, as the API gives it. */
export const describeFile = ({
  id,
  version,
  role,
  owner,
  name,
  mime,
  bytes,
  pages,
  addedAt,
  isGone,
}: FileListed): FileAnswer => ({
  ...{ fileId: id, version, role, owner, name, mime, bytes, pages, addedAt: addedAt.toISOString(), isGone, href: `/files/${id}` },
})

/** A file after a change that only its owner may make. */
export async function changedFile(
  { fileId, asked, version }: { fileId: string; asked: readonly string[] | undefined; version: number | undefined },
  change: typeof removeFile,
): Promise<FileAnswer | Problem> {
  const owners = await chosenOwners(asked)
  if (owners instanceof Problem) return owners
  const file = await findFileOf(fileId, owners)
  if (!file) return notFound('file', fileId)
  const changed = await change({ id: fileId, version: version ?? file.version })
  if (!changed.ok) return new Problem('refused', describeFileChangeRefusal(changed.error))
  const now = await findFileOf(fileId, owners)
  return now ? describeFile(now) : notFound('file', fileId)
}
