import type { Metadata } from 'next'
import { formatClothLength, formatClothSize } from '#language/lengths'
import { say } from '#language/say'
import { sayParts } from '#language/say-parts'
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
import { countWords } from '#words/cloth-count'
import { cutPlanHref } from '#words/cut-plan-href'
import { givenName } from '#words/given'
import { boltLength, boltLengthBothWays, kitsClothWords, sizeBothWays } from '#words/yardage'
import { BoltDrawing } from './bolt-drawing'
import { OnePiece } from './one-piece'
import { Ready, Widths } from './other-cloth'
import { mostKitsOffBolt, readQuestion, yardageHref, yardageSchema } from './question'
import { TogetherOnOneLength } from './together'
import s from './yardage.module.css'
import { YardageSums } from './yardage-sums'

export const generateMetadata = (): Metadata => ({ title: say('Yardage') })

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
        title={say('Yardage')}
        crumbs={[{ label: say('Cloth'), href: '/cloth' }, { label: say('Yardage') }]}
        byline={say('How much to buy off the bolt for a number of kits, and what comes out of a piece on hand.')}
      >
        {plan?.best && ways && !asksOfPiece && (
          <p className={s.answer}>
            {sayParts('<b>Buy {toBuy}, {boltLength}</b> for {wanted, number} {rest}{rest2}.', {
              b: (words) => <b>{words}</b>,
              toBuy: formatClothLength(plan.best.toBuyUm, unit),
              boltLength: boltLength(plan.best.toBuyUm, unit),
              wanted,
              rest: design
                ? sayParts('of {title}, each {ways}', {
                    title: (
                      <Link href={`/designs/${design.id}`} className="title">
                        {design.title}
                      </Link>
                    ),
                    ways: formatClothSize(ways[0] as CutWay, unit),
                  })
                : say('of {ways}', { ways: formatClothSize(ways[0] as CutWay, unit) }),
              rest2:
                plan.best.gives > wanted &&
                say('; it gives {gives, number}, {gives2, number} over', {
                  gives: plan.best.gives,
                  gives2: plan.best.gives - wanted,
                }),
            })}
          </p>
        )}
      </PageHead>
      {subject && <PrintLine>{sayParts('{subject}, {kits} and {spares} spare', { subject, kits, spares })}</PrintLine>}
      {wrong.map((sentence) => (
        <Notice key={sentence} kind="caution" title={sentence} />
      ))}
      <FormStrip
        action="/cloth/yardage"
        label={say('What is to be cut')}
        summary={
          subject
            ? say('{subject}: {kits} and {spares} spare, off a bolt of {width}', {
                subject,
                kits,
                spares,
                width: formatClothLength(bolt.widthUm, unit),
              })
            : say('Say what is to be cut')
        }
        startsOpen={!subject}
        hidden={hidden}
        second={
          <>
            <StripStep
              name="kits"
              label={say('Kits')}
              unit={say('to make')}
              value={query.kits}
              min={1}
              max={mostKitsOffBolt}
              none="1"
            />
            <StripStep
              name="spares"
              label={say('Spares')}
              unit={query.spares === null ? say('proposed: one to each dozen') : say('beside them')}
              value={query.spares}
              min={0}
              max={mostKitsOffBolt}
              none={String(spares)}
            />
            <StripCheck name="turn" value="no" label={say('Upright only')} isChecked={!mayTurn} />
          </>
        }
        clear={subject ? { href: '/cloth/yardage', label: say('Something else') } : undefined}
      >
        <StripText
          name="what"
          label={design ? say('Another design, or a size') : say('A design, or a size to cut')}
          value={design ? '' : query.what}
          placeholder={unit === 'in' ? say('Seven Lanterns, or 10 x 10') : say('Seven Lanterns, or 25 x 25')}
        />
        {design && (
          <>
            <StripSelect
              name="finishing"
              label={say('Finished as')}
              value={finishing.name}
              options={listFinishings(settings).map(({ name }) => ({ value: name, label: givenName(name) }))}
            />
            <StripText
              name="count"
              label={say('Count of the cloth')}
              value={query.count}
              placeholder={
                workedCount
                  ? say('{workedCount} over {overCase, select, yes {two} other {one}}', {
                      workedCount: countWords(workedCount, workedCount),
                      overCase: over === 2,
                    })
                  : say('28 over two')
              }
            />
          </>
        )}
        <StripText
          name="also"
          label={say('With it, on one length')}
          value={query.also}
          placeholder={unit === 'in' ? say('6 of 8 x 8; 2 of 4 x 12') : say('6 of 20 x 20; 2 of 10 x 30')}
        />
        {(
          [
            ['width', say('Bolt'), bolt.widthUm],
            ['selvedge', say('Selvedge, each'), bolt.selvedgeUm],
            ['straightening', say('Straightening'), bolt.straighteningUm],
            ['step', say('Sold in steps of'), bolt.stepUm],
          ] as const
        ).map(([name, label, um]) => (
          <StripText key={name} name={name} label={label} value={query[name]} placeholder={formatClothLength(um, unit)} />
        ))}
      </FormStrip>
      {found.length > 1 && <Found answers={answers} ids={found} hrefOf={(id) => yardageHref(query, { what: '', design: id })} />}
      {query.what !== '' && size === null && found.length === 0 && (
        <Notice kind="caution" title={say('No design is called {what}', { what: query.what })}>
          {say('Give a part of its title, or the size to cut, such as {isIn, select, yes {10 x 10 in} other {25 x 25 cm}}.', {
            isIn: unit === 'in',
          })}
        </Notice>
      )}
      {design && stitchSize(design) === null && (
        <Notice kind="caution" title={say('The size of this design is not known')}>
          {sayParts('Give its stitches on <link>its card</link>, or type the size to cut above.', {
            link: (words) => <Link href={`/designs/${design.id}/edit`}>{words}</Link>,
          })}
        </Notice>
      )}
      {request && !workedCount && (
        <Notice kind="caution" title={say('Its chart names no count')}>
          {say('Say above at what count it is worked, such as 28 over two.')}
        </Notice>
      )}
      {!plan && !subject && found.length === 0 && (
        <Empty
          title={
            asksOfPiece
              ? say('What is to come out of {pieceName}?', { pieceName: pieceName(asksOfPiece) })
              : say('Nothing is asked yet')
          }
        >
          {asksOfPiece
            ? say(
                'Type a design’s title, or the size to cut, and how many: how many come out of the piece is worked out, and what to buy for them otherwise.',
              )
            : say(
                'Type a design’s title, or the size to cut, and how many: the length to buy is worked out for your bolt, with its arithmetic, for other widths beside it, and for fat quarters.',
              )}
        </Empty>
      )}
      {plan && asked && ways && (
        <>
          {query.piece !== '' && onePiece}
          <Answer plan={plan} asked={asked} unit={unit} />
          {also.length > 0 && <TogetherOnOneLength asked={asked} also={also} mayTurn={mayTurn} unit={unit} />}
          {onHand && (
            <Section
              title={say('From what is on hand')}
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
                    {say('Plan the cuts')}
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
    <ul className={s.found} aria-label={say('Designs found')}>
      {ids.map((id) => {
        const facts = answers.world.designs.get(id)
        return (
          <li key={id}>
            <Link href={hrefOf(id)} className="title">
              {facts?.design.title}
            </Link>
            {facts && facts.chartTitle !== facts.design.title && say(', in {chartTitle}', { chartTitle: facts.chartTitle })}
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
      <Section title={say('Off the bolt')} id="bolt">
        <p>
          {sayParts(
            'One cut is {sizeBothWays}, wider than the {usableWidth} the bolt has between its selvedges. Look at wider ones below.',
            { sizeBothWays: sizeBothWays(cut, unit), usableWidth: formatClothLength(plan.usableWidthUm, unit) },
          )}
        </p>
      </Section>
    )
  }
  const { best } = plan
  const how = {
    upright: say('every cut upright, in rows'),
    turned: say('every cut turned, in rows'),
    mixed: say('rows of upright cuts and rows of turned ones'),
    apart: say('not all in rows: cut across and up as drawn'),
  }[best.kind]
  return (
    <Section title={say('Off the bolt')} id="bolt" note={say('Drawn to scale; grey is selvedge and straightening.')}>
      <div className={s.two}>
        <BoltDrawing
          sentence={say('A length of {toBuy} off a bolt of {width}, with {copies} cuts of {cut}, {how}.', {
            toBuy: formatClothLength(best.toBuyUm, unit),
            width: formatClothLength(bolt.widthUm, unit),
            copies,
            cut: formatClothSize(cut, unit),
            how,
          })}
          bolt={bolt}
          lengthUm={best.toBuyUm}
          boxes={best.boxes}
          unit={unit}
        />
        <div className={s.notes}>
          <p>
            {sayParts('{boltLengthBothWays}: {how}. Each cut is {sizeBothWays}.', {
              boltLengthBothWays: boltLengthBothWays(best.toBuyUm, unit),
              how,
              sizeBothWays: sizeBothWays(cut, unit),
            })}
          </p>
          <p className="quiet">
            {plan.isProved
              ? say('One step less is too short, however it is cut from edge to edge.')
              : say('The least in rows. There are too many to try every other way of cutting.')}
          </p>
          <Unfold label={say('How the length comes about')}>
            <YardageSums plan={plan} bolt={bolt} copies={copies} gapUm={gapUm} unit={unit} />
          </Unfold>
        </div>
      </div>
    </Section>
  )
}
