import 'server-only'
import type { ChildProcess } from 'node:child_process'
import path from 'node:path'
import { databaseUrl, dataFolder } from '../data-folder'
import { holdWritesTo } from '../write-gate'
import { sweepDrafts } from './backup-folder'
import type { BackupEnd, BackupErrand, BackupPosted } from './backup-work'
import type { ReportBackup } from './write-backup'

// Taken from Node past the screens' bundler: that would follow the path, and where it cannot tell it, take in the whole project.
const processes = process.getBuiltinModule('node:child_process')

// The path is made at run time from the folder the project is started in.
const builtWork = () => path.join(process.cwd(), 'lib', 'db', 'backup', 'built', 'backup-work.mjs')

/** Thrown where an errand was stopped: nothing of it stays. */
export class BackupStopped extends Error {}

type Options = { signal?: AbortSignal; report?: ReportBackup; workFile?: string }

/**
 * Run one errand in a process of its own. While it restores, writes of this process wait.
 *
 * @throws {BackupStopped} when `signal` said so; the process is killed, which leaves the old or the new state whole
 * @throws {Error} when the process broke
 */
export async function runBackup<Errand extends BackupErrand>(
  errand: Errand,
  { signal, report = () => {}, workFile = builtWork() }: Options = {},
): Promise<BackupEnd[Errand['verb']]> {
  if (signal?.aborted) throw new BackupStopped()
  const child = processes.fork(workFile, {
    env: { ...process.env, LARDER_DATA: dataFolder(), DATABASE_URL: databaseUrl() },
    execArgv: [],
    stdio: ['ignore', 'ignore', 'pipe', 'ipc'],
  })
  const kill = () => void child.kill('SIGKILL')
  signal?.addEventListener('abort', kill)
  try {
    return (await talk(child, errand, report)) as BackupEnd[Errand['verb']]
  } catch (error) {
    if (signal?.aborted) throw new BackupStopped()
    throw error
  } finally {
    signal?.removeEventListener('abort', kill)
    kill()
    if ('folder' in errand) await sweepDrafts(errand.folder)
    await sweepDrafts(dataFolder())
  }
}

function talk(child: ChildProcess, errand: BackupErrand, report: ReportBackup): Promise<unknown> {
  return new Promise((resolve, reject) => {
    let says = ''
    let end: { value: unknown } | null = null
    let release = () => {}
    child.stderr?.setEncoding('utf8')
    child.stderr?.on('data', (text: string) => {
      says = `${says}${text}`.slice(-4_000)
    })
    child.on('message', (posted: BackupPosted) => {
      switch (posted.kind) {
        case 'progress':
          return report(posted.progress)
        case 'hold':
          void holdWritesTo(databaseUrl(), () => {
            child.send('held', () => {})
            return new Promise<void>((done) => {
              release = done
            })
          })
          return
        case 'ended':
          end = { value: posted.end }
      }
    })
    child.once('error', reject)
    child.once('close', (code, signal) => {
      release()
      if (end) resolve(end.value)
      else reject(new Error(`runBackup: the process ended with ${code ?? signal}: ${says.trim()}`))
    })
    child.send(errand, (error) => error && reject(error))
  })
}
