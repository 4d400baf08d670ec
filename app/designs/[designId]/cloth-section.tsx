import { formatClothSize } from '#language/lengths'
import type { Design } from '#lib/chart/design'
import type { ClothPiece } from '#lib/cloth/cloth-piece'
import { distortionOf } from '#lib/cloth/distortion'
import type { PieceFit } from '#lib/cloth/fit'
import { marginsFor } from '#lib/cloth/margins'
import { oneMotif } from '#lib/cloth/motifs'
import { type ClothAnswer, type KindOnHand, overOn } from '#lib/coverage/cloth-answer'
import type { Place } from '#lib/place/place'
import type { LengthUnit } from '#lib/quantity/cloth-length'
import { formatCount } from '#lib/quantity/count'
import type { Settings } from '#lib/settings/settings'
import { Ledger } from '#ui/ledger'
import { Link } from '#ui/link'
import { Section } from '#ui/section'
import { Steps } from '#ui/steps'
import { Unfold } from '#ui/unfold'
import { choiceSentence, fitWords, pieceDescription, pieceName } from '#words/cloth'
import { distortionWords, roughSize } from '#words/cloth-size'
import { cuttingSteps, PieceDrawing } from './cloth/piece-drawing'
import { PiecePlace } from './cloth/piece-place'
import { SizeSums } from './cloth/size-sums'
import s from './design.module.css'

type ClothSectionProps = {
  design: Design
  answer: ClothAnswer
  places: ReadonlyMap<string, Place>
  settings: Settings
}

/** Which piece to cut and how, drawn to scale; and how the design comes out on every kind of cloth on hand. */
export function ClothSection({ design, answer, places, settings }: ClothSectionProps) {
  const unit = settings.lengthUnit
  if (answer.kind === 'unknown-size') {
    return (
      <Section title="Cloth" id="cloth">
        <p>The size of this design is not known. Give its stitches, or its inches at a count, and its cloth is worked out.</p>
      </Section>
    )
  }
  const { choice, kinds } = answer
  const chosen = choice.best ?? choice.ranked.find(({ fit }) => fit.kind === 'smaller-margin') ?? null
  const advised = design.advised
  const margins = marginsFor(settings, settings.finishing)
  const over = chosen ? overOn(chosen.piece.weave, advised) : 1
  return (
    <Section
      title="Cloth"
      id="cloth"
      note={chosen ? `Drawn to scale, in ${unit === 'in' ? 'inches' : 'centimetres'}.` : undefined}
      actions={
        <>
          <Link href={`/designs/${design.id}/cloth`}>Other margins, counts and ways round</Link>
          <Link href={`/designs/${design.id}/frame`}>What frame?</Link>
          <Link href={`/cloth/cut?design=${design.id}`}>Plan the cut</Link>
        </>
      }
    >
      {chosen ? (
        <div className={s.two}>
          <PieceDrawing piece={chosen.piece} fit={chosen.fit} unit={unit} margins={margins} />
          <div>
            <p className={s.big}>
              {chosen.fit.kind === 'fits' ? (
                <>
                  Cut {formatClothSize(chosen.fit.nothingToSpare ? exact(chosen.fit) : chosen.fit.cut, unit)} from{' '}
                  <PiecePlace piece={chosen.piece} places={places} />
                  {chosen.fit.isTurned ? ', turned' : ''}.
                </>
              ) : (
                <>
                  No piece fits at this margin. <PiecePlace piece={chosen.piece} places={places} /> {fitWords(chosen.fit, unit)}.
                </>
              )}
            </p>
            <p>{pieceWords(chosen.piece, chosen.fit, answer.size, over, unit)}</p>
            {chosen.fit.kind === 'fits' && (
              <Steps label="Cutting, in order" items={cuttingSteps(chosen.piece, chosen.fit, unit)} />
            )}
            {choice.toBuy && advised && (
              <p className={s.gap}>
                Or buy {formatClothSize(choice.toBuy, unit)} of {advised.name ?? 'cloth'} at{' '}
                {formatCount(advised.count, advised.count)}.
              </p>
            )}
            <Unfold label="How the size comes about">
              <SizeSums
                size={answer.size}
                over={over}
                motifs={oneMotif}
                margins={margins}
                marginsOf={settings.finishing}
                fit={chosen.fit}
                piece={chosen.piece}
                shrinkPercent={settings.shrinkPercent}
                roundingUm={settings.roundingUm}
                unit={unit}
              />
            </Unfold>
          </div>
        </div>
      ) : (
        <p className={s.big}>
          {choice.toBuy && advised
            ? `Nothing held is right. Buy ${formatClothSize(choice.toBuy, unit)} of ${advised.name ?? 'cloth'}, ${formatCount(advised.count, advised.count)} over ${advised.over === 2 ? 'two' : 'one'}.`
            : `Nothing held takes it: ${choiceSentence(choice, unit)}.`}
        </p>
      )}
      {kinds.length > 0 && (
        <div className={s.kinds}>
          <Ledger
            caption="On every count on hand"
            captionIsSeen
            isTight
            rows={kinds}
            rowKey={(row) => `${row.kind} ${row.over}`}
            columns={[
              {
                key: 'cloth',
                head: 'Cloth on hand',
                phone: 'lead',
                cell: (row) => (
                  <>
                    {kindWords(row)}
                    {row.isAdvised && <small className={s.under}>as advised</small>}
                  </>
                ),
              },
              {
                key: 'size',
                head: 'Comes out at',
                isNumeric: true,
                phone: 'side',
                cell: ({ fit }) => roughSize(fit.finished, unit),
              },
              { key: 'cut', head: 'To cut', isNumeric: true, phone: 'hide', cell: ({ fit }) => formatClothSize(fit.cut, unit) },
              {
                key: 'fit',
                head: 'Best piece',
                phone: 'line',
                cell: ({ best, fit }) => (
                  <>
                    {pieceName(best)} {fitWords(fit, unit)}
                    <small className={s.under}>
                      <a
                        className={s.onIt}
                        href={`/designs/${design.id}?piece=${best.id}#threads`}
                        aria-label={`Reckon the threads on it: ${pieceName(best)}`}
                      >
                        Reckon the threads on it
                      </a>
                    </small>
                  </>
                ),
              },
              {
                key: 'place',
                head: 'Place',
                isAtEnd: true,
                phone: 'side',
                cell: ({ best }) => <PiecePlace piece={best} places={places} />,
              },
            ]}
          />
        </div>
      )}
    </Section>
  )
}

const kindWords = ({ kind, over }: KindOnHand): string => {
  const [weave, ...count] = kind.split(' ')
  return `${weave === 'block' ? 'Aida' : 'Evenweave or linen'} ${count.join(' ')} over ${over === 2 ? 'two' : 'one'}`
}

const exact = ({ cut }: PieceFit) => ({ widthUm: Math.ceil(cut.exactWidthUm), heightUm: Math.ceil(cut.exactHeightUm) })

function pieceWords(
  piece: ClothPiece,
  fit: PieceFit,
  stitches: { width: number; height: number },
  over: 1 | 2,
  unit: LengthUnit,
) {
  const size = `${pieceDescription(piece)}. It measures ${formatClothSize(piece, unit)}${piece.isSquared ? ', squared' : ', not yet squared'}.`
  const turned = fit.isTurned ? ' It fits better turned: the design’s width then runs along the warp.' : ''
  const tight =
    fit.kind === 'fits' && fit.nothingToSpare ? ' There is nothing to spare: cut the exact size, not the rounded one.' : ''
  const square =
    fit.kind === 'fits' && fit.squareFirst
      ? fit.fitsAfterSquaring
        ? ' Square it first: it still fits after the usual loss of ¼ in a side.'
        : ' Square it first: after the usual loss of ¼ in a side it may no longer fit.'
      : ''
  const skew = distortionOf(stitches, piece, over, fit.isTurned)
  return `${size}${turned}${tight}${square}${skew ? ` The count is not square: ${distortionWords(skew, unit).replace(/^A/, 'a')}.` : ''}`
}
