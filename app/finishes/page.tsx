import type { Metadata } from 'next'
import { formatDate } from '#language/day'
import { say } from '#language/say'
import { sayParts } from '#language/say-parts'
import { listUnframed } from '#lib/db/finish/list-unframed'
import { listFinishes } from '#lib/db/project/queries'
import { LinkButton } from '#ui/button'
import { Empty } from '#ui/empty'
import { Link } from '#ui/link'
import { PageHead } from '#ui/page-head'
import { Pager } from '#ui/pager'
import { PrintLine } from '#ui/print-line'
import { Section } from '#ui/section'
import { getViewer } from '#viewer/viewer'
import { counted, listed } from '#words/amounts'
import { calendarDay } from '#words/date'
import { yearParts } from '#words/finish'
import { Gallery, longestOf } from '../_finish/gallery'
import { finishesPageSchema } from './schema'
import { UnframedSection } from './unframed-section'

export const generateMetadata = (): Metadata => ({ title: say('Finishes') })

const perPage = 100

type FinishesPageProps = { searchParams: Promise<Record<string, string | string[] | undefined>> }

export default async function FinishesPage({ searchParams }: FinishesPageProps) {
  const [{ ownerIds, ownerName, settings }, { page }] = await Promise.all([
    getViewer(),
    searchParams.then((params) => finishesPageSchema.parse(params)),
  ])
  const [{ rows, total, years }, unframed] = await Promise.all([
    listFinishes({ ownerIds, page, perPage }),
    listUnframed(ownerIds),
  ])
  const longestStitches = longestOf(rows)
  return (
    <>
      <PageHead
        title={say('Finishes')}
        note={total > 0 && counted(total, 'finish')}
        byline={ownerName && say('Made from the goods of {ownerName}.', { ownerName })}
        actions={
          <>
            <LinkButton href="/finishes/plots">{say('In pictures')}</LinkButton>
            <LinkButton href="/week">{say('The week')}</LinkButton>
          </>
        }
      />
      <PrintLine>
        {sayParts('Finishes of {ownerName}, {calendarDay}', { ownerName, calendarDay: formatDate(calendarDay(new Date())) })}
      </PrintLine>
      {unframed.length > 0 && <UnframedSection unframed={unframed} currency={settings.currency} />}
      {total === 0 ? (
        <Empty title={say('No finishes yet')} actions={<LinkButton href="/projects">{say('Projects')}</LinkButton>}>
          {say(
            'When a project is done, press “Finish it” on its page: date, hours, a photo and who has it are kept here, and what is left of thread and cloth goes back to its place.',
          )}
        </Empty>
      ) : (
        years.map((year) => {
          const pieces = rows.filter(({ finishedOn }) => (finishedOn ?? '').startsWith(year.year))
          return (
            pieces.length > 0 && (
              <Section
                key={year.year}
                title={
                  year.year === '' ? say('Nobody wrote down when') : <Link href={`/finishes/${year.year}`}>{year.year}</Link>
                }
                note={listed(yearParts(year))}
              >
                <Gallery
                  label={
                    year.year === ''
                      ? say('Finished, nobody knows when')
                      : say('Finished in {year}, the latest first', { year: year.year })
                  }
                  longestStitches={longestStitches}
                  pieces={pieces.map(({ design, stitchesDone, ...piece }) => ({
                    ...piece,
                    ...{ title: design.title, stitches: stitchesDone },
                  }))}
                />
              </Section>
            )
          )
        })
      )}
      {total > perPage && (
        <Pager
          page={page}
          pages={Math.ceil(total / perPage)}
          hrefForPage={(other) => `/finishes?page=${other}`}
          shown={say('{rows} of {total, plural, one {# finish} other {# finishes}}', { rows: rows.length, total })}
        />
      )}
    </>
  )
}
