import { formatClothSize } from '#language/lengths'
import { say } from '#language/say'
import { sayParts } from '#language/say-parts'
import type { BleedRisk } from '#lib/cloth/care'
import type { ClothContrast } from '#lib/cloth/contrast'
import type { Motifs } from '#lib/cloth/motifs'
import type { DesignCloth, ShownPiece as Shown } from '#lib/coverage/design-cloth'
import type { Place } from '#lib/place/place'
import type { Settings } from '#lib/settings/settings'
import { Facts } from '#ui/facts'
import { Ledger } from '#ui/ledger'
import { Notice } from '#ui/notice'
import { Steps } from '#ui/steps'
import { Unfold } from '#ui/unfold'
import { pieceDescription, pieceName } from '#words/cloth'
import { areaWords, distortionWords, fitSaid, roughSize, skewWords, squaringWords } from '#words/cloth-size'
import s from './cloth.module.css'
import { cuttingSteps, PieceDrawing } from './piece-drawing'
import { PiecePlace } from './piece-place'
import { SizeSums } from './size-sums'
import { bleedWords, contrastWords, waysRound } from './words'

type ShownPieceProps = {
  shown: Shown
  cloth: DesignCloth
  motifs: Motifs
  margins: { leftUm: number; rightUm: number; topUm: number; bottomUm: number }
  marginsOf: string
  contrast: ClothContrast | null
  bleeding: BleedRisk | null
  codeOf: (threadId: string) => string
  places: ReadonlyMap<string, Place>
  settings: Settings
}

const mostRanked = 12

/** One piece in full: drawn, both ways round, after squaring, what the count does to a circle, which threads show, how to cut it. */
export function ShownPiece(props: ShownPieceProps) {
  const { shown, cloth, motifs, margins, marginsOf, contrast, bleeding, codeOf, places, settings } = props
  const { piece, fit, distortion, afterSquaring } = shown
  const unit = settings.lengthUnit
  const unseen = contrast && contrastWords(contrast, codeOf)
  const mayRun = bleeding && bleedWords(bleeding, codeOf)
  const squaring = squaringWords(afterSquaring, unit)
  const others = cloth.ranked.filter((ranked) => ranked.piece.id !== piece.id)
  return (
    <div className={s.two}>
      {fit.kind === 'too-small' ? (
        <p className="quiet">{say('It is too small to draw the cut on.')}</p>
      ) : (
        <PieceDrawing piece={piece} fit={fit} unit={unit} margins={margins} />
      )}
      <div className={s.words}>
        <p>
          {sayParts(
            '{pieceDescription}. It measures {piece}{isSquared, select, yes {, squared} other {, not yet squared}}{isOffcut, select, yes {, an offcut} other {}}.{rest}',
            {
              pieceDescription: pieceDescription(piece),
              piece: formatClothSize(piece, unit),
              isSquared: piece.isSquared,
              isOffcut: piece.isOffcut,
              rest: piece.isReserved && <b> {say('It is kept for something else.')}</b>,
            },
          )}
        </p>
        <Facts items={waysRound(shown, unit)} />
        {squaring && <p>{squaring}</p>}
        {distortion && (
          <p>
            {sayParts('{distortion}: {roughSize}. The cloth is {skew}.', {
              distortion: <b>{distortionWords(distortion, unit)}</b>,
              roughSize: roughSize({ widthUm: distortion.wideUm, heightUm: distortion.tallUm }, unit),
              skew: skewWords(distortion),
            })}
          </p>
        )}
        {unseen && (
          <Notice kind="caution" title={unseen.title}>
            {unseen.rest}
          </Notice>
        )}
        {mayRun && (
          <Notice kind="caution" title={mayRun}>
            {say(
              'Before the piece is washed, try cloth and threads wet on white; a pass is no guarantee. Go by what is done where you are.',
            )}
          </Notice>
        )}
        {fit.kind === 'fits' && <Steps label={say('Cutting, in order')} items={cuttingSteps(piece, fit, unit)} />}
        <Unfold label={say('How the size comes about')}>
          <SizeSums
            size={cloth.size}
            over={shown.over}
            motifs={motifs}
            margins={margins}
            marginsOf={marginsOf}
            fit={fit}
            piece={piece}
            shrinkPercent={settings.shrinkPercent}
            roundingUm={settings.roundingUm}
            unit={unit}
          />
        </Unfold>
        {others.length > 0 && (
          <Unfold label={say('Which piece wastes least')}>
            <Ledger
              caption={say('Pieces of the right cloth, the one that wastes least first')}
              isTight
              rows={cloth.ranked.slice(0, mostRanked)}
              rowKey={(row) => row.piece.id}
              foot={
                cloth.ranked.length > mostRanked
                  ? say('The first {mostRanked} of {ranked}. Those kept for something are left out.', {
                      mostRanked,
                      ranked: cloth.ranked.length,
                    })
                  : say('Offcuts before whole pieces, then the least left over. Those kept for something are left out.')
              }
              columns={[
                {
                  key: 'piece',
                  head: say('Piece'),
                  phone: 'lead',
                  cell: (row) => (
                    <>
                      <b>{pieceName(row.piece)}</b>, {formatClothSize(row.piece, unit)}
                      {row.piece.isOffcut && say(', offcut')}
                    </>
                  ),
                },
                {
                  key: 'fit',
                  head: say('Fit'),
                  phone: 'line',
                  cell: (row) => `${fitSaid(row.fit, unit)}${row.fit.isTurned ? say(', turned') : ''}`,
                },
                {
                  key: 'left',
                  head: say('Left over'),
                  isNumeric: true,
                  phone: 'side',
                  cell: (row) => (row.fit.kind === 'fits' ? areaWords(row.leftAreaUm2, unit) : ''),
                },
                {
                  key: 'place',
                  head: say('Place'),
                  isAtEnd: true,
                  phone: 'side',
                  cell: (row) => <PiecePlace piece={row.piece} places={places} isPlaceOnly />,
                },
              ]}
            />
          </Unfold>
        )}
      </div>
    </div>
  )
}
