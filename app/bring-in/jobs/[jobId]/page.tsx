import type { Metadata } from 'next'
import { redirect } from 'next/navigation'
import { say } from '#language/say'
import { sayParts } from '#language/say-parts'
import { importProgress } from '#lib/db/importing/import-jobs'
import type { ImportProgress } from '#lib/db/importing/import-service'
import { LinkButton } from '#ui/button'
import { Notice } from '#ui/notice'
import { PageHead } from '#ui/page-head'
import { type Errand, errandQuery, parseErrand, previewHref } from '../../choices'
import { describeImportRefusal } from '../../refusal-words'
import { JobProgress } from './job-progress'

export const generateMetadata = (): Metadata => ({ title: say('Bringing in') })

type JobPageProps = { params: Promise<{ jobId: string }>; searchParams: Promise<Record<string, unknown>> }

export default async function JobPage({ params, searchParams }: JobPageProps) {
  const [{ jobId }, search] = await Promise.all([params, searchParams])
  const errand = parseErrand(search)
  const isSample = search.sample === '1'
  const progress = await importProgress(jobId)
  if (progress?.state === 'done')
    redirect(isSample ? '/bring-in/sample' : `/bring-in/results/${progress.importId}${errandQuery(errand)}`)
  return (
    <>
      <PageHead
        title={isSample ? say('Loading the sample') : say('Bringing in')}
        crumbs={[{ label: say('Bring in'), href: '/bring-in' }, { label: isSample ? say('The sample') : say('Under way') }]}
      />
      {progress?.state === 'running' ? (
        <>
          <JobProgress jobId={jobId} first={progress} resultQuery={errandQuery(errand)} isSample={isSample} />
          <p className="quiet">
            {isSample
              ? say('Stopped, it keeps the files of the sample that were written by then; each can be undone.')
              : say('Stopped before it is written, it changes nothing. This page may be left; the work goes on.')}
          </p>
          <noscript>
            <meta httpEquiv="refresh" content="2" />
          </noscript>
        </>
      ) : (
        <HowItEnded progress={progress} errand={errand} />
      )}
    </>
  )
}

function HowItEnded({
  progress,
  errand,
}: {
  progress: Exclude<ImportProgress, { state: 'running' | 'done' }> | null
  errand: Errand
}) {
  const back = errand.stagedId === null ? '/bring-in' : previewHref(errand.stagedId, errand.choices, errand.waiting)
  const actions = (
    <LinkButton href={back} kind="first">
      {errand.stagedId === null ? say('To Bring in') : say('Back to the file')}
    </LinkButton>
  )
  if (progress === null)
    return (
      <Notice kind="caution" title={say('Nothing is known of this any more')} actions={actions}>
        {say('It was begun before the program last started. The list under Bring in says whether it was written.')}
      </Notice>
    )
  switch (progress.state) {
    case 'refused':
      return (
        <Notice kind="refusal" title={describeImportRefusal(progress.refusal)} actions={actions}>
          {say('Nothing was changed.')}
        </Notice>
      )
    case 'stopped':
      return (
        <Notice kind="done" title={say('Stopped')} actions={actions}>
          {say('What was not yet written is left as it was.')}
        </Notice>
      )
    case 'failed':
      return (
        <Notice kind="refusal" title={say('This did not work')} actions={actions}>
          {sayParts(
            'What did not finish is left out whole; the list under Bring in says what was written. The error’s number in the log is {errorId}.',
            { errorId: <b>{progress.errorId}</b> },
          )}
        </Notice>
      )
  }
}
