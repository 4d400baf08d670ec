import { say } from '#language/say'
import { sayParts } from '#language/say-parts'
import type { Answers } from '#lib/db/answers/answers'
import { getAnswers } from '#lib/db/answers/get-answers'
import { type ChoiceAnswer, type Chosen, findChoiceJob, type PinsCannot } from '#lib/db/planning/together/choice-jobs'
import { LinkButton } from '#ui/button'
import { Form } from '#ui/form'
import { Notice } from '#ui/notice'
import { type Crumb, PageHead } from '#ui/page-head'
import { PrintLine } from '#ui/print-line'
import { Section } from '#ui/section'
import { listed } from '#words/amounts'
import { buyingWords, choiceWords, leftOutWords, neverWords } from '#words/choice'
import { namesIn } from '#words/names'
import { planChosenAction } from './actions'
import { BoughtSection } from './bought-section'
import s from './choice.module.css'
import { ChosenSection } from './chosen-section'
import { JobProgress } from './job-progress'
import { LadderSection } from './ladder-section'
import { PiecesSection } from './pieces-section'
import { addressOf, type ChoiceScreen } from './screens'
import { UnlocksSection } from './unlocks-section'
import { WhyList } from './why-list'

type ChoiceJobProps = { jobId: string; screen: ChoiceScreen; title: string; crumbs: readonly Crumb[] }

/** The page of a choice: how far it is, or what it found. */
export async function ChoiceJobPage({ jobId, screen, title, crumbs }: ChoiceJobProps) {
  const [job, answers] = [await findChoiceJob(jobId), await getAnswers()]
  const again = (
    <LinkButton kind="first" href={addressOf[screen]}>
      {say('Ask again')}
    </LinkButton>
  )
  return (
    <>
      <PageHead title={title} crumbs={[...crumbs, { label: job?.state === 'running' ? say('Under way') : say('The answer') }]}>
        {job?.state === 'done' && job.answer.kind === 'chosen' && <Verdict answer={job.answer} answers={answers} />}
      </PageHead>
      {job === null && (
        <Notice kind="caution" title={say('Nothing is known of this any more')} actions={again}>
          {say('It was asked before the program last started. Nothing was set aside by it, so nothing is lost.')}
        </Notice>
      )}
      {job?.state === 'failed' && (
        <Notice kind="refusal" title={say('This did not work')} actions={again}>
          {sayParts('Nothing was changed. The error’s number in the log is {errorId}.', { errorId: <b>{job.errorId}</b> })}
        </Notice>
      )}
      {job?.state === 'running' && (
        <>
          <JobProgress
            jobId={jobId}
            screen={screen}
            first={{ seconds: job.seconds, progress: job.progress }}
            timeLimitSeconds={job.timeLimitSeconds}
          />
          <p className="quiet">{say('This page may be left; the search goes on.')}</p>
          <noscript>
            <meta httpEquiv="refresh" content="2" />
          </noscript>
        </>
      )}
      {job?.state === 'done' && <Answered answer={job.answer} answers={answers} jobId={jobId} screen={screen} />}
    </>
  )
}

function Verdict({ answer: { choice, asked }, answers }: { answer: Chosen; answers: Answers }) {
  const { currency } = answers.world.settings
  const { answer, proof } = choiceWords(choice, currency)
  return (
    <p className={s.answer}>
      {sayParts('{answer} {proof} Asked for {buying}{isClothAside, select, yes {, with cloth aside} other {}}.', {
        answer: <b>{answer}</b>,
        proof,
        buying: buyingWords(asked.buying, currency),
        isClothAside: asked.isClothAside,
      })}
    </p>
  )
}

type AnsweredProps<Answer> = { answer: Answer; answers: Answers; jobId: string; screen: ChoiceScreen }

function Answered({ answer, ...props }: AnsweredProps<ChoiceAnswer>) {
  const { names, length } = namesIn(props.answers)
  const unit = props.answers.world.settings.lengthUnit
  const { never, candidates, pieces } = answer.question
  return (
    <>
      <PrintLine>
        {say('Chosen from {candidates, plural, one {# design} other {# designs}}{isClothAside}', {
          candidates: candidates.length,
          isClothAside: answer.asked.isClothAside
            ? ''
            : say(' and {pieces, plural, one {# piece} other {# pieces}}', { pieces: pieces.length }),
        })}
      </PrintLine>
      {answer.kind === 'chosen' ? <Chose answer={answer} {...props} /> : <CannotBe answer={answer} {...props} />}
      {never.length > 0 && (
        <Section title={say('Not to be had from this at all')} id="never">
          <WhyList designs={never.map((one) => ({ ...one, why: [neverWords(one, names, length, unit)] }))} />
        </Section>
      )}
    </>
  )
}

function Chose({ answer, answers, jobId, screen }: AnsweredProps<Chosen>) {
  const { asked, choice, leftOut, unlocks, ladder } = answer
  const { names, length } = namesIn(answers)
  return (
    <>
      {asked.isClothAside ? (
        <ChosenSection answer={answer} answers={answers} screen={screen} />
      ) : (
        <PiecesSection answer={answer} answers={answers} screen={screen} />
      )}
      <PlanThese answer={answer} jobId={jobId} />
      <BoughtSection placed={choice.placed} bought={choice.bought} answers={answers} />
      <LadderSection ladder={ladder} asked={asked.buying} answers={answers} />
      <UnlocksSection unlocks={unlocks} answers={answers} />
      {leftOut.length > 0 && (
        <Section title={say('Left out, and why')} id="left-out" note={say('As the others were chosen.')}>
          <WhyList
            ask={{ jobId, screen }}
            designs={leftOut.map((one) => ({
              ...{ designId: one.designId, title: names.design(one.designId), why: leftOutWords(one, names, length) },
            }))}
          />
        </Section>
      )}
    </>
  )
}

/** One press for all the wishes among the chosen; what is no wish is started by itself. */
function PlanThese({ answer: { choice, question }, jobId }: { answer: Chosen; jobId: string }) {
  const wished = new Set(question.candidates.filter(({ wishes }) => wishes.length > 0).map(({ designId }) => designId))
  const count = choice.placed.filter(({ designId }) => wished.has(designId)).length
  if (count === 0) return null
  return (
    <div className={s.actions}>
      <Form
        action={planChosenAction}
        hidden={{ jobId }}
        submit={count === 1 ? say('Plan it: promise its thread') : say('Plan all {count}: promise their thread', { count })}
        isInline
        label={say('Plan the wishes that were chosen')}
      />
    </div>
  )
}

/** Those that must be in cannot all be: which do go together, and what stops the others. */
function CannotBe({ answer, answers, screen }: AnsweredProps<PinsCannot>) {
  const { names, length } = namesIn(answers)
  const { together, leftOut, isProved, asked } = answer
  const unit = answers.world.settings.lengthUnit
  const never = answer.question.never.filter(({ designId }) => asked.pins.get(designId) === 'in')
  return (
    <>
      <Notice
        kind="refusal"
        title={
          isProved ? say('Those that must be in cannot all be') : say('No way was found in the time to have all in that must be')
        }
        actions={<LinkButton href={addressOf[screen]}>{say('Ask again')}</LinkButton>}
      >
        {sayParts('{rest}Let one of those below go, allow more to be bought, or take other cloth.', {
          rest:
            together.length > 0 &&
            say('{together} {together2, plural, one {can be} other {go together}}. ', {
              together: listed(together.map(({ designId }) => names.design(designId))),
              together2: together.length,
            }),
        })}
      </Notice>
      <Section title={say('What stops the others')} id="left-out">
        <WhyList
          designs={[
            ...leftOut.map((one) => ({
              ...{ designId: one.designId, title: names.design(one.designId), why: leftOutWords(one, names, length) },
            })),
            ...never.map((one) => ({ ...one, why: [neverWords(one, names, length, unit)] })),
          ]}
        />
      </Section>
    </>
  )
}
