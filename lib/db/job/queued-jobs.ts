import 'server-only'
import { createHash, randomUUID } from 'node:crypto'
import { hostname } from 'node:os'
import pg from 'pg'
import PgBoss from 'pg-boss'
import type { Who } from '#lib/access/who'
import { log } from '#lib/log/log'
import { ok, type Result, refused } from '#lib/result'
import { who } from '../access/asking'
import { listen } from '../notices'
import { asBegun } from './as-begun'
import { type AnyJob, type JobKeeper, jobKinds, jobsKept, keptForMs, kindOf, type TooManyAtOnce } from './job'
import { fromJobText, toJobText } from './job-text'

/** How often a job says that it is still at work, writes how far it is, and sees whether it is to stop. */
const heartbeatMs = 1_000
/** How often a process looks whether something waits; a notice wakes it before. */
const lookMs = 1_000
/** A job whose process was not heard for so long is taken from it. Long work lets others in between far more often. */
const lostAfterMs = 15_000
const lookForLostMs = 5_000
/** The end of a job is told again for so long while the database is away. */
const tellForMs = 60_000
const startAttempts = 6
/** An answer nobody has looked at for so long has no place in the queue any more, whatever became of it. */
const expireInHours = 12

const jobNotice = 'larder_job'

type Row = {
  id: string
  state: 'running' | 'ended' | 'failed'
  aboutJson: string
  progressJson: string
  answerJson: string | null
  errorId: string | null
  startedMs: string
  endedMs: string | null
}

const columns = `"id", "state", "aboutJson", "progressJson", "answerJson", "errorId",
  extract(epoch FROM "startedAt") * 1000 AS "startedMs", extract(epoch FROM "endedAt") * 1000 AS "endedMs"`
/** As Prisma writes a moment: UTC in a column without a zone. By the database's clock, which all processes share. */
const now = `(now() AT TIME ZONE 'UTC')`
const ago = (place: string) => `${now} - ${place}::int * interval '1 millisecond'`

type AtWork = { kind: string; stop: AbortController; ending: Promise<void>; progress: unknown; told: unknown; isLost: boolean }

/** Thrown into a job whose process was taken for dead meanwhile: what it does no longer counts. */
class Lost extends Error {}

type Insertion = 'begun' | 'begun before' | 'too many'

/** The same id for the same key, shaped as the queue takes them. */
function idOf(key: string): string {
  const hex = createHash('sha256').update(key).digest('hex')
  return [hex.slice(0, 8), hex.slice(8, 12), `8${hex.slice(13, 16)}`, `a${hex.slice(17, 20)}`, hex.slice(20, 32)].join('-')
}

const queueOf = (kind: string): string => kind.replace(/[^a-z0-9]+/gi, '-')

/**
 * Jobs that several processes share. How one stands is its row; that it is to be done goes through pg-boss, which hands it to one process
 * and, where that is gone and nothing is harmed by it, to another. A process that was taken for dead and is not finds its row in other
 * hands at its next heartbeat, and writes nothing more. Long, and in one file: every statement that moves the row from state to state is
 * read beside the others.
 */
export class QueuedJobs implements JobKeeper {
  readonly #pool: pg.Pool
  readonly #boss: PgBoss
  /** Names this process and this run of it. */
  readonly #me = `${hostname()} ${process.pid} ${randomUUID().slice(0, 8)}`
  readonly #atWork = new Map<string, AtWork>()
  readonly #queues = new Map<string, Promise<void>>()
  readonly #timers: NodeJS.Timeout[] = []
  #started: Promise<unknown> | null = null
  #looking: Promise<void> | null = null
  #isLookedAgain = false
  #hush: (() => void) | null = null
  #isAway = false
  #isClosed = false

  constructor(url: string) {
    this.#pool = new pg.Pool({
      connectionString: url,
      max: 3,
      allowExitOnIdle: true,
      application_name: 'chart-larder-jobs',
      idleTimeoutMillis: 30_000,
    })
    this.#pool.on('error', (error) => this.#tellAway(error))
    const executeSql = (text: string, values: unknown[]) => this.#pool.query(text, values)
    // It calls this without waiting for it here and there, where a refusal would end the process; so the reading of its queue is done here.
    this.#boss = new PgBoss({ db: { executeSql }, schedule: false, supervise: true })
    this.#boss.on('error', (error) => this.#tellAway(error))
    this.#url = url
  }
  readonly #url: string

  /** Take up what waits, now and from now on; called by whoever serves. LARDER_JOBS=off leaves it to other processes. */
  async work(): Promise<void> {
    await this.#ready()
    if (this.#timers.length > 0 || process.env.LARDER_JOBS === 'off' || this.#isClosed) return
    const every = (ms: number, task: () => Promise<void>) => {
      const timer = setInterval(() => void task().catch((error) => this.#tellAway(error)), ms)
      timer.unref()
      this.#timers.push(timer)
    }
    every(lookMs, () => this.#look())
    every(heartbeatMs, () => this.#sayAlive())
    every(lookForLostMs, () => this.takeFromLost())
    this.#hush = listen(this.#url, jobNotice, () => void this.#look().catch((error) => this.#tellAway(error)))
  }

  /** Let go of everything: what may be done again goes back to the queue, the rest is told as failed. */
  async close(): Promise<void> {
    this.#isClosed = true
    for (const timer of this.#timers.splice(0)) clearInterval(timer)
    this.#hush?.()
    await this.#looking?.catch(() => {})
    for (const [id, { kind }] of [...this.#atWork])
      await this.#giveUp(kind, id, this.#me, 'its process was stopped').catch(() => {})
    for (const { stop } of this.#atWork.values()) stop.abort(new Lost())
    await Promise.allSettled([...this.#atWork.values()].map(({ ending }) => ending))
    if (this.#started) await this.#boss.stop({ graceful: false, close: false, wait: false }).catch(() => {})
    await this.#pool.end().catch(() => {})
  }

  async start(kind: string, about: unknown, id: string = randomUUID()): Promise<Result<AnyJob, TooManyAtOnce>> {
    const { most } = kindOf(kind)
    const begun = await this.#start(kind, about, id)
    if (begun !== 'begun') return refused({ kind: 'too-many-at-once', most })
    const job = await this.find(kind, id)
    if (!job) throw new Error('start: the job was taken away as soon as it was begun')
    return ok(job)
  }

  async startOnce(kind: string, about: unknown, key: string): Promise<AnyJob | null> {
    const id = idOf(`${kind} ${key}`)
    return (await this.#start(kind, about, id)) === 'begun' ? this.find(kind, id) : null
  }

  async #start(kind: string, about: unknown, id: string): Promise<Insertion> {
    const { most, first } = kindOf(kind)
    await this.work()
    await this.#queue(kind)
    await this.#forgetOld(kind)
    const [by, progress] = [who(), first(about)]
    const inserted = await this.#insert(kind, most, [
      ...[id, kind, toJobText({ about, who: by }), toJobText(progress)],
      by.kind === 'account' ? by.accountId : null,
    ])
    if (inserted === 'begun') void this.#look().catch((error) => this.#tellAway(error))
    return inserted
  }

  /** Row, queue and notice in one transaction. Serializable, so that two who begin at once are not both the last there is room for. */
  async #insert(kind: string, most: number, values: unknown[]): Promise<Insertion> {
    for (let tried = 1; ; tried++) {
      const client = await this.#pool.connect()
      let broken: Error | undefined
      try {
        await client.query('BEGIN ISOLATION LEVEL SERIALIZABLE')
        const there = await client.query('SELECT 1 FROM "BackgroundJob" WHERE "id" = $1', [values[0]])
        if (there.rows.length > 0) {
          await client.query('ROLLBACK')
          return 'begun before'
        }
        const running = await client.query<{ n: string }>(
          `SELECT count(*) AS n FROM "BackgroundJob" WHERE "kind" = $1 AND "state" = 'running'`,
          [kind],
        )
        if (Number(running.rows[0]?.n) >= most) {
          await client.query('ROLLBACK')
          return 'too many'
        }
        await client.query(
          `INSERT INTO "BackgroundJob" ("id", "kind", "state", "aboutJson", "progressJson", "accountId", "isStopAsked", "startedAt")
           VALUES ($1, $2, 'running', $3, $4, $5, false, ${now})`,
          values,
        )
        const id = values[0] as string
        const db = { executeSql: (text: string, given: unknown[]) => client.query(text, given) }
        const sent = await this.#boss.send(
          queueOf(kind),
          { id },
          { id, db, retryLimit: kindOf(kind).isTakenUpAgain ? 1 : 0, expireInHours },
        )
        if (sent === null) throw new Error('start: the queue did not take it')
        await client.query('COMMIT')
        void this.#notify()
        return 'begun'
      } catch (error) {
        broken = error as Error
        await client.query('ROLLBACK').catch(() => {})
        const isInTheWay = ['40001', '40P01', '23505'].includes(String((error as { code?: unknown }).code))
        if (!isInTheWay || tried >= startAttempts) throw error
      } finally {
        client.release(broken && !('severity' in broken))
      }
      await new Promise((resolve) => setTimeout(resolve, Math.random() * 50 * 2 ** tried))
    }
  }

  /** After the commit, and of no matter where there are no notices: everybody looks each second anyway. */
  #notify(): Promise<unknown> {
    return this.#pool.query(`SELECT pg_notify('${jobNotice}', '')`).catch(() => {})
  }

  async find(kind: string, id: string): Promise<AnyJob | null> {
    return this.#read(`SELECT ${columns} FROM "BackgroundJob" WHERE "kind" = $1 AND "id" = $2`, [kind, id])
  }

  async latest(kind: string): Promise<AnyJob | null> {
    return this.#read(`SELECT ${columns} FROM "BackgroundJob" WHERE "kind" = $1 ORDER BY "startedAt" DESC, "id" DESC LIMIT 1`, [
      kind,
    ])
  }

  async #read(sql: string, values: string[]): Promise<AnyJob | null> {
    const { rows } = await this.#pool.query<Row>(sql, values)
    const [row] = rows
    if (!row) return null
    const { about, who: by } = fromJobText(row.aboutJson) as { about: unknown; who: Who }
    return {
      ...{ id: row.id, about, who: by, progress: fromJobText(row.progressJson) },
      ...{ startedAt: new Date(Number(row.startedMs)), endedAt: row.endedMs === null ? null : new Date(Number(row.endedMs)) },
      state:
        row.state === 'running'
          ? { kind: 'running' }
          : row.state === 'ended'
            ? { kind: 'ended', answer: fromJobText(row.answerJson ?? 'null') }
            : { kind: 'failed', errorId: row.errorId ?? '' },
    }
  }

  async ended(kind: string, id: string): Promise<void> {
    for (let waitMs = 50; ; waitMs = Math.min(waitMs * 1.5, 1_000)) {
      await this.#atWork.get(id)?.ending
      const { rows } = await this.#pool.query(
        `SELECT 1 FROM "BackgroundJob" WHERE "kind" = $1 AND "id" = $2 AND "state" = 'running'`,
        [kind, id],
      )
      if (rows.length === 0 || this.#isClosed) return
      await new Promise((resolve) => setTimeout(resolve, waitMs))
    }
  }

  async askToStop(kind: string, id: string): Promise<void> {
    await this.#pool.query(
      `UPDATE "BackgroundJob" SET "isStopAsked" = true WHERE "kind" = $1 AND "id" = $2 AND "state" = 'running'`,
      [kind, id],
    )
    this.#atWork.get(id)?.stop.abort(new Error('stopped by a person'))
  }

  async amend(kind: string, id: string, change: (answer: unknown) => unknown): Promise<unknown> {
    const client = await this.#pool.connect()
    try {
      await client.query('BEGIN')
      const { rows } = await client.query<{ answerJson: string | null }>(
        `SELECT "answerJson" FROM "BackgroundJob" WHERE "kind" = $1 AND "id" = $2 AND "state" = 'ended' FOR UPDATE`,
        [kind, id],
      )
      if (!rows[0]) return null
      const answer = change(fromJobText(rows[0].answerJson ?? 'null'))
      await client.query('UPDATE "BackgroundJob" SET "answerJson" = $1 WHERE "id" = $2', [toJobText(answer), id])
      await client.query('COMMIT')
      return answer
    } finally {
      await client.query('ROLLBACK').catch(() => {})
      client.release()
    }
  }

  #ready(): Promise<unknown> {
    this.#started ??= this.#boss.start().catch((error) => {
      this.#started = null
      throw error
    })
    return this.#started
  }

  #queue(kind: string): Promise<void> {
    let made = this.#queues.get(kind)
    if (!made) {
      made = this.#boss.getQueue(queueOf(kind)).then((there) => (there ? undefined : this.#boss.createQueue(queueOf(kind))))
      this.#queues.set(kind, made)
      made.catch(() => this.#queues.delete(kind))
    }
    return made
  }

  /** Take up what waits and there is room for here. */
  #look(): Promise<void> {
    if (this.#looking) {
      this.#isLookedAgain = true
      return this.#looking
    }
    this.#looking = this.#takeUp().finally(() => {
      this.#looking = null
      if (!this.#isLookedAgain) return
      this.#isLookedAgain = false
      void this.#look().catch((error) => this.#tellAway(error))
    })
    return this.#looking
  }

  async #takeUp(): Promise<void> {
    if (this.#isClosed || this.#timers.length === 0) return
    const { rows } = await this.#pool.query<{ kind: string }>(
      `SELECT DISTINCT "kind" FROM "BackgroundJob" WHERE "state" = 'running' AND "process" IS NULL`,
    )
    if (this.#isAway) log.info('The background jobs reach the database again.')
    this.#isAway = false
    for (const { kind } of rows) {
      const how = jobKinds.get(kind)
      if (!how) continue
      await this.#queue(kind)
      for (let busy = this.#countAtWork(kind); busy < (how.mostHere ?? how.most) && !this.#isClosed; busy++) {
        const [given] = await this.#boss.fetch<{ id: string }>(queueOf(kind))
        if (!given) break
        await this.#begin(kind, given.data.id)
      }
    }
  }

  #countAtWork(kind: string): number {
    return [...this.#atWork.values()].filter((one) => one.kind === kind).length
  }

  async #begin(kind: string, id: string): Promise<void> {
    const { rows } = await this.#pool.query<{ aboutJson: string; progressJson: string; isStopAsked: boolean }>(
      `UPDATE "BackgroundJob" SET "process" = $2, "heardAt" = ${now}
        WHERE "id" = $1 AND "state" = 'running' AND "process" IS NULL RETURNING "aboutJson", "progressJson", "isStopAsked"`,
      [id, this.#me],
    )
    const [row] = rows
    // Long ended, or in other hands: nothing is left to do.
    if (!row) return void (await this.#boss.complete(queueOf(kind), id))
    const { about, who: by } = fromJobText(row.aboutJson) as { about: unknown; who: Who }
    const progress = fromJobText(row.progressJson)
    const stop = new AbortController()
    const job: AtWork = { kind, stop, ending: Promise.resolve(), progress, told: progress, isLost: false }
    if (row.isStopAsked) stop.abort(new Error('stopped by a person'))
    const began = performance.now()
    const report = (told: unknown) => {
      job.progress = told
    }
    this.#atWork.set(id, job)
    job.ending = asBegun(kind, by, () => kindOf(kind).run(about, { id, signal: stop.signal, report }))
      .then(
        (answer) => ({ state: 'ended' as const, answer: toJobText(answer), errorId: null }),
        (error) => {
          const errorId = randomUUID()
          if (!job.isLost) log.error(`${kind} failed`, { id: errorId, kind, error })
          return { state: 'failed' as const, answer: null, errorId }
        },
      )
      .then(async (end) => {
        if (!job.isLost) await this.#tellEnd(kind, id, { ...end, progress: job.progress })
        if (end.state === 'ended' && !job.isLost)
          log.info(`${kind} ended`, { id, kind, ms: Math.round(performance.now() - began) })
      })
      .catch((error) => this.#tellAway(error))
      .finally(() => this.#atWork.delete(id))
  }

  async #tellEnd(
    kind: string,
    id: string,
    end: { state: 'ended' | 'failed'; answer: string | null; errorId: string | null; progress: unknown },
  ): Promise<void> {
    const until = Date.now() + tellForMs
    for (;;) {
      try {
        await this.#pool.query(
          `UPDATE "BackgroundJob" SET "state" = $3, "answerJson" = $4, "errorId" = $5, "progressJson" = $6, "endedAt" = ${now}
            WHERE "id" = $1 AND "process" = $2 AND "state" = 'running'`,
          [id, this.#me, end.state, end.answer, end.errorId, toJobText(end.progress)],
        )
        await this.#boss.complete(queueOf(kind), id)
        return
      } catch (error) {
        if (Date.now() > until || this.#isClosed) throw error
        await new Promise((resolve) => setTimeout(resolve, 1_000))
      }
    }
  }

  async #sayAlive(): Promise<void> {
    for (const [id, job] of [...this.#atWork]) {
      const isNews = job.told !== job.progress
      const progress = job.progress
      const { rows } = await this.#pool.query<{ isStopAsked: boolean }>(
        `UPDATE "BackgroundJob" SET "heardAt" = ${now}, "progressJson" = coalesce($3, "progressJson")
          WHERE "id" = $1 AND "process" = $2 AND "state" = 'running' RETURNING "isStopAsked"`,
        [id, this.#me, isNews ? toJobText(progress) : null],
      )
      job.told = progress
      if (rows[0]?.isStopAsked) job.stop.abort(new Error('stopped by a person'))
      // It has ended by itself just now, or was given to somebody else.
      if (rows.length === 0 && this.#atWork.get(id) === job) {
        const still = await this.#pool.query(`SELECT 1 FROM "BackgroundJob" WHERE "id" = $1 AND "process" = $2`, [id, this.#me])
        if (still.rows.length > 0) continue
        job.isLost = true
        job.stop.abort(new Lost())
      }
    }
  }

  /** Take jobs from processes that were not heard of for too long. */
  async takeFromLost(): Promise<void> {
    const { rows } = await this.#pool.query<{ id: string; kind: string; process: string | null }>(
      `SELECT "id", "kind", "process" FROM "BackgroundJob" WHERE "state" = 'running' AND "heardAt" < ${ago('$1')}`,
      [lostAfterMs],
    )
    for (const { id, kind, process: lost } of rows) {
      // Whoever does this first does it alone; and where they are gone too, somebody does it again.
      const mine = await this.#pool.query(
        `UPDATE "BackgroundJob" SET "process" = '', "heardAt" = ${now}
          WHERE "id" = $1 AND "state" = 'running' AND "process" IS NOT DISTINCT FROM $2 AND "heardAt" < ${ago('$3')}`,
        [id, lost, lostAfterMs],
      )
      if (mine.rowCount === 1) await this.#giveUp(kind, id, '', `the process at work was last heard of too long ago: ${lost}`)
    }
  }

  /** Give a job that is in the hands of `holder` back to the queue, or where it cannot be done again say that it failed. */
  async #giveUp(kind: string, id: string, holder: string, why: string): Promise<void> {
    const mine = this.#atWork.get(id)
    if (mine) mine.isLost = true
    await this.#queue(kind)
    await this.#boss.fail(queueOf(kind), id)
    const queued = await this.#boss.getJobById(queueOf(kind), id)
    if (queued?.state === 'retry') {
      await this.#pool.query(
        `UPDATE "BackgroundJob" SET "process" = NULL, "heardAt" = NULL WHERE "id" = $1 AND "process" = $2 AND "state" = 'running'`,
        [id, holder],
      )
      log.warn(`${kind} is taken up again: ${why}`, { id, kind })
      void this.#notify()
      return
    }
    const errorId = randomUUID()
    log.error(`${kind} failed: ${why}`, { id: errorId, kind })
    await this.#pool.query(
      `UPDATE "BackgroundJob" SET "state" = 'failed', "errorId" = $3, "endedAt" = ${now}
        WHERE "id" = $1 AND "process" = $2 AND "state" = 'running'`,
      [id, holder, errorId],
    )
  }

  async #forgetOld(kind: string): Promise<void> {
    await this.#pool.query(
      `DELETE FROM "BackgroundJob" WHERE "kind" = $1 AND "state" <> 'running' AND ("endedAt" < ${ago('$2')} OR "id" NOT IN (
         SELECT "id" FROM "BackgroundJob" WHERE "kind" = $1 ORDER BY "startedAt" DESC LIMIT ${jobsKept}))`,
      [kind, keptForMs],
    )
  }

  /** Said once, until the database is there again. */
  #tellAway(error: unknown): void {
    if (this.#isAway || this.#isClosed) return
    this.#isAway = true
    log.warn('The background jobs cannot reach the database.', { error })
  }
}

const shared = globalThis as unknown as { larderQueuedJobs?: QueuedJobs; larderQueuedJobsUrl?: string }

/** The process's share in the jobs of a database. */
export function queuedJobs(url: string): QueuedJobs {
  if (shared.larderQueuedJobs && shared.larderQueuedJobsUrl === url) return shared.larderQueuedJobs
  void shared.larderQueuedJobs?.close()
  shared.larderQueuedJobs = new QueuedJobs(url)
  shared.larderQueuedJobsUrl = url
  return shared.larderQueuedJobs
}

/** Let go of them, before the process ends or the database goes. */
export async function leaveQueuedJobs(): Promise<void> {
  const jobs = shared.larderQueuedJobs
  delete shared.larderQueuedJobs
  await jobs?.close()
}
