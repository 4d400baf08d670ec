// npm run check: look through the whole collection, with the program running or stopped. Ends with 0 where nothing is wrong, else with 1.
// npm run check -- --repair <kind>: say what would be done about every fault of a kind, ask, and do it.
import { createInterface } from 'node:readline/promises'
import { type Fault, type FaultKind, faultKinds, type Repair, repairsOf, weightOf } from '#lib/checking/fault'
import { type CheckResult, checkCollection, isSound } from '#lib/db/checking/check-collection'
import { repairFault } from '#lib/db/checking/repair-fault'
import { database } from '#lib/db/client'
import { grouped } from '#lib/grouped'
import { checkStepWords, lookedWords, verdictWords } from '#words/checking'
import { byWeight, describeFault, faultTitles, ownWayOut } from '#words/fault'
import { outcomeWords, previewRepair, repairWords } from '#words/repair'

/** More of a kind than this fill a screen and help nobody. */
const mostTold = 20

const asked = process.argv.slice(2)
const repairAt = asked.indexOf('--repair')
const wanted = repairAt < 0 ? null : asked[repairAt + 1]

async function end(code: 0 | 1, sentence?: string): Promise<never> {
  if (sentence) console.error(sentence)
  await database().prisma.$disconnect()
  process.exit(code)
}

const isKind = (kind: string | undefined): kind is FaultKind => faultKinds.some((known) => known === kind)

if (asked.length > 0 && (repairAt !== 0 || asked.length !== 2 || !isKind(wanted ?? undefined)))
  await end(1, `Say what to set right: npm run check -- --repair <kind>\nThe kinds: ${faultKinds.join(', ')}`)

const isTerminal = process.stdin.isTTY && process.stdout.isTTY
const result = await checkCollection(database(), {
  report: ({ step }) => {
    if (isTerminal) console.log(`${checkStepWords[step]} …`)
  },
})
tell(result)
if (isKind(wanted ?? undefined)) await setRight(result.faults.filter(({ kind }) => kind === wanted))
await end(result.isWhole && isSound(result) ? 0 : 1)

function tell(found: CheckResult): void {
  const groups = grouped(found.faults, ({ kind }) => kind)
  console.log(`\n${verdictWords(found)}.`)
  for (const line of lookedWords(found)) console.log(line)
  for (const kind of [...groups.keys()].sort(byWeight)) {
    const faults = groups.get(kind) ?? []
    console.log(`\n${faultTitles[kind]} (${kind}; ${weightOf(kind) === 'wrong' ? 'must not be' : 'worth a look'})`)
    for (const fault of faults.slice(0, mostTold)) console.log(`  ${fault.about.name}: ${describeFault(fault)}`)
    const more = (found.counts[kind] ?? 0) - mostTold
    if (more > 0) console.log(`  … and ${more.toLocaleString('en-GB')} more`)
    const [first] = faults
    if (first && repairsOf(first).length > 0) console.log(`  To set right: npm run check -- --repair ${kind}`)
    else if (ownWayOut(kind)) console.log(`  ${ownWayOut(kind)}`)
  }
}

/** Nothing is set right unasked: each choice is told by what it would change, and a word is waited for. */
async function setRight(faults: readonly Fault[]): Promise<void> {
  const offered = [...new Set(faults.flatMap(repairsOf))]
  if (faults.length === 0) return console.log('\nThere is nothing of that kind to set right.')
  if (offered.length === 0) return console.log('\nOnly a person can set that right.')
  if (!isTerminal) await end(1, '\nNothing was changed: what is set right is asked about first, on a terminal.')
  const terminal = createInterface({ input: process.stdin, output: process.stdout })
  try {
    for (const fault of faults) {
      const repair = await choose(fault, repairsOf(fault))
      if (repair === 'stop') break
      if (repair === null) continue
      console.log(`  ${outcomeWords(repair, await repairFault(fault, repair))}`)
    }
  } finally {
    terminal.close()
  }
  const again = await checkCollection(database())
  console.log(`\n${verdictWords(again)}.`)
  await end(again.isWhole && isSound(again) ? 0 : 1)

  async function choose(fault: Fault, repairs: readonly Repair[]): Promise<Repair | 'stop' | null> {
    console.log(`\n${fault.about.name}: ${describeFault(fault)}`)
    for (const [at, repair] of repairs.entries())
      console.log(`  ${at + 1}  ${repairWords[repair]}. ${previewRepair(fault, repair)}`)
    const said = (await terminal.question('  Which? A number, Enter to leave it, q to end: ')).trim().toLowerCase()
    if (said === 'q') return 'stop'
    return repairs[Number(said) - 1] ?? null
  }
}
