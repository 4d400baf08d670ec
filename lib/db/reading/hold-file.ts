import 'server-only'
import { open, rm, stat } from 'node:fs/promises'

/** Whoever held it so long ago is gone: a change of a reading takes milliseconds. */
const forgottenAfterMs = 10_000
const lookAgainMs = 20

/** Do something while no other process that shares the folder does the same: the file can be made by one of them only. */
export async function whileHolding<T>(file: string, work: () => Promise<T>): Promise<T> {
  for (;;) {
    try {
      await (await open(file, 'wx')).close()
      break
    } catch (error) {
      if ((error as NodeJS.ErrnoException).code !== 'EEXIST') throw error
      const held = await stat(file).catch(() => null)
      if (held && Date.now() - held.mtimeMs > forgottenAfterMs) await rm(file, { force: true })
      else await new Promise((resolve) => setTimeout(resolve, lookAgainMs * (0.5 + Math.random())))
    }
  }
  try {
    return await work()
  } finally {
    await rm(file, { force: true })
  }
}
