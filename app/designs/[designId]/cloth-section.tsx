import { formatClothSize } from '#language/lengths'
import { say } from '#language/say'
import { sayParts } from '#language/say-parts'
import type { Design } from '#lib/chart/design'
import type { ClothPiece } from '#lib/cloth/cloth-piece'
import { distortionOf } from '#lib/cloth/distortion'
import type { PieceFit } from '#lib/cloth/fit'
import { marginsFor } from '#lib/cloth/margins'
import { oneMotif } from '#lib/cloth/motifs'
import { type ClothAnswer, type KindOnHand, overOn } from '#lib/coverage/cloth-answer'
import type { Place } from '#lib/place/place'
import type { LengthUnit } from '#lib/quantity/cloth-length'
import type { Settings } from '#lib/settings/settings'
import { Ledger } from '#ui/ledger'
import { Link } from '#ui/link'
import { Section } from '#ui/section'
import { Steps } from '#ui/steps'
import { Unfold } from '#ui/unfold'
import { choiceSentence, fitWords, pieceDescription, pieceName } from '#words/cloth'
import { countWords } from '#words/cloth-count'
import { distortionWords, roughSize } from '#words/cloth-size'
import { givenName } from '#words/given'
import { cuttingSteps, PieceDrawing } from './cloth/piece-drawing'
import { PiecePlace } from './cloth/piece-place'
import { SizeSums } from './cloth/size-sums'
import s from './design.module.css'

type ClothSectionProps = {
  design: Design
  answer: ClothAnswer
  places: ReadonlyMap<string, Place>
  settings: Settings
  /** Over so many threads, where that was chosen. */
  workedOver: 1 | 2 | null
}

/** Which piece to cut and how, drawn to scale; and how the design comes out on every kind of cloth on hand. */
export function ClothSection({ design, answer, places, settings, workedOver }: ClothSectionProps) {
  const unit = settings.lengthUnit
  if (answer.kind === 'unknown-size') {
    return (
      <Section title={say('Cloth')} id="cloth">
        <p>
          {say(
            'The size of this design is not known. Give its stitches, or its ruled size at a count, and its cloth is worked out.',
          )}
        </p>
      </Section>
    )
  }
  const { choice, kinds } = answer
  const chosen = choice.best ?? choice.ranked.find(({ fit }) => fit.kind === 'smaller-margin') ?? null
  const advised = design.advised
  const margins = marginsFor(settings, settings.finishing)
  const over = workedOver ?? (chosen ? overOn(chosen.piece.weave, advised) : 1)
  return (
    <Section
      title={say('Cloth')}
      id="cloth"
      note={
        chosen ? say('Drawn to scale, in {isIn, select, yes {inches} other {centimetres}}.', { isIn: unit === 'in' }) : undefined
      }
      actions={
        <>
          <Link href={`/designs/${design.id}/cloth`}>{say('Other margins, counts and ways round')}</Link>
          <Link href={`/designs/${design.id}/frame`}>{say('What frame?')}</Link>
          <Link href={`/cloth/cut?design=${design.id}`}>{say('Plan the cut')}</Link>
        </>
      }
    >
      {chosen ? (
        <div className={s.two}>
          <PieceDrawing piece={chosen.piece} fit={chosen.fit} unit={unit} margins={margins} />
          <div>
            <p className={s.big}>
              {chosen.fit.kind === 'fits'
                ? sayParts('Cut {rest} from {piecePlace}{isTurned, select, yes {, turned} other {}}.', {
                    rest: formatClothSize(chosen.fit.nothingToSpare ? exact(chosen.fit) : chosen.fit.cut, unit),
                    piecePlace: <PiecePlace piece={chosen.piece} places={places} />,
                    isTurned: chosen.fit.isTurned,
                  })
                : sayParts('No piece fits at this margin. {piecePlace} {fit}.', {
                    piecePlace: <PiecePlace piece={chosen.piece} places={places} />,
                    fit: fitWords(chosen.fit, unit),
                  })}
            </p>
            <p>{pieceWords(chosen.piece, chosen.fit, answer.size, over, unit)}</p>
            {chosen.fit.kind === 'fits' && (
              <Steps label={say('Cutting, in order')} items={cuttingSteps(chosen.piece, chosen.fit, unit)} />
            )}
            {choice.toBuy && advised && (
              <p className={s.gap}>
                {sayParts('Or buy {toBuy} of {name} at {count}.', {
                  toBuy: formatClothSize(choice.toBuy, unit),
                  name: advised.name ?? say('cloth'),
                  count: countWords(advised.count, advised.count),
                })}
              </p>
            )}
            <Unfold label={say('How the size comes about')}>
              <SizeSums
                size={answer.size}
                over={over}
                motifs={oneMotif}
                margins={margins}
                marginsOf={givenName(settings.finishing)}
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
            ? say('Nothing held is right. Buy {toBuy} of {name}, {count} over {overCase, select, yes {two} other {one}}.', {
                toBuy: formatClothSize(choice.toBuy, unit),
                name: advised.name ?? say('cloth'),
                count: countWords(advised.count, advised.count),
                overCase: advised.over === 2,
              })
            : say('Nothing held takes it: {choiceSentence}.', { choiceSentence: choiceSentence(choice, unit) })}
        </p>
      )}
      {kinds.length > 0 && (
        <div className={s.kinds}>
          <Ledger
            caption={say('On every count on hand')}
            captionIsSeen
            isTight
            rows={kinds}
            rowKey={(row) => `${row.kind} ${row.over}`}
            columns={[
              {
                key: 'cloth',
                head: say('Cloth on hand'),
                phone: 'lead',
                cell: (row) => (
                  <>
                    {kindWords(row)}
                    {row.isAdvised && <small className={s.under}>{say('as advised')}</small>}
                  </>
                ),
              },
              {
                key: 'size',
                head: say('Comes out at'),
                isNumeric: true,
                phone: 'side',
                cell: ({ fit }) => roughSize(fit.finished, unit),
              },
              {
                key: 'cut',
                head: say('To cut'),
                isNumeric: true,
                phone: 'hide',
                cell: ({ fit }) => formatClothSize(fit.cut, unit),
              },
              {
                key: 'fit',
                head: say('Best piece'),
                phone: 'line',
                cell: ({ best, fit }) => (
                  <>
                    {pieceName(best)} {fitWords(fit, unit)}
                    <small className={s.under}>
                      <a
                        className={s.onIt}
                        href={`/designs/${design.id}?piece=${best.id}#threads`}
                        aria-label={say('Reckon the threads on it: {pieceName}', { pieceName: pieceName(best) })}
                      >
                        {say('Reckon the threads on it')}
                      </a>
                    </small>
                  </>
                ),
              },
              {
                key: 'place',
                head: say('Place'),
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
  return say('{isBlock, select, yes {Aida} other {Evenweave or linen}} {count} over {overCase, select, yes {two} other {one}}', {
    isBlock: weave === 'block',
    count: count.join(' '),
    overCase: over === 2,
  })
}

const exact = ({ cut }: PieceFit) => ({ widthUm: Math.ceil(cut.exactWidthUm), heightUm: Math.ceil(cut.exactHeightUm) })

function pieceWords(
  piece: ClothPiece,
  fit: PieceFit,
  stitches: { width: number; height: number },
  over: 1 | 2,
  unit: LengthUnit,
) {
  const size = say('{pieceDescription}. It measures {piece}{isSquared, select, yes {, squared} other {, not yet squared}}.', {
    pieceDescription: pieceDescription(piece),
    piece: formatClothSize(piece, unit),
    isSquared: piece.isSquared,
  })
  const turned = fit.isTurned ? say(' It fits better turned: the design’s width then runs along the warp.') : ''
  const tight =
    fit.kind === 'fits' && fit.nothingToSpare ? say(' There is nothing to spare: cut the exact size, not the rounded one.') : ''
  const square =
    fit.kind === 'fits' && fit.squareFirst
      ? fit.fitsAfterSquaring
        ? say(' Square it first: it still fits after the usual loss of ¼ in a side.')
        : say(' Square it first: after the usual loss of ¼ in a side it may no longer fit.')
      : ''
  const skew = distortionOf(stitches, piece, over, fit.isTurned)
  return `${size}${turned}${tight}${square}${skew ? say(' The count is not square: {replace}.', { replace: distortionWords(skew, unit).replace(/^A/, 'a') }) : ''}`
}
