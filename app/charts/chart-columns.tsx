import { say } from '#language/say'
import type { LengthUnit } from '#lib/quantity/cloth-length'
import { OutlineScale, OutlineToScale } from '#trade/outline-to-scale'
import { Photo } from '#trade/photo'
import { PlaceLabel } from '#trade/place-label'
import { TrayWord } from '#trade/tray'
import type { Column } from '#ui/ledger'
import { tickColumn } from '../_listing/tick-column'
import type { ChartRow } from './chart-rows'
import s from './charts.module.css'
import type { ChartColumnKey } from './columns'

/** What every row of a list shares. */
export type ChartColumnsAsked = {
  shown: readonly ChartColumnKey[]
  unit: LengthUnit
  /** The longest side in the whole list, in stitches. */
  longest: number
  /** Under which what is chosen of the list is kept. */
  list: string
  /** The kind of cloth chosen, in words: sizes and pieces are on it. Null where each design’s own advice holds. */
  on: string | null
}

const dash = <span className="quiet">–</span>

/** The columns shown, in their order; drawn by the server and by the window over a long list alike. */
export function chartColumns({ shown, unit, longest, list, on }: ChartColumnsAsked): Column<ChartRow>[] {
  const columns: Record<ChartColumnKey, Omit<Column<ChartRow>, 'key'>> = {
    cover: {
      head: say('Cover'),
      width: '10rem',
      phone: 'line',
      cell: ({ state }) => (state ? <TrayWord {...state} /> : <TrayWord state="unknown" word={say('No thread list')} />),
    },
    title: {
      head: say('Chart'),
      width: '17rem',
      phone: 'lead',
      cell: ({ title, inChart, designers, coverFile }) => (
        <>
          {coverFile && (
            // So small that a blur of it would say nothing.
            <Photo className={s.cover} file={coverFile} look={undefined} alt="" room={{ widthPx: 36, heightPx: 48 }} isCropped />
          )}
          <span className={`title ${s.title}`}>{title}</span>
          <span className={s.by}>{[designers, inChart && say('in {place}', { place: inChart })].filter(Boolean).join(', ')}</span>
        </>
      ),
    },
    designer: { head: say('Designer'), width: '10rem', phone: 'hide', cell: ({ designers }) => designers || dash },
    stitches: {
      head: (
        <>
          {say('Stitches, to scale')} <OutlineScale longestStitches={longest} box={36} />
        </>
      ),
      width: '9.5rem',
      phone: 'hide',
      cell: ({ size }) =>
        size ? (
          <span className={s.size}>
            <OutlineToScale widthStitches={size.width} heightStitches={size.height} longestStitches={longest} box={36} />
            <span className="nb">
              {size.width} × {size.height}
              {size.isEstimated && <small className={s.note}>{say('estimated')}</small>}
            </span>
          </span>
        ) : (
          <span className="quiet">{say('size not known')}</span>
        ),
    },
    finished: {
      head: finishedHead(unit, on),
      isNumeric: true,
      width: '8rem',
      phone: 'side',
      cell: ({ finished }) =>
        finished && (
          <>
            {finished}
            <span className={s.unit}> {unit}</span>
          </>
        ),
    },
    themes: {
      head: say('Subject and form'),
      width: '11rem',
      phone: 'hide',
      isOffPaper: true,
      cell: ({ subjects, forms, seasons }) => (
        <>
          {subjects}
          <small className={s.note}>{[forms, seasons].filter(Boolean).join(', ')}</small>
        </>
      ),
    },
    season: { head: say('Season and occasion'), width: '9rem', phone: 'hide', cell: ({ seasons }) => seasons || dash },
    form: { head: say('Form'), width: '8rem', phone: 'hide', cell: ({ forms }) => forms || dash },
    cloth: {
      head: say('Cloth'),
      width: '13rem',
      phone: 'wide',
      cell: ({ cloth }) => cloth ?? <span className="quiet">{say('size not known')}</span>,
    },
    missing: {
      head: say('To buy, put-ups'),
      isNumeric: true,
      width: '5.5rem',
      phone: 'hide',
      cell: ({ missing }) => missing ?? dash,
    },
    kind: { head: say('Kind'), width: '5.5rem', phone: 'hide', cell: ({ kind }) => kind },
    owner: { head: say('Owner'), width: '8rem', phone: 'hide', cell: ({ owner }) => owner },
    bought: { head: say('Bought on'), width: '6.5rem', phone: 'hide', cell: ({ boughtOn }) => boughtOn ?? dash },
    years: {
      head: say('Years owned'),
      isNumeric: true,
      width: '5rem',
      phone: 'hide',
      cell: ({ yearsOwned }) => yearsOwned ?? dash,
    },
    place: {
      head: say('Place'),
      isAtEnd: true,
      width: '10.5rem',
      phone: 'side',
      cell: ({ place }) =>
        place ? (
          <PlaceLabel label={place.label} href={`/places/${place.id}`} livesIn={place.livesIn} note={place.note} />
        ) : (
          <span className="quiet">{say('no place yet')}</span>
        ),
    },
  }
  const ticks = tickColumn<ChartRow>(
    list,
    ({ id }) => id,
    ({ title }) => title,
  )
  return [ticks, ...shown.map((key) => ({ key, ...columns[key] }))]
}

function finishedHead(unit: LengthUnit, on: string | null): string {
  if (on !== null) return unit === 'in' ? say('Inches on {on}', { on }) : say('Centimetres on {on}', { on })
  return unit === 'in' ? say('Inches as advised') : say('Centimetres as advised')
}

export const chartHref = ({ href }: Pick<ChartRow, 'href'>): string => href
