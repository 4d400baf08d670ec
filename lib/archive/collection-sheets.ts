import type { LengthUnit } from '#lib/quantity/cloth-length'
import { formatCount } from '#lib/quantity/count'
import { formatThreadLength, type ThreadLengthUnit } from '#lib/quantity/thread-length'
import { dayColumn, numberColumn, type Sheet, sheetFrom, textColumn } from './sheet'
import type { ChartRow, ClothRow, NotionRow, PlaceRow, ProjectRow, ThreadRow } from './sheet-rows'

export type SheetUnits = { lengthUnit: LengthUnit; threadUnit: ThreadLengthUnit }

const listed = (names: readonly string[]): string => names.join('; ')
const yesNo = (is: boolean): string => (is ? 'yes' : 'no')
const umIn = { in: 25_400, cm: 10_000 } as const
const hundredths = (value: number): number => Math.round(value * 100) / 100
const priced = (minor: number | null): number | null => (minor === null ? null : minor / 100)

const partWords = (part: ThreadRow['part'], unit: ThreadLengthUnit): string | null => {
  if (part.kind === 'none') return null
  if (part.kind === 'some') return 'some'
  const length = formatThreadLength(part.tenths, unit)
  return part.kind === 'label' ? length : part.kind === 'guess' ? `about ${length}` : `${length}, measured`
}

export const threadSheet = (rows: readonly ThreadRow[], { threadUnit }: SheetUnits): Sheet =>
  sheetFrom(
    'Threads',
    [
      textColumn<ThreadRow>('Maker', 16, ({ maker }) => maker),
      textColumn<ThreadRow>('Line', 20, ({ line }) => line),
      textColumn<ThreadRow>('Code', 10, ({ code }) => code),
      textColumn<ThreadRow>('Name', 24, ({ name }) => name),
      textColumn<ThreadRow>('Lot', 10, ({ lot }) => lot),
      numberColumn<ThreadRow>('Whole', 'whole', ({ wholePutUps }) => wholePutUps),
      textColumn<ThreadRow>('Of what', 9, ({ putUpWord }) => putUpWord),
      textColumn<ThreadRow>('Part', 18, ({ part }) => partWords(part, threadUnit)),
      textColumn<ThreadRow>('Owner', 22, ({ owner }) => owner),
      textColumn<ThreadRow>('Lives in', 12, ({ place }) => place),
      textColumn<ThreadRow>('Now at', 12, ({ nowAt }) => nowAt),
      textColumn<ThreadRow>('Fibre', 10, ({ fibre }) => fibre),
      numberColumn<ThreadRow>('Strands', 'whole', ({ strands }) => strands),
      textColumn<ThreadRow>('One whole is', 13, ({ putUpTenths }) => formatThreadLength(putUpTenths, threadUnit)),
      textColumn<ThreadRow>('Dyed', 11, ({ dyeing }) => dyeing),
      numberColumn<ThreadRow>('Least kept', 'whole', ({ minimum }) => minimum),
      textColumn<ThreadRow>('Note', 40, ({ note }) => note),
    ],
    rows,
  )

export const chartSheet = (rows: readonly ChartRow[], { lengthUnit }: SheetUnits): Sheet =>
  sheetFrom(
    'Charts',
    [
      textColumn<ChartRow>('Chart', 34, ({ chart }) => chart),
      textColumn<ChartRow>('Design', 34, ({ design, chart }) => (design === chart ? null : design)),
      textColumn<ChartRow>('Designer', 24, ({ designers }) => listed(designers)),
      textColumn<ChartRow>('Kind', 10, ({ kind }) => kind),
      textColumn<ChartRow>('Owner', 22, ({ owner }) => owner),
      textColumn<ChartRow>('Lives in', 12, ({ place }) => place),
      textColumn<ChartRow>('Now at', 12, ({ nowAt }) => nowAt),
      numberColumn<ChartRow>('Copies', 'whole', ({ copies }) => copies),
      numberColumn<ChartRow>('Stitches across', 'whole', ({ size }) => (size && 'stitches' in size ? size.stitches[0] : null)),
      numberColumn<ChartRow>('Stitches up', 'whole', ({ size }) => (size && 'stitches' in size ? size.stitches[1] : null)),
      textColumn<ChartRow>('Ruled size', 16, ({ size }) =>
        size && 'um' in size ? `${size.um.map((um) => hundredths(um / umIn[lengthUnit])).join(' × ')} ${lengthUnit}` : null,
      ),
      textColumn<ChartRow>('Count', 16, ({ advised }) =>
        advised ? `${formatCount(advised.count, advised.count)} over ${advised.over}` : null,
      ),
      textColumn<ChartRow>('Cloth', 22, ({ cloth }) => cloth),
      textColumn<ChartRow>('Season', 16, ({ seasons }) => listed(seasons)),
      textColumn<ChartRow>('Subject', 22, ({ subjects }) => listed(subjects)),
      textColumn<ChartRow>('Form', 16, ({ forms }) => listed(forms)),
      textColumn<ChartRow>('Parts', 9, ({ partsHeld, partsNeeded }) =>
        partsNeeded > 1 ? `${partsHeld} of ${partsNeeded}` : null,
      ),
      dayColumn<ChartRow>('Bought', ({ boughtOn }) => boughtOn),
      numberColumn<ChartRow>('Price', 'money', ({ priceMinor }) => priced(priceMinor)),
      textColumn<ChartRow>('Note', 40, ({ note }) => note),
    ],
    rows,
  )

export const clothSheet = (rows: readonly ClothRow[], { lengthUnit }: SheetUnits): Sheet =>
  sheetFrom(
    'Cloth',
    [
      textColumn<ClothRow>('Cloth', 26, ({ name }) => name),
      textColumn<ClothRow>('Colour', 18, ({ colour }) => colour),
      textColumn<ClothRow>('Label', 10, ({ label }) => label),
      textColumn<ClothRow>('Maker', 16, ({ maker }) => maker),
      textColumn<ClothRow>('Weave', 9, ({ weave }) => weave),
      textColumn<ClothRow>('Count', 18, ({ ends, picks }) => formatCount(ends, picks)),
      numberColumn<ClothRow>(`Width (${lengthUnit})`, 'decimal', ({ widthUm }) => hundredths(widthUm / umIn[lengthUnit])),
      numberColumn<ClothRow>(`Height (${lengthUnit})`, 'decimal', ({ heightUm }) => hundredths(heightUm / umIn[lengthUnit])),
      textColumn<ClothRow>('Squared', 9, ({ isSquared }) => yesNo(isSquared)),
      textColumn<ClothRow>('May turn', 9, ({ isTurnable }) => yesNo(isTurnable)),
      textColumn<ClothRow>('Dyed', 11, ({ dyeing }) => dyeing),
      textColumn<ClothRow>('Owner', 22, ({ owner }) => owner),
      textColumn<ClothRow>('Lives in', 12, ({ place }) => place),
      textColumn<ClothRow>('Now at', 12, ({ nowAt }) => nowAt),
      numberColumn<ClothRow>('Price', 'money', ({ priceMinor }) => priced(priceMinor)),
      textColumn<ClothRow>('Note', 40, ({ note }) => note),
    ],
    rows,
  )

export const placeSheet = (rows: readonly PlaceRow[]): Sheet =>
  sheetFrom(
    'Places',
    [
      textColumn<PlaceRow>('Label', 14, ({ label }) => label),
      textColumn<PlaceRow>('Kind', 14, ({ kind }) => kind),
      textColumn<PlaceRow>('Name', 30, ({ name }) => name),
      textColumn<PlaceRow>('Inside', 14, ({ inside }) => inside),
      numberColumn<PlaceRow>('Holds', 'whole', ({ capacity }) => capacity),
      textColumn<PlaceRow>('Note', 40, ({ note }) => note),
    ],
    rows,
  )

export const notionSheet = (rows: readonly NotionRow[]): Sheet =>
  sheetFrom(
    'Notions',
    [
      textColumn<NotionRow>('Kind', 14, ({ kind }) => kind),
      textColumn<NotionRow>('Name', 30, ({ name }) => name),
      textColumn<NotionRow>('Size', 14, ({ size }) => size),
      numberColumn<NotionRow>('How many', 'whole', ({ count }) => count),
      numberColumn<NotionRow>('Least kept', 'whole', ({ minimum }) => minimum),
      numberColumn<NotionRow>('Pack of', 'whole', ({ packOf }) => packOf),
      textColumn<NotionRow>('Owner', 22, ({ owner }) => owner),
      textColumn<NotionRow>('Lives in', 12, ({ place }) => place),
      textColumn<NotionRow>('Now at', 12, ({ nowAt }) => nowAt),
      numberColumn<NotionRow>('Price', 'money', ({ priceMinor }) => priced(priceMinor)),
      textColumn<NotionRow>('Note', 40, ({ note }) => note),
    ],
    rows,
  )

const projectColumns = [
  textColumn<ProjectRow>('Design', 34, ({ design }) => design),
  textColumn<ProjectRow>('Chart', 34, ({ chart, design }) => (chart === design ? null : chart)),
  textColumn<ProjectRow>('Designer', 24, ({ designers }) => listed(designers)),
  textColumn<ProjectRow>('Status', 12, ({ status }) => status),
  numberColumn<ProjectRow>('How many', 'whole', ({ quantity, spares }) => quantity - spares),
  numberColumn<ProjectRow>('Spares', 'whole', ({ spares }) => spares || null),
  textColumn<ProjectRow>('Owner', 22, ({ owner }) => owner),
  textColumn<ProjectRow>('For', 22, ({ forWhom }) => forWhom),
  textColumn<ProjectRow>('Place', 12, ({ place }) => place),
  textColumn<ProjectRow>('Cloth', 10, ({ cloth }) => cloth),
  dayColumn<ProjectRow>('Begun', ({ startedOn }) => startedOn),
  dayColumn<ProjectRow>('Due', ({ dueOn }) => dueOn),
  dayColumn<ProjectRow>('Finished', ({ finishedOn }) => finishedOn),
  numberColumn<ProjectRow>('Hours', 'decimal', ({ hoursTenths }) => hoursTenths / 10),
  numberColumn<ProjectRow>('Stitches', 'whole', ({ stitchesDone }) => stitchesDone),
  textColumn<ProjectRow>('Made up as', 18, ({ finishing }) => finishing),
  textColumn<ProjectRow>('Note', 40, ({ note }) => note),
]
const finishLeavesOut = new Set(['Status', 'Due', 'Place'])

export const projectSheet = (rows: readonly ProjectRow[]): Sheet => sheetFrom('Projects', projectColumns, rows)

/** What is finished, the latest first. */
export const finishSheet = (rows: readonly ProjectRow[]): Sheet =>
  sheetFrom(
    'Finishes',
    projectColumns.filter(({ head }) => !finishLeavesOut.has(head)),
    rows
      .filter(({ status }) => status === 'finished')
      .sort((left, right) => (right.finishedOn ?? '').localeCompare(left.finishedOn ?? '')),
  )
