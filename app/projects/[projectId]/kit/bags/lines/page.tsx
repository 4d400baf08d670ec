import type { Metadata } from 'next'
import { notFound } from 'next/navigation'
import { say } from '#language/say'
import { sayParts } from '#language/say-parts'
import { type KitBags, readKitBags } from '#lib/db/kit-bag/queries'
import type { MasterLine } from '#lib/project/kit/master-list'
import { isInRange } from '#lib/project/kit/record'
import { Empty } from '#ui/empty'
import { Link } from '#ui/link'
import { PageHead } from '#ui/page-head'
import { Section } from '#ui/section'
import { rememberedName } from '#viewer/remembered-name'
import { getViewer } from '#viewer/viewer'
import { bagStatusWords, lineName, perKitWords } from '#words/kit'
import s from '../bags.module.css'
import { CheckSheet } from '../check-sheet'
import { linesPageSchema } from '../schema'

type PageProps = {
  params: Promise<{ projectId: string }>
  searchParams: Promise<Record<string, string | string[] | undefined>>
}

export async function generateMetadata({ params }: PageProps): Promise<Metadata> {
  const kit = await readKitBags((await params).projectId)
  return { title: kit ? say('Check of {title}, line by line', { title: kit.project.title }) : say('Check') }
}

/** One line of the list through all the bags, then the next: for a table on which every bag lies open. */
export default async function KitLinesPage({ params, searchParams }: PageProps) {
  const { projectId } = await params
  const asked = linesPageSchema.parse(await searchParams)
  const [kit, name, { settings }] = await Promise.all([readKitBags(projectId), rememberedName(), getViewer()])
  if (!kit) notFound()
  const bags = kit.bags.filter(({ status }) => status === 'packed' || status === 'checked')
  const chosen = kit.master.lines.find(({ key }) => key === asked.line)
  const here = `/projects/${projectId}/kit/bags`
  const of = (key: string) => bags.filter(({ lines }) => lines.some((line) => line.key === key))
  const rows = chosen ? of(chosen.key) : []
  return (
    <>
      <PageHead
        title={say('Check, line by line')}
        crumbs={[
          { label: say('Projects'), href: '/projects' },
          { label: kit.project.title, href: `/projects/${projectId}` },
          { label: say('Bags'), href: here },
          { label: say('Line by line') },
        ]}
        byline={say('One line through every bag that is packed and not sealed, then the next.')}
      />
      {bags.length === 0 ? (
        <Empty title={say('No bag waits to be checked')}>
          {sayParts('Bags come here once they are packed. <link>Back to the bags</link>', {
            link: (words) => <Link href={here}>{words}</Link>,
          })}
        </Empty>
      ) : (
        <Section title={say('Lines')}>
          <ul className={s.lines}>
            {kit.master.lines.map((line) => {
              const own = of(line.key)
              const marks = own.flatMap((bag) => bag.marks.filter(({ key }) => key === line.key))
              const faults = marks.filter(({ status }) => status !== 'there').length
              return (
                <li key={line.key}>
                  <Link
                    href={`${here}/lines?line=${encodeURIComponent(line.key)}#bags`}
                    aria-current={line.key === chosen?.key ? 'true' : undefined}
                  >
                    {lineName(line)}
                  </Link>
                  <span>
                    {perKitWords(line, settings)} ·{' '}
                    {faults > 0 ? (
                      <span className="do">{say('{faults, plural, one {# bag} other {# bags}} short or wrong', { faults })}</span>
                    ) : (
                      say('{marks} of {own} looked for', { marks: marks.length, own: own.length })
                    )}
                  </span>
                </li>
              )
            })}
          </ul>
        </Section>
      )}
      {chosen && rows.length > 0 && (
        <Section title={lineName(chosen)} id="bags" note={say('{perKit} to a kit', { perKit: perKitWords(chosen, settings) })}>
          {/* Without a key the next line would show what was said of the one before. */}
          <CheckSheet
            key={chosen.key}
            projectId={projectId}
            rows={rows.map((bag) => ({
              ...{
                bag: bag.number,
                key: chosen.key,
                label: say('Bag {number}, {lineName}', { number: bag.number, lineName: lineName(chosen) }),
              },
              title: (
                <b>
                  {sayParts('Bag {number}{isSpare, select, yes {, spare} other {}}', {
                    number: bag.number,
                    isSpare: bag.isSpare,
                  })}
                </b>
              ),
              note: [bagStatusWords[bag.status], lotIn(kit, bag.number, chosen)].filter(Boolean).join(' · '),
              mark: bag.marks.find(({ key }) => key === chosen.key) ?? null,
            }))}
            name={name}
            allThere={say('There in every bag')}
            heard={say('Check of {lineName}', { lineName: lineName(chosen) })}
          />
        </Section>
      )}
    </>
  )
}

function lotIn({ lots }: KitBags, bag: number, line: MasterLine): string {
  if (line.kind !== 'thread') return ''
  const cut = lots.find((lot) => lot.threadId === line.threadId && isInRange(lot, bag))
  return cut?.lot ? say('lot {lot}', { lot: cut.lot }) : ''
}
