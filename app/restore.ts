// npm run restore -- <file>: put a backup in the place of the collection that is there, with the program stopped.
import { existsSync } from 'node:fs'
import path from 'node:path'
import { heldNouns } from '#lib/backup/check'
import { checkBackup } from '#lib/db/backup/check-backup'
import { findBackupFile } from '#lib/db/backup/list-backups'
import { restoreStopped } from '#lib/db/backup/restore-stopped'
import { describeBackupRefusal, describeFault, heldWords } from '#words/backup'

const [asked] = process.argv.slice(2)

function fail(sentence: string): never {
  console.error(sentence)
  process.exit(1)
}

if (asked === undefined) fail('Say which backup: npm run restore -- <file>')
// npm goes to its own folder first; a path is meant from where it was typed.
const file = (await findBackupFile(asked))?.file ?? path.resolve(process.env.INIT_CWD ?? process.cwd(), asked)
if (!existsSync(file)) fail(describeBackupRefusal({ kind: 'no-such-file', file }))
console.log(`Checking ${file} …`)
const check = await checkBackup(file)
if (check.isGood) {
  console.log(
    `It holds ${heldNouns.map((noun) => `${check.holds[noun].toLocaleString('en-GB')} ${heldWords[noun]}`).join(', ')}.`,
  )
} else if (!check.canRestore) {
  fail(`It cannot be restored. ${check.faults.map(describeFault).join(' ')}\nNothing was changed.`)
} else {
  console.log(`Mind: ${check.faults.map(describeFault).join(' ')}`)
}
const restored = await restoreStopped(file)
if (!restored.ok) fail(`${describeBackupRefusal(restored.error)}\nNothing was changed.`)
console.log(`Restored. What was there before is set aside: ${restored.value.setAside}\nStart Chart Larder again: npm start`)
process.exit(0)
