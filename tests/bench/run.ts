// npm run bench [group …]: measures all groups or those named, prints their tables, writes results.json and RESULTS.md.

import { accessible } from './accessible.bench'
import { archive } from './archive.bench'
import { archiveRoundTrip } from './archive-round-trip.bench'
import { chartsScreen } from './charts-screen.bench'
import { choice } from './choice.bench'
import { clothPairs } from './cloth-pairs.bench'
import { coverage } from './coverage.bench'
import { cutPlans } from './cut-plans.bench'
import { felt } from './felt.bench'
import { importing } from './importing.bench'
import { labels } from './labels.bench'
import { load } from './load.bench'
import { dropFolders } from './made-collection'
import type { Bench, Result } from './measurement'
import { nearestColour } from './nearest-colour.bench'
import { photoKey } from './photo-key.bench'
import { pullLists } from './pull-lists.bench'
import { reading } from './reading.bench'
import { describeMachine, tableOf, writeResults } from './results'
import { search } from './search.bench'
import { spreadsheet } from './spreadsheet.bench'
import { steps } from './steps.bench'
import { table } from './table.bench'
import { warmStart } from './warm-start.bench'

const benches: Bench[] = [
  coverage,
  clothPairs,
  archive,
  archiveRoundTrip,
  warmStart,
  spreadsheet,
  nearestColour,
  search,
  chartsScreen,
  table,
  felt,
  accessible,
  load,
  cutPlans,
  choice,
  labels,
  importing,
  pullLists,
  photoKey,
  reading,
  steps,
]

/** @returns the exit code */
async function main(asked: readonly string[]): Promise<number> {
  const unknown = asked.filter((name) => !benches.some((bench) => bench.name === name))
  if (unknown.length > 0) {
    console.error(`No such group: ${unknown.join(', ')}. There are: ${benches.map(({ name }) => name).join(', ')}.`)
    return 2
  }
  const machine = describeMachine()
  const measuredOn = new Date().toISOString().slice(0, 10)
  let failed = 0
  try {
    for (const { name, run } of benches) {
      if (asked.length > 0 && !asked.includes(name)) continue
      try {
        const results: Result[] = (await run()).map((measurement) => ({ group: name, ...measurement, measuredOn, machine }))
        writeResults(results, benches)
        console.log(`\n${name}\n${tableOf(results)}`)
      } catch (error) {
        failed += 1
        console.error(`\n${name} could not be measured:`, error)
      }
    }
  } finally {
    await dropFolders()
  }
  return failed > 0 ? 1 : 0
}

process.exitCode = await main(process.argv.slice(2))
