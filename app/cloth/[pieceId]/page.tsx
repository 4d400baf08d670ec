import type { Metadata } from 'next'
import { notFound } from 'next/navigation'
import { formatClothLength, formatClothSize } from '#language/lengths'
import { say } from '#language/say'
import { sayParts } from '#language/say-parts'
import { squaringLossUm } from '#lib/cloth/fit'
import { findClothPiece } from '#lib/db/cloth/queries'
import { listPlaceOptions } from '#lib/db/place/queries'
import { ClothDrawing } from '#trade/cloth-drawing'
import { PlaceLabel } from '#trade/place-label'
import { ButtonRow, LinkButton } from '#ui/button'
import { type Fact, Facts } from '#ui/facts'
import { Ledger } from '#ui/ledger'
import { Link } from '#ui/link'
import { Notice } from '#ui/notice'
import { PageHead } from '#ui/page-head'
import { PrintLine } from '#ui/print-line'
import { Section } from '#ui/section'
import { Unfold } from '#ui/unfold'
import { getViewer } from '#viewer/viewer'
import { midSentence } from '#words/capital'
import { pieceTitle } from '#words/cloth'
import { notTurnedWords } from '#words/cloth-care'
import { calendarDay, dayOf } from '#words/date'
import { reasonSaid } from '#words/journal'
import { WorthSection } from '../../_worth/worth-section'
import { CutForm, kinWords, LeaveDialogs, MeasureForm, MoveForm, RestoreForm } from '../piece-forms'
import { PieceWords } from '../piece-words'
import {
  certaintyWords,
  describeCounts,
  describeMovement,
  describeSizeCertainty,
  describeSquareness,
  otherUnit,
  weaveWords,
} from '../words'
import { CareSection } from './care-section'
import s from './piece.module.css'

const capital = (words: string): string => words.charAt(0).toUpperCase() + words.slice(1)

type PageProps = { params: Promise<{ pieceId: string }> }

export async function generateMetadata({ params }: PageProps): Promise<Metadata> {
  const piece = await findClothPiece((await params).pieceId)
  return { title: piece ? pieceTitle(piece) : say('Cloth') }
}

export default async function PiecePage({ params }: PageProps) {
  const piece = await findClothPiece((await params).pieceId)
  if (!piece) notFound()
  const [{ settings, owners, ownerIds }, places] = await Promise.all([getViewer(), listPlaceOptions()])
  const unit = settings.lengthUnit
  const placeLabels = places.map(({ label }) => label)
  const today = calendarDay(new Date())
  const squared = {
    widthUm: Math.max(0, piece.widthUm - 2 * squaringLossUm),
    heightUm: Math.max(0, piece.heightUm - 2 * squaringLossUm),
  }

  const facts: Fact[] = [
    {
      label: say('Place'),
      value: piece.current ? (
        <PlaceLabel
          label={piece.current.label}
          href={`/places/${piece.current.id}`}
          livesIn={piece.home && piece.home.id !== piece.current.id ? piece.home.label : undefined}
          note={piece.outSince && say('out since {outSince}', { outSince: dayOf(piece.outSince) })}
        />
      ) : (
        say('no place yet')
      ),
    },
    {
      label: say('Size, weft × warp'),
      value: `${formatClothSize(piece, unit)} (${formatClothSize(piece, otherUnit(unit))}), ${describeSizeCertainty(piece)}`,
    },
    {
      label: say('{as, select, other {Count}}'),
      value: (
        <>
          {describeCounts(piece.ends, piece.picks)}, {certaintyWords[piece.countCertainty]}
          {piece.isCountStale &&
            sayParts(' before it was washed: <link>count it again</link>', {
              link: (words) => <Link href={`/cloth/count?piece=${piece.id}`}>{words}</Link>,
            })}
        </>
      ),
    },
    {
      label: say('Turning'),
      value: [
        describeSquareness(piece.ends, piece.picks),
        piece.isTurnable ? '' : `${capital(notTurnedWords(piece.oneWayBecause))}.`,
      ].join(' '),
    },
    ...(piece.parent
      ? [{ label: say('Cut from'), value: <Link href={`/cloth/${piece.parent.id}`}>{kinWords(piece.parent, unit)}</Link> }]
      : []),
    ...(piece.note ? [{ label: say('Note'), value: piece.note }] : []),
  ]

  return (
    <>
      <PageHead
        title={pieceTitle(piece)}
        crumbs={[{ label: say('Cloth'), href: '/cloth' }, { label: piece.label ?? piece.name }]}
        byline={[piece.makerName, midSentence(weaveWords[piece.weave])].filter(Boolean).join(', ')}
        actions={
          !piece.isGone && (
            <>
              <LinkButton kind="first" href={`/cloth/${piece.id}/designs`}>
                {say('What fits it')}
              </LinkButton>
              <LinkButton href={`/cloth/cut?piece=${piece.id}`}>{say('Plan a cut from it')}</LinkButton>
              <LinkButton href={`/labels?one=cloth.${piece.id}`}>{say('Label')}</LinkButton>
              <LinkButton href={`/cloth/${piece.id}/edit`}>{say('Change it')}</LinkButton>
            </>
          )
        }
      >
        {!piece.isGone && (
          <p className={s.words}>
            <PieceWords piece={piece} hasOwner={ownerIds.length > 1} isLinked />
          </p>
        )}
      </PageHead>
      <PrintLine>{sayParts('Cloth of {ownerName}', { ownerName: piece.ownerName })}</PrintLine>
      {piece.isGone && (
        <Notice
          kind="done"
          title={say('This piece is gone; its history stays.')}
          actions={piece.isRestorable && <RestoreForm piece={piece} />}
        />
      )}
      <div className={s.columns}>
        <figure className={s.drawing}>
          <ClothDrawing
            sentence={say('The piece to scale, {width} along the weft and {height} along the warp.', {
              width: formatClothLength(piece.widthUm, unit),
              height: formatClothLength(piece.heightUm, unit),
            })}
            piece={{
              widthUm: piece.widthUm,
              heightUm: piece.heightUm,
              widthLabel: say('{width}, weft', { width: formatClothLength(piece.widthUm, unit) }),
              heightLabel: say('{height}, warp', { height: formatClothLength(piece.heightUm, unit) }),
            }}
            leftovers={[{ xUm: 0, yUm: 0, widthUm: piece.widthUm, heightUm: piece.heightUm, label: piece.name }]}
            unit={unit}
            warp="up"
          />
        </figure>
        <div>
          <Facts items={facts} isStacked />
          {!piece.isSquared && !piece.isGone && (
            <p className={s.first}>
              {sayParts(
                '<b>Square it first.</b> Take the selvedge off and cut it straight to a thread. The usual loss of {squaringLoss} a side leaves {squared}. Fit is judged on the size as it stands until then.',
                {
                  b: (words) => <b>{words}</b>,
                  squaringLoss: formatClothLength(squaringLossUm, unit),
                  squared: formatClothSize(squared, unit),
                },
              )}
            </p>
          )}
        </div>
      </div>
      {!piece.isGone && <CareSection piece={piece} unit={unit} shrinkPercent={settings.shrinkPercent} today={today} />}
      {!piece.isGone && (
        <Section
          title={say('Work with it')}
          id="work"
          actions={
            <LinkButton kind="quiet" href={`/cloth/yardage?piece=${piece.id}`}>
              {say('How many come out of it')}
            </LinkButton>
          }
        >
          <div className={s.forms}>
            <Unfold label={piece.isSquared ? say('Measure it again') : say('Square and measure it')}>
              <MeasureForm piece={piece} unit={unit} />
            </Unfold>
            <Unfold label={say('Cut it')}>
              <CutForm piece={piece} unit={unit} placeLabels={placeLabels} />
            </Unfold>
            <Unfold label={say('Move it')}>
              <MoveForm piece={piece} placeLabels={placeLabels} />
            </Unfold>
          </div>
          <div className={s.caution}>
            <Notice kind="caution" title={say('Pins out before it is put away')}>
              {say(
                'Pins, needles and staples left in cloth rust and mark it. Keep shears and pins out of reach of children and animals.',
              )}
            </Notice>
          </div>
          <ButtonRow>
            <LeaveDialogs piece={piece} owners={owners} />
          </ButtonRow>
        </Section>
      )}
      {piece.offcuts.length > 0 && (
        <Section title={say('Cut from it')}>
          <ul>
            {piece.offcuts.map((kin) => (
              <li key={kin.id}>
                <Link className={s.kin} href={`/cloth/${kin.id}`}>
                  {kinWords(kin, unit)}
                </Link>
              </li>
            ))}
          </ul>
        </Section>
      )}
      {!piece.isGone && <WorthSection noun="cloth" id={piece.id} />}
      <Section title={say('History')}>
        <Ledger
          caption={say('What happened to this piece, newest first')}
          rows={piece.history}
          rowKey={({ id }) => id}
          isTight
          columns={[
            { key: 'when', head: say('When'), cell: ({ at }) => <span className="nb">{dayOf(at)}</span>, phone: 'side' },
            { key: 'what', head: say('What'), cell: describeMovement, phone: 'lead' },
            {
              key: 'why',
              head: say('Why, or how much'),
              cell: ({ reason, projectTitle, who }) => (
                <>
                  {[reasonSaid(reason, unit), who && say('by {who}', { who })].filter(Boolean).join(', ')}
                  {projectTitle &&
                    sayParts('{rest}for {projectTitle}', {
                      rest: reason && ', ',
                      projectTitle: <span className="title">{projectTitle}</span>,
                    })}
                </>
              ),
            },
          ]}
        />
      </Section>
    </>
  )
}
