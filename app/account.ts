// npm run account -- --add NAME --role keeper: the accounts of this collection, from the machine it lies on. --password NAME, --close NAME, --list.
import { parseArgs } from 'node:util'
import { type Role, roles } from '#lib/access/who'
import { addAccount, closeAccount, findAccountByName, listAccounts, setPassword } from '#lib/db/access/accounts'
import { accountRefusalWords, roleWords } from '#words/access'

const usage = `npm run account -- --add NAME --role keeper|helper|looker   add an account
npm run account -- --password NAME                          give it another password; it is signed out everywhere
npm run account -- --close NAME                             let it sign in no more
npm run account -- --list                                   who there is
A password is asked for, or read from what is piped in.`

function fail(sentence: string): never {
  console.error(sentence)
  process.exit(1)
}

function readArguments() {
  try {
    return parseArgs({
      options: {
        add: { type: 'string' },
        role: { type: 'string' },
        password: { type: 'string' },
        close: { type: 'string' },
        list: { type: 'boolean' },
      },
    }).values
  } catch {
    return fail(usage)
  }
}

/** A line typed without being shown, or the first line of what is piped in. */
function askUnseen(question: string): Promise<string> {
  const { stdin, stdout } = process
  const isTyped = stdin.isTTY === true
  return new Promise((resolve, reject) => {
    if (isTyped) {
      stdout.write(question)
      stdin.setRawMode(true)
    }
    stdin.setEncoding('utf8')
    let typed = ''
    const end = () => {
      if (isTyped) {
        stdin.setRawMode(false)
        stdout.write('\n')
      }
      stdin.pause()
      stdin.off('data', take)
      resolve(typed)
    }
    const take = (text: string) => {
      for (const character of text) {
        if (character === '\r' || character === '\n' || character === '\u0004') return end()
        if (character === '\u0003') return reject(new Error('stopped'))
        if (character === '\u007f' || character === '\b') typed = [...typed].slice(0, -1).join('')
        else typed += character
      }
    }
    stdin.on('data', take)
    stdin.once('end', end)
  })
}

async function askPassword(): Promise<string> {
  const password = await askUnseen('Password (it is not shown): ').catch(() => fail('Nothing was changed.'))
  if (process.stdin.isTTY !== true) return password
  const again = await askUnseen('Once more: ').catch(() => fail('Nothing was changed.'))
  return again === password ? password : fail('The two are not the same. Nothing was changed.')
}

async function getNamed(name: string) {
  const found = await findAccountByName(name)
  return found?.account ?? fail(`There is no account named ${name}. Those there are: npm run account -- --list`)
}

const asked = readArguments()
if (asked.list) {
  const accounts = await listAccounts()
  if (accounts.length === 0) console.log('There is no account. The program answers this machine alone, and nobody signs in.')
  for (const { name, role, closedAt } of accounts)
    console.log(`${name}: ${closedAt ? 'closed' : `${role}, may ${roleWords[role]}`}`)
} else if (asked.add !== undefined) {
  const role = roles.find((known) => known === asked.role) ?? fail(`Say which role: --role ${roles.join('|')}`)
  const added = await addAccount({
    name: asked.add.trim(),
    role: role satisfies Role,
    password: await askPassword(),
    ownerIds: null,
  })
  if (!added.ok) fail(`${accountRefusalWords(added.error)} Nothing was changed.`)
  console.log(`${added.value.name} is a ${role} now, and signs in by that password. Everybody signs in from now on.`)
} else if (asked.password !== undefined) {
  const { id } = await getNamed(asked.password)
  const set = await setPassword({ id, password: await askPassword() })
  if (!set.ok) fail(`${accountRefusalWords(set.error)} Nothing was changed.`)
  console.log(`${set.value.name} has a new password, and is signed out everywhere.`)
} else if (asked.close !== undefined) {
  const closed = await closeAccount(await getNamed(asked.close))
  if (!closed.ok) fail(`${accountRefusalWords(closed.error)} Nothing was changed.`)
  console.log(`${closed.value.name} signs in no more. The name stays beside what was done.`)
} else fail(usage)
process.exit(0)
