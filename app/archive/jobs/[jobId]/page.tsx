import type { Metadata } from 'next'
import { requireRight } from '#lib/db/access/right'
import { type ArchiveEnding, type ArchiveErrand, findArchiveJob } from '#lib/db/archive/archive-jobs'
import { LinkButton } from '#ui/button'
import { Notice } from '#ui/notice'
import { PageHead } from '#ui/page-head'
import { counted } from '#words/amounts'
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

export const metadata: Metadata = { title: 'Archive' }

export default async function ArchiveJobPage({ params }: { params: Promise<{ jobId: string }> }) {
  requireRight('keep')
  const { jobId } = await params
  const job = await findArchiveJob(jobId)
  const title = job?.about.kind === 'bring-back' ? 'Bringing an archive back' : 'Writing an archive'
  return (
    <>
      <PageHead
        title={job === null ? 'Archive' : title}
        crumbs={[{ label: 'Everything in a file', href: '/archive' }, { label: job === null ? 'Archive' : title }]}
      />
      {job === null ? (
        <Notice kind="caution" title="Nothing is known of this any more" actions={toArchives}>
          It was begun before the program last started. What did not finish left nothing behind; what did stands in the list.
        </Notice>
      ) : job.state.kind === 'running' ? (
        <>
          <JobProgress jobId={jobId} first={job.progress} words={stepWords} />
          <p className="quiet">
            {job.about.kind === 'take-out'
              ? 'Stopped, it leaves no file. This page may be left, and work may go on meanwhile: the archive is of the moment it was begun.'
              : 'Stopped, it leaves nothing behind. This page may be left; what others write meanwhile waits until this is done.'}
          </p>
          <noscript>
            <meta httpEquiv="refresh" content="2" />
          </noscript>
        </>
      ) : job.state.kind === 'failed' ? (
        <Notice kind="refusal" title="This did not work" actions={toArchives}>
          What did not finish left nothing behind. The error’s number in the log is <b>{job.state.errorId}</b>.
        </Notice>
      ) : (
        <Ended errand={job.about} ending={job.state.answer} />
      )}
    </>
  )
}

const toArchives = (
  <LinkButton href="/archive" kind="first">
    To the archives
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
            title={`Written: ${rowsWords(rowCount)}, ${counted(uploadCount, 'photo or file').replace('photo or files', 'photos and files')}, ${bytesWords(bytes)}`}
            actions={
              <>
                <LinkButton href={`/archive/files/${name}`} kind="first" download>
                  Download it
                </LinkButton>
                <LinkButton href="/archive">To the archives</LinkButton>
              </>
            }
          >
            Keep it on another disk than this one. Every part has its checksum in it, and is held against it when it is brought
            back.
          </Notice>
          {missing.length > 0 && (
            <Notice kind="caution" title={missingWords(missing.length)}>
              {missing.slice(0, 20).join(', ')}
              {missing.length > 20 && ' and others'}
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
          title={`Brought back: ${rowsWords(rowCount)} and ${counted(uploadCount, 'photo or file').replace('photo or files', 'photos and files')}`}
          actions={
            <LinkButton href="/" kind="first">
              To Find
            </LinkButton>
          }
        >
          {missing.length > 0 ? missingWords(missing.length) : 'All of it is as it was.'}
        </Notice>
      )
    }
    case 'refused':
      return ending.refusal.kind === 'stopped' ? (
        <Notice kind="done" title="Stopped" actions={toArchives}>
          Nothing was kept of it.
        </Notice>
      ) : (
        <Notice kind="refusal" title={describeArchiveRefusal(ending.refusal)} actions={toArchives}>
          Nothing was changed. {ending.refusal.kind === 'not-empty' && notEmptyAdvice}
        </Notice>
      )
    case 'disk-full':
      return (
        <Notice kind="refusal" title={diskFullWords} actions={toArchives}>
          Nothing was kept of it.
        </Notice>
      )
  }
}
