import type { Metadata } from 'next'
import { notFound } from 'next/navigation'
import { type KitBags, readKitBags } from '#lib/db/kit-bag/queries'
import type { MasterLine } from '#lib/project/kit/master-list'
import { isInRange } from '#lib/project/kit/record'
import { Empty } from '#ui/empty'
import { Link } from '#ui/link'
import { PageHead } from '#ui/page-head'
import { Section } from '#ui/section'
import { rememberedName } from '#viewer/remembered-name'
import { getViewer } from '#viewer/viewer'
import { counted } from '#words/amounts'
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
  return { title: kit ? `Check of ${kit.project.title}, line by line` : 'Check' }
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
        title="Check, line by line"
        crumbs={[
          { label: 'Projects', href: '/projects' },
          { label: kit.project.title, href: `/projects/${projectId}` },
          { label: 'Bags', href: here },
          { label: 'Line by line' },
        ]}
        byline="One line through every bag that is packed and not sealed, then the next."
      />
      {bags.length === 0 ? (
        <Empty title="No bag waits to be checked">
          Bags come here once they are packed. <Link href={here}>Back to the bags</Link>
        </Empty>
      ) : (
        <Section title="Lines">
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
                      <span className="do">{counted(faults, 'bag')} short or wrong</span>
                    ) : (
                      `${marks.length} of ${own.length} looked for`
                    )}
                  </span>
                </li>
              )
            })}
          </ul>
        </Section>
      )}
      {chosen && rows.length > 0 && (
        <Section title={lineName(chosen)} id="bags" note={`${perKitWords(chosen, settings)} to a kit`}>
          {/* Without a key the next line would show what was said of the one before. */}
          <CheckSheet
            key={chosen.key}
            projectId={projectId}
            rows={rows.map((bag) => ({
              ...{ bag: bag.number, key: chosen.key, label: `Bag ${bag.number}, ${lineName(chosen)}` },
              title: (
                <b>
                  Bag {bag.number}
                  {bag.isSpare && ', spare'}
                </b>
              ),
              note: [bagStatusWords[bag.status], lotIn(kit, bag.number, chosen)].filter(Boolean).join(' · '),
              mark: bag.marks.find(({ key }) => key === chosen.key) ?? null,
            }))}
            name={name}
            allThere="There in every bag"
            heard={`Check of ${lineName(chosen)}`}
          />
        </Section>
      )}
    </>
  )
}

function lotIn({ lots }: KitBags, bag: number, line: MasterLine): string {
  if (line.kind !== 'thread') return ''
  const cut = lots.find((lot) => lot.threadId === line.threadId && isInRange(lot, bag))
  return cut?.lot ? `lot ${cut.lot}` : ''
}
