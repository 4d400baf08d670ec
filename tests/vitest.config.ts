import { tmpdir } from 'node:os'
import path from 'node:path'
import { fileURLToPath } from 'node:url'
import { defineConfig } from 'vitest/config'
import { BaseSequencer, type TestSpecification } from 'vitest/node'

const root = fileURLToPath(new URL('..', import.meta.url))
const shared = {
  root,
  resolve: { alias: { 'server-only': fileURLToPath(new URL('./empty.ts', import.meta.url)) } },
}

/** Loading the program and compiling its queries anew for each file would take longer than the tests do. */
const together = { isolate: false }

/** What takes longest goes first, so that the others are not waited for by one worker while it goes on alone. */
class LongestFirst extends BaseSequencer {
  override async sort(files: TestSpecification[]): Promise<TestSpecification[]> {
    const isLong = ({ moduleId }: TestSpecification) =>
      /browser\/accessibility|database\/(backup|killed-process|importing-large)|faults\//.test(moduleId)
    const sorted = await super.sort(files)
    return [...sorted.filter(isLong), ...sorted.filter((file) => !isLong(file))]
  }
}

export default defineConfig({
  root,
  test: {
    maxWorkers: 2,
    sequence: { sequencer: LongestFirst },
    projects: [
      ...['unit', 'property', 'published'].map((name) => ({
        ...shared,
        test: { ...together, name, include: [`tests/${name}/**/*.test.{ts,tsx}`], testTimeout: 60_000 },
      })),
      {
        ...shared,
        test: {
          ...together,
          name: 'database',
          include: ['tests/database/**/*.test.ts', 'tests/faults/**/*.test.ts'],
          // What a test keeps no folder of its own for never comes to lie in the project's.
          env: { LARDER_DATA: path.join(tmpdir(), 'larder-test-data') },
          globalSetup: [fileURLToPath(new URL('./database/global-setup.ts', import.meta.url))],
          testTimeout: 60_000,
          hookTimeout: 120_000,
        },
      },
      {
        ...shared,
        test: {
          ...together,
          name: 'browser',
          include: ['tests/browser/**/*.test.ts'],
          globalSetup: [fileURLToPath(new URL('./browser/global-setup.ts', import.meta.url))],
          testTimeout: 120_000,
          hookTimeout: 300_000,
        },
      },
    ],
  },
})
