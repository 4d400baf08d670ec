import 'server-only'
import type { MasterList } from '#lib/project/kit/master-list'
import { readKit } from './read-kit'

/** What every kit of a project is packed and checked by; null when there is no such project. */
export async function readMasterList(projectId: string): Promise<MasterList | null> {
  return (await readKit(projectId))?.masterList ?? null
}
