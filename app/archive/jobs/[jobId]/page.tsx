import type { Metadata } from 'next'
import { say } from '#language/say'
import { sayParts } from '#language/say-parts'
import { requireRight } from '#lib/db/access/right'
import { type ArchiveEnding, type ArchiveErrand, findArchiveJob } from '#lib/db/archive/archive-jobs'
import { LinkButton } from '#ui/button'
import { Notice } from '#ui/notice'
import { PageHead } from '#ui/page-head'
import {
  bytesWords,
  describeArchiveRefusal,
  diskFullWords,
  missingWords,
  notEmptyAdvice,
  rowsWords,
  stepWords,
} from '#words/archive'
import { JobProgress } from './job-progress'

export const generateMetadata = (): Metadata => ({ title: say('Archive') })

export default async function ArchiveJobPage({ params }: { params: Promise<{ jobId: string }> }) {
  requireRight('keep')
  const { jobId } = await params
  const job = await findArchiveJob(jobId)
  const title = job?.about.kind === 'bring-back' ? say('Bringing an archive back') : say('Writing an archive')
  return (
    <>
      <PageHead
        title={job === null ? say('Archive') : title}
        crumbs={[{ label: say('Everything in a file'), href: '/archive' }, { label: job === null ? say('Archive') : title }]}
      />
      {job === null ? (
        <Notice kind="caution" title={say('Nothing is known of this any more')} actions={toArchives}>
          {say(
            'It was begun before the program last started. What did not finish left nothing behind; what did stands in the list.',
          )}
        </Notice>
      ) : job.state.kind === 'running' ? (
        <>
          <JobProgress jobId={jobId} first={job.progress} words={stepWords} />
          <p className="quiet">
            {job.about.kind === 'take-out'
              ? say(
                  'Stopped, it leaves no file. This page may be left, and work may go on meanwhile: the archive is of the moment it was begun.',
                )
              : say(
                  'Stopped, it leaves nothing behind. This page may be left; what others write meanwhile waits until this is done.',
                )}
          </p>
          <noscript>
            <meta httpEquiv="refresh" content="2" />
          </noscript>
        </>
      ) : job.state.kind === 'failed' ? (
        <Notice kind="refusal" title={say('This did not work')} actions={toArchives}>
          {sayParts('What did not finish left nothing behind. The error’s number in the log is {errorId}.', {
            errorId: <b>{job.state.errorId}</b>,
          })}
        </Notice>
      ) : (
        <Ended errand={job.about} ending={job.state.answer} />
      )}
    </>
  )
}

const toArchives = (
  <LinkButton href="/archive" kind="first">
    {say('To the archives')}
  </LinkButton>
)

function Ended({ errand, ending }: { errand: ArchiveErrand; ending: ArchiveEnding }) {
  switch (ending.kind) {
    case 'written': {
      const { bytes, rowCount, uploadCount, missing } = ending.written
      const name = errand.kind === 'take-out' ? errand.name : ''
      return (
        <>
          <Notice
            kind="done"
            title={say('Written: {rows}, {count, plural, one {# photo or file} other {# photos and files}}, {bytes}', {
              rows: rowsWords(rowCount),
              count: uploadCount,
              bytes: bytesWords(bytes),
            })}
            actions={
              <>
                <LinkButton href={`/archive/files/${name}`} kind="first" download>
                  {say('Download it')}
                </LinkButton>
                <LinkButton href="/archive">{say('To the archives')}</LinkButton>
              </>
            }
          >
            {say(
              'Keep it on another disk than this one. Every part has its checksum in it, and is held against it when it is brought back.',
            )}
          </Notice>
          {missing.length > 0 && (
            <Notice kind="caution" title={missingWords(missing.length)}>
              {missing.slice(0, 20).join(', ')}
              {missing.length > 20 && say(' and others')}
            </Notice>
          )}
        </>
      )
    }
    case 'brought-back': {
      const { rowCount, uploadCount, missing } = ending.back
      return (
        <Notice
          kind="done"
          title={say('Brought back: {rows} and {count, plural, one {# photo or file} other {# photos and files}}', {
            rows: rowsWords(rowCount),
            count: uploadCount,
          })}
          actions={
            <LinkButton href="/" kind="first">
              {say('To Find')}
            </LinkButton>
          }
        >
          {missing.length > 0 ? missingWords(missing.length) : say('All of it is as it was.')}
        </Notice>
      )
    }
    case 'refused':
      return ending.refusal.kind === 'stopped' ? (
        <Notice kind="done" title={say('Stopped')} actions={toArchives}>
          {say('Nothing was kept of it.')}
        </Notice>
      ) : (
        <Notice kind="refusal" title={describeArchiveRefusal(ending.refusal)} actions={toArchives}>
          {sayParts('Nothing was changed. {rest}', { rest: ending.refusal.kind === 'not-empty' && notEmptyAdvice() })}
        </Notice>
      )
    case 'disk-full':
      return (
        <Notice kind="refusal" title={diskFullWords()} actions={toArchives}>
          {say('Nothing was kept of it.')}
        </Notice>
      )
  }
}
