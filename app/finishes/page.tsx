import type { Metadata } from 'next'
import { thumbName } from '#lib/db/photo/photo-files'
import { type Finish, listFinishes, type YearOfFinishes } from '#lib/db/project/queries'
import { formatDate } from '#lib/quantity/date'
import { OutlineToScale } from '#trade/outline-to-scale'
import { PlaceLabel } from '#trade/place-label'
import { WorkName } from '#trade/work-name'
import { LinkButton } from '#ui/button'
import { Empty } from '#ui/empty'
import { Ledger } from '#ui/ledger'
import { PageHead } from '#ui/page-head'
import { Pager } from '#ui/pager'
import { PrintLine } from '#ui/print-line'
import { getViewer } from '#viewer/viewer'
import { counted, listed } from '#words/amounts'
import { hoursFigure } from '#words/hours'
import s from './finishes.module.css'
import { finishesPageSchema } from './schema'

export const metadata: Metadata = { title: 'Finishes' }

const perPage = 100

type FinishesPageProps = { searchParams: Promise<Record<string, string | string[] | undefined>> }

export default async function FinishesPage({ searchParams }: FinishesPageProps) {
  const [{ ownerIds, ownerName }, { page }] = await Promise.all([
    getViewer(),
    searchParams.then((params) => finishesPageSchema.parse(params)),
  ])
  const { rows, total, years } = await listFinishes({ ownerIds, page, perPage })
  const longest = Math.max(1, ...rows.flatMap((row) => [row.widthStitches ?? 0, row.heightStitches ?? 0]))
  const groups = years.flatMap((year) => {
    const members = rows.filter((row) => row.finishedOn?.startsWith(year.year))
    return members.length > 0 ? [{ key: year.year, title: year.year, note: yearSentence(year), rows: members }] : []
  })
  return (
    <>
      <PageHead
        title="Finishes"
        note={total > 0 && counted(total, 'finish')}
        byline={ownerName && `Made from the goods of ${ownerName}.`}
      />
      <PrintLine>Finishes of {ownerName}</PrintLine>
      {total === 0 ? (
        <Empty title="No finishes yet" actions={<LinkButton href="/projects">Projects</LinkButton>}>
          When a project is done, press “Finish it” on its page: date, hours, a photo and who has it are kept here, and what is
          left of thread and cloth goes back to its place.
        </Empty>
      ) : (
        <div className={s.list}>
          <Ledger
            caption="Finishes by year, newest first"
            groups={groups}
            rowKey={(row) => row.id}
            rowHref={(row) => `/projects/${row.id}`}
            columns={[
              {
                key: 'picture',
                head: 'Picture',
                headIsHidden: true,
                cell: (row) => <Picture row={row} longest={longest} />,
                phone: 'mark',
              },
              {
                key: 'what',
                head: 'What',
                cell: (row) => <WorkName title={row.design.title} quantity={row.quantity} note={listed(row.designers)} />,
                phone: 'lead',
              },
              {
                key: 'date',
                head: 'Finished',
                cell: ({ finishedOn }) => finishedOn && <span className="nb">{formatDate(finishedOn)}</span>,
                phone: 'line',
              },
              {
                key: 'stitches',
                head: 'Stitches',
                cell: ({ stitchesDone }) => stitchesDone > 0 && stitchesDone.toLocaleString('en-GB'),
                isNumeric: true,
                phone: 'labelled',
              },
              {
                key: 'hours',
                head: 'Hours',
                cell: ({ hoursTenths }) => hoursTenths > 0 && hoursFigure(hoursTenths),
                isNumeric: true,
                phone: 'labelled',
              },
              { key: 'finishing', head: 'Finishing', cell: ({ finishing }) => finishing, phone: 'line' },
              {
                key: 'where',
                head: 'Who has it',
                cell: ({ forWhom, place }) => (
                  <>
                    {forWhom && <span className={s.who}>{forWhom}</span>}
                    {place && <PlaceLabel label={place.label} />}
                  </>
                ),
                isAtEnd: true,
                phone: 'side',
              },
            ]}
          />
          {total > perPage && (
            <Pager
              page={page}
              pages={Math.ceil(total / perPage)}
              hrefForPage={(other) => `/finishes?page=${other}`}
              shown={`${rows.length} of ${counted(total, 'finish')}`}
            />
          )}
        </div>
      )}
    </>
  )
}

function Picture({ row, longest }: { row: Finish; longest: number }) {
  if (row.photoFile) {
    // biome-ignore lint/performance/noImgElement: kept photos come in two fixed sizes; nothing is to be optimised
    return <img className={s.photo} src={`/photos/${thumbName(row.photoFile)}`} alt="" loading="lazy" />
  }
  if (row.widthStitches === null || row.heightStitches === null) return null
  return <OutlineToScale widthStitches={row.widthStitches} heightStitches={row.heightStitches} longestStitches={longest} />
}

/** "7 pieces, 61,240 stitches and 312.5 hours". */
const yearSentence = ({ pieces, stitches, hoursTenths }: YearOfFinishes) =>
  listed([
    counted(pieces, 'piece'),
    ...(stitches > 0 ? [counted(stitches, 'stitch')] : []),
    ...(hoursTenths > 0 ? [`${hoursFigure(hoursTenths)} hours`] : []),
  ])
