// npm run move -- --to postgres://…: move the collection from SQLite into an empty PostgreSQL database.
import { databaseUrl, dataFolder } from '#lib/db/data-folder'
import { moveToPostgresql } from '#lib/db/moving/move-to-postgresql'
import { describeMoveRefusal, moveStepWords, moveTable } from '#words/moving'

const [flag, to = '', ...more] = process.argv.slice(2)

function fail(sentence: string): never {
  console.error(sentence)
  process.exit(1)
}

if (flag !== '--to' || to === '' || more.length > 0) fail(describeMoveRefusal({ kind: 'not-to-postgresql' }))
let last = ''
const moved = await moveToPostgresql({
  ...{ from: databaseUrl(), to },
  report: (progress) => {
    const words = moveStepWords(progress)
    if (words !== last) console.log(`${words} …`)
    last = words
  },
}).catch((error: Error) => fail(`It broke off: ${error.message}\nNothing was moved, and the collection is as it was.`))
if (!moved.ok) {
  if (moved.error.kind === 'differs') for (const line of moveTable(moved.error.tables)) console.error(line)
  fail(`${describeMoveRefusal(moved.error)}\nNothing was moved, and the collection is as it was.`)
}
const { tables, isWrittenSince } = moved.value
for (const line of moveTable(tables)) console.log(line)
console.log(
  `\nEvery table arrived as it left, row by row. Start Chart Larder with DATABASE_URL set to the new address.\nPhotographs and files stay in ${dataFolder()}: keep LARDER_DATA as it is. The old database is left there as it was.`,
)
if (isWrittenSince)
  console.log(
    'Mind: somebody wrote to the old one while it was moved. That is not among it: empty the new one, and move again with the program stopped.',
  )
process.exit(0)
