import type { Metadata } from 'next'
import { notFound } from 'next/navigation'
import { formatClothLength, formatClothSize } from '#language/lengths'
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
  return { title: piece ? pieceTitle(piece) : 'Cloth' }
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
      label: 'Place',
      value: piece.current ? (
        <PlaceLabel
          label={piece.current.label}
          href={`/places/${piece.current.id}`}
          livesIn={piece.home && piece.home.id !== piece.current.id ? piece.home.label : undefined}
          note={piece.outSince && `out since ${dayOf(piece.outSince)}`}
        />
      ) : (
        'no place yet'
      ),
    },
    {
      label: 'Size, weft × warp',
      value: `${formatClothSize(piece, unit)} (${formatClothSize(piece, otherUnit(unit))}), ${describeSizeCertainty(piece)}`,
    },
    {
      label: 'Count',
      value: (
        <>
          {describeCounts(piece.ends, piece.picks)}, {certaintyWords[piece.countCertainty]}
          {piece.isCountStale && (
            <>
              {' '}
              before it was washed: <Link href={`/cloth/count?piece=${piece.id}`}>count it again</Link>
            </>
          )}
        </>
      ),
    },
    {
      label: 'Turning',
      value: [
        describeSquareness(piece.ends, piece.picks),
        piece.isTurnable ? '' : `${capital(notTurnedWords(piece.oneWayBecause))}.`,
      ].join(' '),
    },
    ...(piece.parent
      ? [{ label: 'Cut from', value: <Link href={`/cloth/${piece.parent.id}`}>{kinWords(piece.parent, unit)}</Link> }]
      : []),
    ...(piece.note ? [{ label: 'Note', value: piece.note }] : []),
  ]

  return (
    <>
      <PageHead
        title={pieceTitle(piece)}
        crumbs={[{ label: 'Cloth', href: '/cloth' }, { label: piece.label ?? piece.name }]}
        byline={[piece.makerName, midSentence(weaveWords[piece.weave])].filter(Boolean).join(', ')}
        actions={
          !piece.isGone && (
            <>
              <LinkButton kind="first" href={`/cloth/${piece.id}/designs`}>
                What fits it
              </LinkButton>
              <LinkButton href={`/cloth/cut?piece=${piece.id}`}>Plan a cut from it</LinkButton>
              <LinkButton href={`/labels?one=cloth.${piece.id}`}>Label</LinkButton>
              <LinkButton href={`/cloth/${piece.id}/edit`}>Change it</LinkButton>
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
      <PrintLine>Cloth of {piece.ownerName}</PrintLine>
      {piece.isGone && (
        <Notice
          kind="done"
          title="This piece is gone; its history stays."
          actions={piece.isRestorable && <RestoreForm piece={piece} />}
        />
      )}

      <div className={s.columns}>
        <figure className={s.drawing}>
          <ClothDrawing
            sentence={`The piece to scale, ${formatClothLength(piece.widthUm, unit)} along the weft and ${formatClothLength(piece.heightUm, unit)} along the warp.`}
            piece={{
              widthUm: piece.widthUm,
              heightUm: piece.heightUm,
              widthLabel: `${formatClothLength(piece.widthUm, unit)}, weft`,
              heightLabel: `${formatClothLength(piece.heightUm, unit)}, warp`,
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
              <b>Square it first.</b> Take the selvedge off and cut it straight to a thread. The usual loss of{' '}
              {formatClothLength(squaringLossUm, unit)} a side leaves {formatClothSize(squared, unit)}. Fit is judged on the size
              as it stands until then.
            </p>
          )}
        </div>
      </div>

      {!piece.isGone && <CareSection piece={piece} unit={unit} shrinkPercent={settings.shrinkPercent} today={today} />}

      {!piece.isGone && (
        <Section
          title="Work with it"
          id="work"
          actions={
            <LinkButton kind="quiet" href={`/cloth/yardage?piece=${piece.id}`}>
              How many come out of it
            </LinkButton>
          }
        >
          <div className={s.forms}>
            <Unfold label={piece.isSquared ? 'Measure it again' : 'Square and measure it'}>
              <MeasureForm piece={piece} unit={unit} />
            </Unfold>
            <Unfold label="Cut it">
              <CutForm piece={piece} unit={unit} placeLabels={placeLabels} />
            </Unfold>
            <Unfold label="Move it">
              <MoveForm piece={piece} placeLabels={placeLabels} />
            </Unfold>
          </div>
          <div className={s.caution}>
            <Notice kind="caution" title="Pins out before it is put away">
              Pins, needles and staples left in cloth rust and mark it. Keep shears and pins out of reach of children and animals.
            </Notice>
          </div>
          <ButtonRow>
            <LeaveDialogs piece={piece} owners={owners} />
          </ButtonRow>
        </Section>
      )}

      {piece.offcuts.length > 0 && (
        <Section title="Cut from it">
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
      <Section title="History">
        <Ledger
          caption="What happened to this piece, newest first"
          rows={piece.history}
          rowKey={({ id }) => id}
          isTight
          columns={[
            { key: 'when', head: 'When', cell: ({ at }) => <span className="nb">{dayOf(at)}</span>, phone: 'side' },
            { key: 'what', head: 'What', cell: describeMovement, phone: 'lead' },
            {
              key: 'why',
              head: 'Why, or how much',
              cell: ({ reason, projectTitle, who }) => (
                <>
                  {[reason, who && `by ${who}`].filter(Boolean).join(', ')}
                  {projectTitle && (
                    <>
                      {reason && ', '}for <span className="title">{projectTitle}</span>
                    </>
                  )}
                </>
              ),
            },
          ]}
        />
      </Section>
    </>
  )
}
