import type { Metadata } from 'next'
import { nodesOf } from '#lib/cloth/cut-plan'
import type { Answers } from '#lib/db/answers/answers'
import { getAnswers } from '#lib/db/answers/get-answers'
import { type ChoiceAnswer, findChoiceJob } from '#lib/db/planning/choice-jobs'
import type { PieceCut } from '#lib/db/planning/choose-designs'
import { formatClothSize } from '#lib/quantity/cloth-length'
import { PlaceLabel } from '#trade/place-label'
import { LinkButton } from '#ui/button'
import { Ledger } from '#ui/ledger'
import { Link } from '#ui/link'
import { Notice } from '#ui/notice'
import { PageHead } from '#ui/page-head'
import { PrintLine } from '#ui/print-line'
import { Section } from '#ui/section'
import { counted } from '#words/amounts'
import { choiceWords, leftOutWords, neverWords } from '#words/choice'
import { pieceDescription, pieceName } from '#words/cloth'
import { cutPlanHref } from '#words/cut-plan-href'
import { namesIn } from '#words/names'
import s from '../../choose.module.css'
import { WhyList } from '../../why-list'
import { JobProgress } from './job-progress'

export const metadata: Metadata = { title: 'What this cloth can become' }

type PageProps = { params: Promise<{ jobId: string }> }

export default async function ChoiceJobPage({ params }: PageProps) {
  const { jobId } = await params
  const [job, answers] = [findChoiceJob(jobId), await getAnswers()]
  const again = (
    <LinkButton kind="first" href="/cloth/choose">
      Ask again
    </LinkButton>
  )
  return (
    <>
      <PageHead
        title="What this cloth can become"
        crumbs={[
          { label: 'Cloth', href: '/cloth' },
          { label: 'What this cloth can become', href: '/cloth/choose' },
          { label: job?.state === 'running' ? 'Under way' : 'The answer' },
        ]}
      >
        {job?.state === 'done' && <Verdict answer={job.answer} />}
      </PageHead>
      {job === null && (
        <Notice kind="caution" title="Nothing is known of this any more" actions={again}>
          It was asked before the program last started. Nothing was set aside by it, so nothing is lost.
        </Notice>
      )}
      {job?.state === 'failed' && (
        <Notice kind="refusal" title="This did not work" actions={again}>
          Nothing was changed. The error’s number in the log is <b>{job.errorId}</b>.
        </Notice>
      )}
      {job?.state === 'running' && (
        <>
          <JobProgress
            jobId={jobId}
            first={{ seconds: job.seconds, progress: job.progress }}
            timeLimitSeconds={job.timeLimitSeconds}
          />
          <p className="quiet">This page may be left; the search goes on.</p>
          <noscript>
            <meta httpEquiv="refresh" content="2" />
          </noscript>
        </>
      )}
      {job?.state === 'done' && <Answered answer={job.answer} answers={answers} />}
    </>
  )
}

function Verdict({ answer: { choice } }: { answer: ChoiceAnswer }) {
  const { answer, proof } = choiceWords(choice)
  return (
    <p className={s.answer}>
      <b>{answer}</b> {proof}
    </p>
  )
}

function Answered({ answer, answers }: { answer: ChoiceAnswer; answers: Answers }) {
  const { choice, question, leftOut } = answer
  const { settings, places } = answers.world
  const unit = settings.lengthUnit
  const { names, length } = namesIn(answers)
  const counts = new Map(question.candidates.map(({ designId, value }) => [designId, value]))
  const pieceOf = new Map(question.pieces.map((piece) => [piece.id, piece]))
  const sizeIn = ({ layout }: PieceCut, designId: string): string => {
    for (const node of nodesOf(layout.root))
      if (node.kind === 'wanted' && node.wishId === designId)
        return `${formatClothSize(node, unit)}${node.isTurned ? ', turned' : ''}`
    return ''
  }
  return (
    <>
      <PrintLine>
        Chosen from {counted(question.candidates.length, 'design')} and {counted(question.pieces.length, 'piece')}
      </PrintLine>
      {choice.cuts.length > 0 && (
        <Section
          title="What each piece becomes"
          id="pieces"
          note="Cut sizes, weft first. Nothing is cut or set aside yet."
          actions={<Link href="/cloth/choose">Ask again</Link>}
        >
          <Ledger
            caption="The designs chosen, by the piece they are cut from"
            groups={choice.cuts.map((cut) => {
              const piece = pieceOf.get(cut.pieceId)
              const place = places.get(piece?.currentPlaceId ?? piece?.homePlaceId ?? '')
              return {
                key: cut.pieceId,
                title: (
                  <>
                    <Link href={`/cloth/${cut.pieceId}`}>{piece ? pieceName(piece) : 'A piece'}</Link>{' '}
                    {place && <PlaceLabel label={place.label} href={`/places/${place.id}`} />}
                  </>
                ),
                note: (
                  <>
                    {piece &&
                      `${pieceDescription(piece)}, ${formatClothSize(piece, unit)}${piece.isSquared ? '' : ', square it first'} · `}
                    <Link
                      href={cutPlanHref(
                        cut.designIds.map((id) => ({ id, copies: 1 })),
                        [cut.pieceId],
                      )}
                    >
                      Plan the cut<span className="vh"> of {piece ? pieceName(piece) : 'this piece'}</span>
                    </Link>
                  </>
                ),
                rows: cut.designIds.map((designId) => ({ designId, size: sizeIn(cut, designId) })),
              }
            })}
            rowKey={({ designId }) => designId}
            columns={[
              {
                key: 'design',
                head: 'Design',
                phone: 'lead',
                cell: ({ designId }) => (
                  <Link href={`/designs/${designId}`} className="title">
                    {names.design(designId)}
                  </Link>
                ),
              },
              { key: 'cut', head: 'Cut', isNumeric: true, phone: 'line', cell: ({ size }) => size },
              {
                key: 'value',
                head: 'Counts',
                isNumeric: true,
                phone: 'side',
                cell: ({ designId }) => counts.get(designId) ?? '',
              },
              {
                key: 'start',
                head: 'Start it',
                headIsHidden: true,
                isAtEnd: true,
                isOffPaper: true,
                phone: 'side',
                cell: ({ designId }) => (
                  <Link href={`/projects/new?design=${designId}`}>
                    Start<span className="vh"> {names.design(designId)}</span>
                  </Link>
                ),
              },
            ]}
          />
          {choice.cuts.length > 1 && (
            <div className={s.actions}>
              <LinkButton
                kind="first"
                href={cutPlanHref(
                  choice.placed.map(({ designId }) => ({ id: designId, copies: 1 })),
                  choice.cuts.map(({ pieceId }) => pieceId),
                )}
              >
                Plan all these cuts
              </LinkButton>
            </div>
          )}
        </Section>
      )}
      {leftOut.length > 0 && (
        <Section title="Left out, and why" id="left-out" note="As the others were chosen.">
          <WhyList
            designs={leftOut.map((one) => ({
              ...{ designId: one.designId, title: names.design(one.designId), why: leftOutWords(one, names, length) },
            }))}
          />
        </Section>
      )}
      {question.never.length > 0 && (
        <Section title="Not to be had from this at all" id="never">
          <WhyList designs={question.never.map((one) => ({ ...one, why: [neverWords(one, names, length, unit)] }))} />
        </Section>
      )}
    </>
  )
}
