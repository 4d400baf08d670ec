import { rename, rm, writeFile } from 'node:fs/promises'

/** Write a file whole under another name first, so that nobody ever reads half of it; one that could not be written leaves no half. */
export async function placeWhole(target: string, bytes: Uint8Array): Promise<void> {
  const draft = `${target}.part`
  try {
    await writeFile(draft, bytes, { flag: 'wx' })
    await rename(draft, target)
  } catch (error) {
    await rm(draft, { force: true }).catch(() => {})
    throw error
  }
}
