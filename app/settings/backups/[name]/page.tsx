import type { Metadata } from 'next'
import { notFound } from 'next/navigation'
import { z } from 'zod'
import { numberText } from '#language/figures'
import { say } from '#language/say'
import { type HeldNoun, heldNouns } from '#lib/backup/check'
import { requireRight } from '#lib/db/access/right'
import { findRunningBackup } from '#lib/db/backup/backup-jobs'
import { findBackup } from '#lib/db/backup/list-backups'
import { type RestoreOutlook, readRestoreOutlook } from '#lib/db/backup/restore-outlook'
import { ConfirmDialog } from '#ui/confirm-dialog'
import { Facts } from '#ui/facts'
import { TextField } from '#ui/field'
import { Form } from '#ui/form'
import { type Column, Ledger } from '#ui/ledger'
import { Notice } from '#ui/notice'
import { PageHead } from '#ui/page-head'
import { Section } from '#ui/section'
import { backupKindWords, bytesWords, describeFault, heldWords } from '#words/backup'
import { momentWords } from '#words/date'
import { checkBackupAction, removeBackupAction, restoreAction } from '../actions'
import s from '../backups.module.css'
import { CheckState } from '../check-state'
import { JobAnswer } from '../job-answer'
import { restoreWord } from '../schema'

export const generateMetadata = (): Metadata => ({ title: say('A backup') })

const querySchema = z.object({ job: z.uuid().optional().catch(undefined) })

type Props = { params: Promise<{ name: string }>; searchParams: Promise<Record<string, string | string[] | undefined>> }

export default async function BackupPage({ params, searchParams }: Props) {
  requireRight('keep')
  const [{ name }, { job }] = [await params, querySchema.parse(await searchParams)]
  const [backup, outlook] = await Promise.all([findBackup(name), readRestoreOutlook(name)])
  if (!backup) notFound()
  const { madeAt, bytes, kind, isBroughtIn, check } = backup
  const jobId = (await findRunningBackup())?.id ?? job
  return (
    <>
      <PageHead
        title={say('Backup of {moment}', { moment: momentWords(madeAt) })}
        crumbs={[
          { label: say('Settings'), href: '/settings' },
          { label: say('Backups'), href: '/settings/backups' },
        ]}
      />
      {jobId && <JobAnswer jobId={jobId} />}
      <Facts
        items={[
          { label: say('Checked'), value: <CheckState check={check} /> },
          { label: say('Why'), value: isBroughtIn ? say('brought in from elsewhere') : backupKindWords[kind] },
          { label: say('Size'), value: bytesWords(bytes) },
          { label: say('File'), value: <code className={s.path}>{name}</code> },
        ]}
      />
      {check && !check.isGood && check.faults.length > 1 && (
        <Notice kind="caution" title={say('What is not right with it')}>
          <ul>
            {check.faults.map((fault) => (
              <li key={JSON.stringify(fault)}>{describeFault(fault)}</li>
            ))}
          </ul>
        </Notice>
      )}
      <div className={s.acts}>
        <a href={`/settings/backups/${name}/file`} download>
          {say('Download')}
        </a>
        <Form action={checkBackupAction} hidden={{ name }} submit={say('Check')} submitKind="plain" isInline />
        <ConfirmDialog
          opener={say('Remove')}
          title={say('Remove this backup?')}
          confirm={say('Remove it')}
          action={removeBackupAction}
          hidden={{ name }}
        >
          <p>{say('It is taken off the disk and cannot be had back. The collection is not touched.')}</p>
        </ConfirmDialog>
      </div>
      {outlook && <Restore outlook={outlook} />}
    </>
  )
}

const since = ({ since: came }: RestoreOutlook): string => {
  if (came === null) return say('What is here now has another past than this backup: all of it would be replaced.')
  if (came.writes === 0) return say('Nothing was written since: restoring it changes nothing.')
  const journal =
    came.movements === 0
      ? say('none of them in the journal')
      : say('{movements, plural, one {# line} other {# lines}} of the journal among them', { movements: came.movements })
  return say('{writes, plural, one {# change} other {# changes}} since this backup would be lost, {journal}{rest}.', {
    writes: came.writes,
    journal,
    rest: came.lastAt ? say('; the last movement is of {moment}', { moment: momentWords(came.lastAt) }) : '',
  })
}

const figure = (count: number): string => numberText(count)

const differenceWords = (more: number): string =>
  more === 0
    ? ''
    : more > 0
      ? say(', {figure} more', { figure: figure(more) })
      : say(', {figure} fewer', { figure: figure(-more) })

function Restore({ outlook }: { outlook: RestoreOutlook }) {
  const { backup, held, present } = outlook
  const { name, check } = backup
  const columns: readonly Column<HeldNoun>[] = [
    { key: 'noun', head: say('What'), phone: 'lead', cell: (noun) => heldWords[noun] },
    { key: 'held', head: say('In the backup'), phone: 'side', isNumeric: true, cell: (noun) => figure(held[noun]) },
    {
      key: 'present',
      head: say('Here now'),
      phone: 'labelled',
      isNumeric: true,
      cell: (noun) => `${figure(present[noun])}${differenceWords(present[noun] - held[noun])}`,
    },
  ]
  return (
    <Section title={say('Restore it')} id="restore" note={say('It is checked once more, and what is here is set aside first.')}>
      <div className={s.column}>
        <Ledger
          caption={say('What the backup holds, and what is here')}
          columns={columns}
          rows={heldNouns.filter((noun) => held[noun] > 0 || present[noun] > 0)}
          rowKey={(noun) => noun}
          isTight
        />
      </div>
      <p className={s.since}>{since(outlook)}</p>
      {check && !check.isGood && !check.canRestore ? (
        <Notice kind="refusal" title={say('This one cannot be restored')}>
          {check.faults[0] && describeFault(check.faults[0])}
        </Notice>
      ) : (
        <Form action={restoreAction} hidden={{ name }} submit={say('Restore this backup')} pending={say('Beginning')}>
          <TextField
            name="word"
            label={say('Type the word {restoreWord}', { restoreWord })}
            width="half"
            autoComplete="off"
            hint={say(
              'The whole collection is replaced by that of the backup, for everybody who uses it. What is here now becomes a backup of its own.',
            )}
          />
        </Form>
      )}
    </Section>
  )
}
