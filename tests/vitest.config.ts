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

/** What takes longest, the longest first, as a run of everything measured it. */
const longest = [
  ...['faults/kills', 'database/backup', 'faults/trouble', 'faults/hostile-api', 'faults/only-own-goods', 'database/shop-size'],
  ...['database/archive', 'database/walk', 'database/checking', 'database/many-writers', 'database/importing-large'],
  ...['browser/accessibility', 'browser/only-own-goods', 'browser/wrong-files', 'browser/fewest-steps', 'browser/signing-in'],
  ...['browser/questions-at-the-desk', 'browser/keyboard-only', 'browser/errand-together', 'browser/errand-backup'],
  ...['browser/set-up', 'browser/without-a-network'],
].map((name) => `/tests/${name}.test.ts`)

/** Begins with what takes longest, so that no worker is waited for while it goes on alone. The others by their size, or by the last run. */
class LongestFirst extends BaseSequencer {
  override async sort(files: TestSpecification[]): Promise<TestSpecification[]> {
    const turnOf = ({ moduleId }: TestSpecification) => {
      const at = longest.findIndex((name) => moduleId.endsWith(name))
      return at < 0 ? longest.length : at
    }
    return (await super.sort(files)).toSorted((one, other) => turnOf(one) - turnOf(other))
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
