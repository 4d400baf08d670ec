import { formatClothSize } from '#language/lengths'
import type { AdvisedCloth } from '#lib/chart/design'
import type { ClothContrast } from '#lib/cloth/contrast'
import { nominalCountLabel } from '#lib/cloth/match-cloth'
import type { CountAnswer } from '#lib/coverage/design-cloth'
import type { Place } from '#lib/place/place'
import type { LengthUnit } from '#lib/quantity/cloth-length'
import { Ledger } from '#ui/ledger'
import { counted } from '#words/amounts'
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
  `${weave === 'block' ? 'Aida' : 'Evenweave or linen'} ${nominalCountLabel(piece.ends, piece.picks)} ${overWords(over)}`

/** Every count on hand: how large it comes out, what to cut, and the piece that does it best. */
export function CountsTable({ counts, contrasts, advised, places, shownPieceId, unit, pieceHref }: CountsTableProps) {
  return (
    <Ledger
      caption="On every count on hand"
      isTight
      rows={counts}
      rowKey={(row) => row.kind}
      rowHref={({ piece }) => (piece.id === shownPieceId ? undefined : pieceHref(piece.id))}
      columns={[
        {
          key: 'cloth',
          head: 'Cloth on hand',
          phone: 'lead',
          width: '17rem',
          cell: (row) => (
            <>
              <b>{kindWords(row)}</b>
              <small className={s.under}>
                {pieceCountWords(row)}
                {row.isAdvised && ', as advised'}
                {row.isAgainstAdvice && `, but the chart insists on ${advised?.name ?? 'another weave'}`}
              </small>
            </>
          ),
        },
        {
          key: 'size',
          head: 'Comes out at',
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
          head: 'To cut',
          isNumeric: true,
          phone: 'labelled',
          cell: ({ fit }) => formatClothSize(fit.cut, unit),
        },
        {
          key: 'fit',
          head: 'Best piece',
          phone: 'line',
          cell: (row) => (
            <>
              {pieceName(row.piece)}
              {row.piece.id === shownPieceId && ', shown above,'} {countFitWords(row, unit)}
              <Notes row={row} contrast={contrasts.get(row.piece.id)} unit={unit} />
            </>
          ),
        },
        {
          key: 'left',
          head: 'Left over',
          isNumeric: true,
          phone: 'hide',
          cell: ({ ranked }) => (ranked[0]?.fit.kind === 'fits' ? areaWords(ranked[0].leftAreaUm2, unit) : ''),
        },
        {
          key: 'place',
          head: 'Place',
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
    row.piece.isOffcut && row.fit.kind === 'fits' && 'An offcut.',
    row.fit.kind !== 'too-small' && squaringWords(row.afterSquaring, unit),
    row.distortion && `${distortionWords(row.distortion, unit)}.`,
    faint > 0 && `${counted(faint, 'thread')} hard to see on it.`,
    contrast?.kind === 'cloth-not-known' && 'Its colour is not on record, so the threads are not judged on it.',
    others > 0 && `${others === 1 ? 'One more piece fits' : `${others} more pieces fit`}.`,
  ].filter((note) => typeof note === 'string')
  return notes.length > 0 ? <small className={s.under}>{notes.join(' ')}</small> : null
}
