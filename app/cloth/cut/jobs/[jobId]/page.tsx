import type { Metadata } from 'next'
import { say } from '#language/say'
import { sayParts } from '#language/say-parts'
import { readCutPieces } from '#lib/db/cut-plan/queries'
import { findCut, type SearchedCut } from '#lib/db/cut-plan/start-cut'
import { secondsRun } from '#lib/db/job/jobs'
import { Button, ButtonRow, LinkButton } from '#ui/button'
import { TextField } from '#ui/field'
import { Form } from '#ui/form'
import { Notice } from '#ui/notice'
import { PageHead } from '#ui/page-head'
import { Section } from '#ui/section'
import { getViewer } from '#viewer/viewer'
import { beginAction, keepAction } from '../../actions'
import type { Fields } from '../../choices'
import { PlanPieces, PlanSum } from '../../plan-view'
import { shownPlan } from '../../shown-plan'
import { endingWords } from '../../words'
import { JobProgress } from './job-progress'

export const generateMetadata = (): Metadata => ({ title: say('A way to cut it') })

type JobPageProps = { params: Promise<{ jobId: string }>; searchParams: Promise<Fields> }

/** Every field of the form, to begin again with. */
const pairsOf = (fields: Fields): [string, string][] =>
  Object.entries(fields).flatMap(([name, value]) => [value ?? []].flat().map((text): [string, string] => [name, text]))

export default async function CutJobPage({ params, searchParams }: JobPageProps) {
  const [{ jobId }, fields, { settings }] = await Promise.all([params, searchParams, getViewer()])
  const job = await findCut(jobId)
  const pairs = pairsOf(fields)
  const formHref = `/cloth/cut/new?${new URLSearchParams(pairs)}`
  const crumbs = [
    { label: say('Cloth'), href: '/cloth' },
    { label: say('Plans of cuts'), href: '/cloth/cut' },
    { label: say('Plan a cut'), href: formHref },
    { label: !job ? say('Not known') : job.state.kind === 'running' ? say('Under way') : say('Found') },
  ]
  if (!job)
    return (
      <>
        <PageHead title={say('Plan a cut')} crumbs={crumbs} />
        <Notice kind="caution" title={say('Nothing is known of this search any more')}>
          {say(
            'It was begun before the program last started, or long ago. What was asked for is still here: begin again, or change it.',
          )}
        </Notice>
        <AgainForm pairs={pairs} formHref={formHref} isFirst />
      </>
    )
  const pieces = await readCutPieces(job.request.pieces.map(({ id }) => id))
  const shown = shownPlan({ ...job.about, plan: job.plan ?? emptyPlan }, pieces.values(), settings.lengthUnit)
  const { plan: _, ...called } = shown
  if (job.state.kind === 'running')
    return (
      <>
        <PageHead title={say('Plan a cut')} crumbs={crumbs} />
        <JobProgress
          jobId={jobId}
          first={{ plan: job.plan, seconds: Math.round(secondsRun(job)) }}
          timeLimitSeconds={job.timeLimitSeconds}
          shown={called}
        />
        <p className="quiet">{say('This page may be left; the search goes on. Stopped, it keeps the best it has found.')}</p>
        <noscript>
          <meta httpEquiv="refresh" content="2" />
        </noscript>
      </>
    )
  const { state, plan } = job
  return (
    <>
      <PageHead title={say('A way to cut it')} crumbs={crumbs} byline={endingWords(job)} />
      {state.kind === 'failed' && (
        <Notice kind="refusal" title={say('The search broke off')}>
          {sayParts(
            '{hasPlan, select, yes {The best it had found by then is below.} other {It had found nothing yet.}} The error’s number in the log is {errorId}.',
            { hasPlan: Boolean(plan), errorId: <b>{state.errorId}</b> },
          )}
        </Notice>
      )}
      {plan && plan.layouts.length > 0 ? (
        <>
          <PlanSum {...shown} plan={plan} />
          <div className="no-print">
            <Section title={say('Keep it')} id="keep">
              <Form action={keepAction} hidden={{ jobId }} submit={say('Keep this plan')} label={say('Keep this plan')}>
                <TextField
                  name="title"
                  label={say('What it is for')}
                  hint={say('Its pieces are then set aside for it, until it is carried out or given up')}
                  defaultValue={[...new Set(shown.titles.values())].slice(0, 3).join(', ').slice(0, 120)}
                  maxLength={120}
                  isRequired
                />
              </Form>
            </Section>
          </div>
          <PlanPieces {...shown} plan={plan} />
        </>
      ) : (
        state.kind !== 'failed' && <Notice kind="refusal" title={say('Nothing could be cut from these pieces')} />
      )}
      <AgainForm pairs={pairs} formHref={formHref} isFirst={!plan || plan.layouts.length === 0} />
    </>
  )
}

const emptyPlan: NonNullable<SearchedCut['plan']> = {
  ...{ layouts: [], leftOut: [], value: 0, cutCount: 0, wasteUm2: 0, largestOffcutsUm2: 0 },
  ...{ valueBound: 0, bound: 0, isProved: false },
}

/** The same search once more, or the form to change it. */
function AgainForm({ pairs, formHref, isFirst }: { pairs: readonly [string, string][]; formHref: string; isFirst: boolean }) {
  return (
    <form className="no-print" action={beginAction} aria-label={say('Search again')}>
      {pairs.map(([name, value], at) => (
        // biome-ignore lint/suspicious/noArrayIndexKey: drawn once, in a fixed order
        <input key={at} type="hidden" name={name} value={value} />
      ))}
      <ButtonRow>
        <Button type="submit" kind={isFirst ? 'first' : 'plain'}>
          {say('Search again')}
        </Button>
        <LinkButton href={formHref}>{say('Change what is asked')}</LinkButton>
      </ButtonRow>
    </form>
  )
}
