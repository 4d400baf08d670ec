import type { Metadata } from 'next'
import { z } from 'zod'
import { say } from '#language/say'
import { sayParts } from '#language/say-parts'
import { requireRight } from '#lib/db/access/right'
import { nextBackupAt } from '#lib/db/backup/backup-clock'
import { isOnSameDisk, usualFolder } from '#lib/db/backup/backup-folder'
import { findRunningBackup } from '#lib/db/backup/backup-jobs'
import { type BackupSettings, getBackupSettings } from '#lib/db/backup/backup-settings'
import { getLastRun } from '#lib/db/backup/last-run'
import { type BackupListed, listBackups } from '#lib/db/backup/list-backups'
import { Empty } from '#ui/empty'
import { CheckField, FieldRow, NumberField, TextField } from '#ui/field'
import { Form } from '#ui/form'
import { type Column, Ledger } from '#ui/ledger'
import { Notice } from '#ui/notice'
import { PageHead } from '#ui/page-head'
import { Section } from '#ui/section'
import { backupKindWords, bytesWords, lastRunTrouble } from '#words/backup'
import { momentWords } from '#words/date'
import { backUpAction, saveBackupSettingsAction } from './actions'
import s from './backups.module.css'
import { BringInBackup } from './bring-in-backup'
import { CheckState } from './check-state'
import { JobAnswer } from './job-answer'

export const generateMetadata = (): Metadata => ({ title: say('Backups') })

const querySchema = z.object({ job: z.uuid().optional().catch(undefined) })

type Props = { searchParams: Promise<Record<string, string | string[] | undefined>> }

export default async function BackupsPage({ searchParams }: Props) {
  requireRight('keep')
  const { job } = querySchema.parse(await searchParams)
  const [backups, settings, lastRun, isSameDisk] = await Promise.all([
    listBackups(),
    getBackupSettings(),
    getLastRun(),
    isOnSameDisk(),
  ])
  const running = await findRunningBackup()
  const jobId = running?.id ?? job
  const trouble = lastRunTrouble(lastRun)
  const good = backups.find(({ check }) => check?.isGood)
  const next = nextBackupAt()
  return (
    <>
      <PageHead
        title={say('Backups')}
        crumbs={[{ label: say('Settings'), href: '/settings' }]}
        byline={
          good ? say('The last good one is of {moment}.', { moment: momentWords(good.madeAt) }) : say('There is no good one yet.')
        }
        actions={
          running ? undefined : <Form action={backUpAction} submit={say('Back up now')} pending={say('Beginning')} isInline />
        }
      />
      {jobId && <JobAnswer jobId={jobId} />}
      {trouble && (
        <Notice kind="refusal" title={say('The last backup did not come off')}>
          {trouble}{' '}
          {good && say('The older ones are kept; the last good one is of {moment}.', { moment: momentWords(good.madeAt) })}
        </Notice>
      )}
      {isSameDisk === true && (
        <Notice kind="caution" title={say('These lie on the same disk as the collection')}>
          {say(
            'When the disk fails, or is stolen or burnt, they go with it. Copy one to somewhere else now and then, on a stick or to another house: download it below, or choose a folder on another disk. One file is all there is to copy.',
          )}
        </Notice>
      )}
      <Section
        title={say('The backups')}
        note={
          next
            ? say('The next is due {moment}', { moment: momentWords(next) })
            : settings.isScheduled
              ? undefined
              : say('Made only when you ask for it')
        }
      >
        {backups.length === 0 ? (
          <Empty title={say('No backup yet')}>
            {say(
              'Each holds the database and the photographs of one moment, in one file, and is checked by restoring it to a scratch place.',
            )}
          </Empty>
        ) : (
          <Ledger
            caption={say('Backups, newest first')}
            columns={columns()}
            rows={backups}
            rowKey={({ name }) => name}
            rowHref={({ name }) => `/settings/backups/${name}`}
          />
        )}
        <p className="quiet">
          {sayParts('They lie in {folder}. One that is copied into that folder is listed here.', {
            folder: <code className={s.path}>{settings.folder ?? usualFolder()}</code>,
          })}
        </p>
      </Section>
      <Section title={say('When, where, how many')} id="settings">
        <SettingsForm settings={settings} />
      </Section>
      <Section
        title={say('Bring in a backup from elsewhere')}
        id="bring-in"
        note={say('It is checked first. Nothing here changes by it.')}
      >
        <BringInBackup />
      </Section>
    </>
  )
}

const columns = (): readonly Column<BackupListed>[] => [
  { key: 'at', head: say('When'), phone: 'lead', cell: ({ madeAt }) => <span className="nb">{momentWords(madeAt)}</span> },
  {
    key: 'why',
    head: say('Why'),
    phone: 'line',
    cell: ({ kind, isBroughtIn }) => (isBroughtIn ? say('brought in from elsewhere') : backupKindWords[kind]),
  },
  {
    key: 'bytes',
    head: say('Size'),
    phone: 'side',
    isNumeric: true,
    cell: ({ bytes }) => <span className="nb">{bytesWords(bytes)}</span>,
  },
  { key: 'check', head: say('Checked'), phone: 'line', cell: ({ check }) => <CheckState check={check} /> },
]

function SettingsForm({ settings }: { settings: BackupSettings }) {
  const { keeping } = settings
  return (
    <Form action={saveBackupSettingsAction} submit={say('Keep these')}>
      <FieldRow>
        <CheckField
          name="isScheduled"
          label={say('Make one every night')}
          defaultChecked={settings.isScheduled}
          hint={say('And at the start, when the last is over a day old.')}
        />
        <TextField
          name="hour"
          label={say('At')}
          defaultValue={settings.hour}
          width="short"
          hint={say('By this machine’s clock.')}
        />
      </FieldRow>
      <TextField
        name="folder"
        label={say('Folder')}
        defaultValue={settings.folder ?? ''}
        hint={say(
          'Left empty: {usualFolder}. A folder on another disk must be there; a small file put into it tells whether the disk is connected.',
          { usualFolder: usualFolder() },
        )}
      />
      <FieldRow>
        <NumberField name="days" label={say('Days kept')} unit={say('days')} isWhole defaultValue={keeping.days} />
        <NumberField name="weeks" label={say('Weeks kept')} unit={say('weeks')} isWhole defaultValue={keeping.weeks} />
        <NumberField name="months" label={say('Months kept')} unit={say('months')} isWhole defaultValue={keeping.months} />
      </FieldRow>
      <p className="quiet">
        {say(
          'Of each day, week and month the last one stays; those without a backup take no turn. The newest good one is never taken away; what was set aside before a restore stays a month, and what was brought in from elsewhere until you remove it.',
        )}
      </p>
    </Form>
  )
}
