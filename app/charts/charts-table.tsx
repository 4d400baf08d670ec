import { formatClothSize } from '#language/lengths'
import type { DesignRecord } from '#lib/chart/catalogue'
import { stitchSize } from '#lib/chart/design-size'
import { finishedSize } from '#lib/cloth/finished-size'
import type { EngineListAnswer } from '#lib/coverage/engine'
import type { Answers } from '#lib/db/answers/answers'
import type { FoundDesigns } from '#lib/db/answers/find-designs'
import type { Cover } from '#lib/db/chart/read-covers'
import { isChartWithSomebody } from '#lib/loan/chart-out'
import { OutlineScale, OutlineToScale } from '#trade/outline-to-scale'
import { PlaceLabel } from '#trade/place-label'
import { TrayWord } from '#trade/tray'
import { type Group, Ledger } from '#ui/ledger'
import { Photo } from '#ui/photo'
import { counted, listed } from '#words/amounts'
import { choiceSentence } from '#words/cloth'
import { listStateWords } from '#words/cover'
import s from './charts.module.css'

type Row = { record: DesignRecord; answer: EngineListAnswer | null; listCount: number }

type ChartsTableProps = {
  answers: Answers
  found: FoundDesigns
  /** By chart; those without one are left out. */
  covers: ReadonlyMap<string, Cover>
  ownerIds: readonly string[]
  isGrouped: boolean
}

/** The designs found, each with its answer: cover, size, cloth, place. */
export function ChartsTable({ answers, found, covers, ownerIds, isGrouped }: ChartsTableProps) {
  const { world } = answers
  const engine = answers.coverage(ownerIds)
  const unit = world.settings.lengthUnit
  const cloth = answers.cloth(ownerIds)
  const rows: Row[] = found.records.map((record) => {
    const design = engine.answerFor(record.designId)
    return { record, answer: design?.best ?? null, listCount: design?.lists.length ?? 0 }
  })
  const factsOf = (designId: string) => world.designs.get(designId)
  const sizeOf = (designId: string) => {
    const facts = factsOf(designId)
    return facts ? stitchSize(facts.design) : null
  }
  const longest = Math.max(100, ...rows.map(({ record }) => Math.max(...dimensions(sizeOf(record.designId)))))
  return (
    <Ledger
      caption="Designs with their cover, size, cloth and place"
      {...(isGrouped ? { groups: grouped(rows) } : { rows })}
      rowKey={({ record }) => record.designId}
      rowHref={({ record }) => `/designs/${record.designId}`}
      columns={[
        {
          key: 'cover',
          head: 'Cover',
          width: '12.5rem',
          phone: 'line',
          cell: ({ answer, listCount }) => {
            if (!answer) return <TrayWord state="unknown" word="No thread list" />
            const { state, word, note } = listStateWords(answer)
            return (
              <TrayWord
                state={state}
                word={word}
                note={[note, listCount > 1 && 'best of its lists'].filter(Boolean).join(', ') || null}
              />
            )
          },
        },
        {
          key: 'title',
          head: 'Chart',
          phone: 'lead',
          cell: ({ record }) => (
            <>
              <CoverThumb cover={covers.get(record.chartId)} />
              <span className={`title ${s.title}`}>{record.title}</span>
              <span className={s.by}>
                {listed(record.designerNames)}
                {record.chartTitle !== record.title && `${record.designerNames.length > 0 ? ', ' : ''}in ${record.chartTitle}`}
              </span>
            </>
          ),
        },
        {
          key: 'stitches',
          head: (
            <>
              Stitches, to scale <OutlineScale longestStitches={longest} box={36} />
            </>
          ),
          width: '11rem',
          phone: 'hide',
          cell: ({ record }) => {
            const size = sizeOf(record.designId)
            return size ? (
              <span className={s.size}>
                <OutlineToScale widthStitches={size.width} heightStitches={size.height} longestStitches={longest} box={36} />
                <span className="nb">
                  {size.width} × {size.height}
                  {size.isEstimated && <small className={s.note}>estimated</small>}
                </span>
              </span>
            ) : (
              <span className="quiet">size not known</span>
            )
          },
        },
        {
          key: 'finished',
          head: unit === 'in' ? 'Inches as advised' : 'Centimetres as advised',
          isNumeric: true,
          width: '8rem',
          phone: 'side',
          cell: ({ record }) => {
            const design = factsOf(record.designId)?.design
            const size = sizeOf(record.designId)
            if (!design?.advised || !size) return null
            const { count, over } = design.advised
            const { widthUm, heightUm } = finishedSize({ ...size, ends: count, picks: count, over, isTurned: false })
            return formatClothSize({ widthUm: toHundredth(widthUm), heightUm: toHundredth(heightUm) }, unit).replace(
              / (?:in|cm)$/,
              '',
            )
          },
        },
        {
          key: 'themes',
          head: 'Subject and form',
          phone: 'hide',
          isOffPaper: true,
          cell: ({ record }) => {
            const names = (ids: readonly string[]) => ids.map((id) => world.themes.get(id)?.name ?? '').join(', ')
            return (
              <>
                {names(record.subjectIds)}
                <small className={s.note}>{[names(record.formIds), names(record.seasonIds)].filter(Boolean).join(', ')}</small>
              </>
            )
          },
        },
        {
          key: 'cloth',
          head: 'Cloth',
          phone: 'hide',
          cell: ({ record }) => {
            const choice = cloth.choiceFor(record.designId)
            return choice ? choiceSentence(choice, unit) : <span className="quiet">size not known</span>
          },
        },
        {
          key: 'place',
          head: 'Place',
          isAtEnd: true,
          width: '9rem',
          phone: 'side',
          cell: ({ record }) => {
            const home = world.places.get(record.homePlaceId ?? '')
            const current = world.places.get(record.currentPlaceId ?? record.homePlaceId ?? '')
            if (!current) return <span className="quiet">no place yet</span>
            return (
              <PlaceLabel
                label={current.label}
                href={`/places/${current.id}`}
                livesIn={home && home.id !== current.id ? home.label : undefined}
                note={
                  [
                    isChartWithSomebody({ ...record, currentKind: current.kind }) && 'chart out',
                    record.copies > 1 && counted(record.copies, 'copy'),
                  ]
                    .filter(Boolean)
                    .join(', ') || undefined
                }
              />
            )
          },
        },
      ]}
    />
  )
}

/** Finished sizes in a list are for comparing: hundredths of an inch are enough. */
const toHundredth = (um: number): number => Math.round(um / 254) * 254

const dimensions = (size: { width: number; height: number } | null): number[] => (size ? [size.width, size.height] : [0])

/** In the words one asks in: what can be begun, what wants how much. Rows come best covered first. */
function grouped(rows: readonly Row[]): Group<Row>[] {
  const groups = new Map<string, Row[]>()
  for (const row of rows) {
    const title = groupOf(row.answer)
    groups.set(title, [...(groups.get(title) ?? []), row])
  }
  return [...groups].map(([title, of]) => ({ key: title, title, note: `${counted(of.length, 'design')} on this page`, rows: of }))
}

function groupOf(answer: EngineListAnswer | null): string {
  if (!answer || answer.threadCount === 0) return 'Thread list not in yet'
  if (answer.isIncomplete) return 'Thread list not all in'
  if (answer.isStitchable) return 'Stitchable now'
  if (answer.isStitchableWithSwaps) return 'Stitchable with swaps'
  const putUps = answer.shortPutUps + answer.lotPutUps
  if (putUps === 0) return 'Nothing to buy, but something to bring back or measure'
  if (putUps === 1) return 'One put-up wanting'
  if (putUps === 2) return 'Two put-ups wanting'
  return 'More wanting'
}

/** So small that a blur of it would say nothing. */
const CoverThumb = ({ cover }: { cover: Cover | undefined }) =>
  cover && <Photo className={s.cover} file={cover.file} look={undefined} alt="" room={{ widthPx: 36, heightPx: 48 }} isCropped />
