import type { Metadata } from 'next'
import { numberText } from '#language/figures'
import { formatClothLength, formatClothSize } from '#language/lengths'
import { stitchSize } from '#lib/chart/design-size'
import type { CutWay } from '#lib/cloth/cut-plan'
import { listFinishings } from '#lib/cloth/margins'
import { planYardage, type YardagePlan, type YardageRequest } from '#lib/cloth/yardage'
import { overOn } from '#lib/coverage/cloth-answer'
import { sparesFor } from '#lib/coverage/kit-count'
import { clothRequest } from '#lib/coverage/worked-cloth'
import { type Answers, clothSettings } from '#lib/db/answers/answers'
import { getAnswers } from '#lib/db/answers/get-answers'
import { boltWays, clothForKits } from '#lib/db/planning/kits-cloth'
import type { LengthUnit } from '#lib/quantity/cloth-length'
import { formatCount } from '#lib/quantity/count'
import { Empty } from '#ui/empty'
import { FormStrip, StripCheck, StripSelect, StripStep, StripText } from '#ui/form-strip'
import { Link } from '#ui/link'
import { Notice } from '#ui/notice'
import { PageHead } from '#ui/page-head'
import { PrintLine } from '#ui/print-line'
import { Section } from '#ui/section'
import { Unfold } from '#ui/unfold'
import { getViewer } from '#viewer/viewer'
import { pieceName } from '#words/cloth'
import { cutPlanHref } from '#words/cut-plan-href'
import { boltLength, boltLengthBothWays, kitsClothWords, sizeBothWays } from '#words/yardage'
import { BoltDrawing } from './bolt-drawing'
import { OnePiece } from './one-piece'
import { Ready, Widths } from './other-cloth'
import { mostKitsOffBolt, readQuestion, yardageHref, yardageSchema } from './question'
import { TogetherOnOneLength } from './together'
import s from './yardage.module.css'
import { YardageSums } from './yardage-sums'

export const metadata: Metadata = { title: 'Yardage' }

const mostFound = 8

type PageProps = { searchParams: Promise<Record<string, unknown>> }

export default async function YardagePage({ searchParams }: PageProps) {
  const query = yardageSchema.parse(await searchParams)
  const [{ settings, ownerIds }, answers] = await Promise.all([getViewer(), getAnswers()])
  const { bolt, finishing, count, wrong, size, also } = readQuestion(query, settings)
  const unit = settings.lengthUnit
  const found = size === null && query.what !== '' ? findCalled(answers, query.what) : []
  const designId = found.length === 1 ? (found[0] as string) : query.what === '' ? query.design : ''
  const design = answers.world.designs.get(designId)?.design ?? null
  const kits = query.kits ?? 1
  const spares = query.spares ?? (query.kits === null ? 0 : sparesFor(kits))
  const wanted = kits + spares
  const gapUm = settings.cutGapUm

  const over = count?.over ?? design?.advised?.over ?? overOn(design?.advised?.weave ?? 'single', design?.advised ?? null)
  const workedCount = count?.count ?? design?.advised?.count ?? null
  const cloth = { ...clothSettings(settings), margins: finishing.margins }
  const request = design && clothRequest(design, over, cloth)
  const mayTurn = query.turn === 'yes'
  const ways: CutWay[] | null = size
    ? [
        { ...size, isTurned: false },
        ...(mayTurn && size.widthUm !== size.heightUm
          ? [{ widthUm: size.heightUm, heightUm: size.widthUm, isTurned: true }]
          : []),
      ]
    : request && workedCount
      ? boltWays(request, workedCount, mayTurn)
      : null
  const asked = ways && { copies: wanted, ways, bolt, gapUm }
  const plan = asked && planYardage(asked)
  const subject = design?.title ?? (size ? formatClothSize(size, unit) : null)
  const kept = design && query.what !== '' ? { ...query, what: '', design: design.id } : query
  const onHand = design && clothForKits(answers, design, { ownerIds, wanted, margins: finishing.margins, bolt })
  const hidden = Object.fromEntries(
    (['design', 'piece'] as const).flatMap((name) => (kept[name] === '' ? [] : [[name, kept[name]]])),
  )
  // Asked from a piece, that is the question; else the bolt comes first.
  const onePiece = (
    <OnePiece
      answers={answers}
      ownerIds={ownerIds}
      query={kept}
      size={size}
      design={design}
      count={count}
      cloth={cloth}
      finishing={finishing.name}
      mayTurn={mayTurn}
      wanted={query.kits ?? 3}
    />
  )
  const asksOfPiece = answers.world.pieces.find(({ id, ownerId }) => id === query.piece && ownerIds.includes(ownerId))

  return (
    <>
      <PageHead
        title="Yardage"
        crumbs={[{ label: 'Cloth', href: '/cloth' }, { label: 'Yardage' }]}
        byline="How much to buy off the bolt for a number of kits, and what comes out of a piece on hand."
      >
        {plan?.best && ways && !asksOfPiece && (
          <p className={s.answer}>
            <b>
              Buy {formatClothLength(plan.best.toBuyUm, unit)}, {boltLength(plan.best.toBuyUm, unit)}
            </b>{' '}
            for {numberText(wanted)}{' '}
            {design ? (
              <>
                of{' '}
                <Link href={`/designs/${design.id}`} className="title">
                  {design.title}
                </Link>
                , each {formatClothSize(ways[0] as CutWay, unit)}
              </>
            ) : (
              `of ${formatClothSize(ways[0] as CutWay, unit)}`
            )}
            {plan.best.gives > wanted &&
              `; it gives ${numberText(plan.best.gives)}, ${numberText(plan.best.gives - wanted)} over`}
            .
          </p>
        )}
      </PageHead>
      {subject && (
        <PrintLine>
          {subject}, {kits} and {spares} spare
        </PrintLine>
      )}
      {wrong.map((sentence) => (
        <Notice key={sentence} kind="caution" title={sentence} />
      ))}
      <FormStrip
        action="/cloth/yardage"
        label="What is to be cut"
        summary={
          subject
            ? `${subject}: ${kits} and ${spares} spare, off a bolt of ${formatClothLength(bolt.widthUm, unit)}`
            : 'Say what is to be cut'
        }
        startsOpen={!subject}
        hidden={hidden}
        second={
          <>
            <StripStep name="kits" label="Kits" unit="to make" value={query.kits} min={1} max={mostKitsOffBolt} none="1" />
            <StripStep
              name="spares"
              label="Spares"
              unit={query.spares === null ? 'proposed: one to each dozen' : 'beside them'}
              value={query.spares}
              min={0}
              max={mostKitsOffBolt}
              none={String(spares)}
            />
            <StripCheck name="turn" value="no" label="Upright only" isChecked={!mayTurn} />
          </>
        }
        clear={subject ? { href: '/cloth/yardage', label: 'Something else' } : undefined}
      >
        <StripText
          name="what"
          label={design ? 'Another design, or a size' : 'A design, or a size to cut'}
          value={design ? '' : query.what}
          placeholder={unit === 'in' ? 'Seven Lanterns, or 10 x 10' : 'Seven Lanterns, or 25 x 25'}
        />
        {design && (
          <>
            <StripSelect
              name="finishing"
              label="Finished as"
              value={finishing.name}
              options={listFinishings(settings).map(({ name }) => ({ value: name, label: name }))}
            />
            <StripText
              name="count"
              label="Count of the cloth"
              value={query.count}
              placeholder={
                workedCount ? `${formatCount(workedCount, workedCount)} over ${over === 2 ? 'two' : 'one'}` : '28 over two'
              }
            />
          </>
        )}
        <StripText
          name="also"
          label="With it, on one length"
          value={query.also}
          placeholder={unit === 'in' ? '6 of 8 x 8; 2 of 4 x 12' : '6 of 20 x 20; 2 of 10 x 30'}
        />
        {(
          [
            ['width', 'Bolt', bolt.widthUm],
            ['selvedge', 'Selvedge, each', bolt.selvedgeUm],
            ['straightening', 'Straightening', bolt.straighteningUm],
            ['step', 'Sold in steps of', bolt.stepUm],
          ] as const
        ).map(([name, label, um]) => (
          <StripText key={name} name={name} label={label} value={query[name]} placeholder={formatClothLength(um, unit)} />
        ))}
      </FormStrip>
      {found.length > 1 && <Found answers={answers} ids={found} hrefOf={(id) => yardageHref(query, { what: '', design: id })} />}
      {query.what !== '' && size === null && found.length === 0 && (
        <Notice kind="caution" title={`No design is called ${query.what}`}>
          Give a part of its title, or the size to cut, such as {unit === 'in' ? '10 x 10 in' : '25 x 25 cm'}.
        </Notice>
      )}
      {design && stitchSize(design) === null && (
        <Notice kind="caution" title="The size of this design is not known">
          Give its stitches on <Link href={`/designs/${design.id}/edit`}>its card</Link>, or type the size to cut above.
        </Notice>
      )}
      {request && !workedCount && (
        <Notice kind="caution" title="Its chart names no count">
          Say above at what count it is worked, such as 28 over two.
        </Notice>
      )}
      {!plan && !subject && found.length === 0 && (
        <Empty title={asksOfPiece ? `What is to come out of ${pieceName(asksOfPiece)}?` : 'Nothing is asked yet'}>
          {asksOfPiece
            ? 'Type a design’s title, or the size to cut, and how many: how many come out of the piece is worked out, and what to buy for them otherwise.'
            : 'Type a design’s title, or the size to cut, and how many: the length to buy is worked out for your bolt, with its arithmetic, for other widths beside it, and for fat quarters.'}
        </Empty>
      )}
      {plan && asked && ways && (
        <>
          {query.piece !== '' && onePiece}
          <Answer plan={plan} asked={asked} unit={unit} />
          {also.length > 0 && <TogetherOnOneLength asked={asked} also={also} mayTurn={mayTurn} unit={unit} />}
          {onHand && (
            <Section
              title="From what is on hand"
              id="on-hand"
              actions={
                onHand.kind === 'cloth' &&
                onHand.plan.onHand > 0 && (
                  <Link
                    href={cutPlanHref(
                      [{ id: designId, copies: onHand.plan.onHand, finishing: finishing.name }],
                      onHand.plan.from.map(({ pieceId }) => pieceId),
                    )}
                  >
                    Plan the cuts
                  </Link>
                )
              }
            >
              <div className={s.notes}>
                {kitsClothWords(onHand, unit).map((sentence) => (
                  <p key={sentence}>{sentence}</p>
                ))}
              </div>
            </Section>
          )}
          {query.piece === '' && onePiece}
          <Widths asked={asked} unit={unit} chosenUm={bolt.widthUm} />
          <Ready asked={asked} unit={unit} />
        </>
      )}
    </>
  )
}

/** Designs called so, else those found by the words. */
function findCalled(answers: Answers, words: string): string[] {
  const { hits } = answers.search.search(words, { limit: mostFound, noun: 'design' })
  const ids = hits.map(({ id }) => id.slice('design:'.length)).filter((id) => answers.world.designs.has(id))
  const exact = ids.filter((id) => answers.world.designs.get(id)?.design.title.toLowerCase() === words.toLowerCase())
  return exact.length > 0 ? exact : ids
}

function Found({ answers, ids, hrefOf }: { answers: Answers; ids: readonly string[]; hrefOf: (id: string) => string }) {
  return (
    <ul className={s.found} aria-label="Designs found">
      {ids.map((id) => {
        const facts = answers.world.designs.get(id)
        return (
          <li key={id}>
            <Link href={hrefOf(id)} className="title">
              {facts?.design.title}
            </Link>
            {facts && facts.chartTitle !== facts.design.title && `, in ${facts.chartTitle}`}
          </li>
        )
      })}
    </ul>
  )
}

function Answer({ plan, asked, unit }: { plan: YardagePlan; asked: YardageRequest; unit: LengthUnit }) {
  const { bolt, ways, copies, gapUm } = asked
  const cut = ways[0] as CutWay
  if (!plan.best) {
    return (
      <Section title="Off the bolt" id="bolt">
        <p>
          One cut is {sizeBothWays(cut, unit)}, wider than the {formatClothLength(plan.usableWidthUm, unit)} the bolt has between
          its selvedges. Look at wider ones below.
        </p>
      </Section>
    )
  }
  const { best } = plan
  const how = {
    upright: 'every cut upright, in rows',
    turned: 'every cut turned, in rows',
    mixed: 'rows of upright cuts and rows of turned ones',
    apart: 'not all in rows: cut across and up as drawn',
  }[best.kind]
  return (
    <Section title="Off the bolt" id="bolt" note="Drawn to scale; grey is selvedge and straightening.">
      <div className={s.two}>
        <BoltDrawing
          sentence={`A length of ${formatClothLength(best.toBuyUm, unit)} off a bolt of ${formatClothLength(bolt.widthUm, unit)}, with ${copies} cuts of ${formatClothSize(cut, unit)}, ${how}.`}
          bolt={bolt}
          lengthUm={best.toBuyUm}
          boxes={best.boxes}
          unit={unit}
        />
        <div className={s.notes}>
          <p>
            {boltLengthBothWays(best.toBuyUm, unit)}: {how}. Each cut is {sizeBothWays(cut, unit)}.
          </p>
          <p className="quiet">
            {plan.isProved
              ? 'One step less is too short, however it is cut from edge to edge.'
              : 'The least in rows. There are too many to try every other way of cutting.'}
          </p>
          <Unfold label="How the length comes about">
            <YardageSums plan={plan} bolt={bolt} copies={copies} gapUm={gapUm} unit={unit} />
          </Unfold>
        </div>
      </div>
    </Section>
  )
}
