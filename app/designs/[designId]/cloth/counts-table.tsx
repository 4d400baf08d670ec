import { formatClothSize } from '#language/lengths'
import { say } from '#language/say'
import type { AdvisedCloth } from '#lib/chart/design'
import type { ClothContrast } from '#lib/cloth/contrast'
import { nominalCountLabel } from '#lib/cloth/match-cloth'
import type { CountAnswer } from '#lib/coverage/design-cloth'
import type { Place } from '#lib/place/place'
import type { LengthUnit } from '#lib/quantity/cloth-length'
import { Ledger } from '#ui/ledger'
import { pieceName } from '#words/cloth'
import { areaWords, distortionWords, overWords, roughSize, skewWords, squaringWords } from '#words/cloth-size'
import s from './cloth.module.css'
import { PiecePlace } from './piece-place'
import { countFitWords, pieceCountWords } from './words'

type CountsTableProps = {
  counts: readonly CountAnswer[]
  /** Of the piece of each count, by its id. */
  contrasts: ReadonlyMap<string, ClothContrast>
  advised: AdvisedCloth | null
  places: ReadonlyMap<string, Place>
  shownPieceId: string | null
  unit: LengthUnit
  pieceHref: (pieceId: string) => string
}

const kindWords = ({ weave, piece, over }: CountAnswer): string =>
  say('{isBlock, select, yes {Aida} other {Evenweave or linen}} {nominalCountLabel} {over}', {
    isBlock: weave === 'block',
    nominalCountLabel: nominalCountLabel(piece.ends, piece.picks),
    over: overWords(over),
  })

/** Every count on hand: how large it comes out, what to cut, and the piece that does it best. */
export function CountsTable({ counts, contrasts, advised, places, shownPieceId, unit, pieceHref }: CountsTableProps) {
  return (
    <Ledger
      caption={say('On every count on hand')}
      isTight
      rows={counts}
      rowKey={(row) => row.kind}
      rowHref={({ piece }) => (piece.id === shownPieceId ? undefined : pieceHref(piece.id))}
      columns={[
        {
          key: 'cloth',
          head: say('Cloth on hand'),
          phone: 'lead',
          width: '17rem',
          cell: (row) => (
            <>
              <b>{kindWords(row)}</b>
              <small className={s.under}>
                {pieceCountWords(row)}
                {row.isAdvised && say(', as advised')}
                {row.isAgainstAdvice && say(', but the chart insists on {name}', { name: advised?.name ?? say('another weave') })}
              </small>
            </>
          ),
        },
        {
          key: 'size',
          head: say('Comes out at'),
          isNumeric: true,
          phone: 'side',
          cell: ({ fit, distortion }) => (
            <>
              {roughSize(fit.finished, unit)}
              {distortion && <small className={s.under}>{skewWords(distortion)}</small>}
            </>
          ),
        },
        {
          key: 'cut',
          head: say('To cut'),
          isNumeric: true,
          phone: 'labelled',
          cell: ({ fit }) => formatClothSize(fit.cut, unit),
        },
        {
          key: 'fit',
          head: say('Best piece'),
          phone: 'line',
          cell: (row) => (
            <>
              {pieceName(row.piece)}
              {row.piece.id === shownPieceId && say(', shown above,')} {countFitWords(row, unit)}
              <Notes row={row} contrast={contrasts.get(row.piece.id)} unit={unit} />
            </>
          ),
        },
        {
          key: 'left',
          head: say('Left over'),
          isNumeric: true,
          phone: 'hide',
          cell: ({ ranked }) => (ranked[0]?.fit.kind === 'fits' ? areaWords(ranked[0].leftAreaUm2, unit) : ''),
        },
        {
          key: 'place',
          head: say('Place'),
          isAtEnd: true,
          phone: 'side',
          cell: ({ piece }) => <PiecePlace piece={piece} places={places} isPlaceOnly />,
        },
      ]}
    />
  )
}

function Notes({ row, contrast, unit }: { row: CountAnswer; contrast: ClothContrast | undefined; unit: LengthUnit }) {
  const faint = contrast?.kind === 'judged' ? contrast.faint.length : 0
  const others = row.ranked.filter(({ fit }) => fit.kind === 'fits').length - 1
  const notes = [
    row.piece.isOffcut && row.fit.kind === 'fits' && say('An offcut.'),
    row.fit.kind !== 'too-small' && squaringWords(row.afterSquaring, unit),
    row.distortion && `${distortionWords(row.distortion, unit)}.`,
    faint > 0 && say('{faint, plural, one {# thread} other {# threads}} hard to see on it.', { faint }),
    contrast?.kind === 'cloth-not-known' && say('Its colour is not on record, so the threads are not judged on it.'),
    others > 0 && `${others === 1 ? say('One more piece fits') : say('{others} more pieces fit', { others })}.`,
  ].filter((note) => typeof note === 'string')
  return notes.length > 0 ? <small className={s.under}>{notes.join(' ')}</small> : null
}
