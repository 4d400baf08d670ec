import { spawn } from 'node:child_process'
import { mkdtempSync, readFileSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import path from 'node:path'
import type { Bench, Measurement } from './measurement'

const root = path.resolve(import.meta.dirname, '../..')

type Row = { name: string; screens: number; faults: number }

async function run(): Promise<Measurement[]> {
  const folder = mkdtempSync(path.join(tmpdir(), 'larder-accessible-'))
  const file = path.join(folder, 'table.json')
  const { DATABASE_URL: _, LARDER_DATA: __, ...env } = process.env
  const vitest = [path.join(root, 'node_modules/vitest/vitest.mjs'), 'run', '--config', 'tests/vitest.config.ts']
  try {
    const test = spawn(process.execPath, [...vitest, '--project', 'browser', 'tests/browser/accessibility.test.ts'], {
      cwd: root,
      stdio: 'inherit',
      env: { ...env, ACCESSIBLE_TABLE: file },
    })
    await new Promise((resolve) => test.once('close', resolve))
    return (JSON.parse(readFileSync(file, 'utf8')) as Row[]).map(({ name, screens, faults }) => ({
      name,
      ours: faults,
      against: null,
      ratio: null,
      unit: 'faults',
      samples: screens,
      oursRange: null,
      againstRange: null,
      goal: { words: 'none', isMet: faults === 0 },
    }))
  } finally {
    rmSync(folder, { recursive: true, force: true })
  }
}

export const accessible: Bench = {
  name: 'accessible',
  about: [
    'Every screen there is, with the states it has, folded parts unfolded: what tests/browser/accessibility.test.ts finds wrong with them by WCAG 2.2, levels A and AA, axe and its best practice among it. Samples are screens looked at. Text that looks just like text judged before, on any screen, is not judged again, and the dark is judged where a screen shows something new; the rules of layout are run again on the screens one holds in a hand.',
  ],
  run,
}
