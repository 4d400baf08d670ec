import type { Metadata } from 'next'
import { numberText } from '#language/figures'
import { say } from '#language/say'
import type { ChartBulkLine } from '#lib/chart/plan-chart-bulk'
import { getAnswers } from '#lib/db/answers/get-answers'
import { nameChartLines } from '#lib/db/chart-bulk/queries'
import { mostDesigns, previewChartBulk } from '#lib/db/chart-bulk/read-chart-bulk'
import { LinkButton } from '#ui/button'
import { Empty } from '#ui/empty'
import { Notice } from '#ui/notice'
import { PageHead } from '#ui/page-head'
import { Section } from '#ui/section'
import { getViewer } from '#viewer/viewer'
import { counted } from '#words/amounts'
import { chosenDesigns } from '../../../_listing/chosen-designs'
import { DoItSection } from '../../../_listing/do-it-section'
import { applyChartBulkAction } from '../actions'
import { type ChartTableLine, LinesTable } from '../lines-table'
import { type Query, readAsked, readChange } from '../schema'
import { describeBulkRefusal, describeWhyNot } from '../words'

export const generateMetadata = (): Metadata => ({ title: say('What would change') })

/** More lines than these are counted and not shown. */
const linesShown = 300

export default async function ChartBulkPreviewPage({ searchParams }: { searchParams: Promise<Query> }) {
  const query = await searchParams
  const asked = readAsked(query)
  const [{ ownerIds, owners }, answers] = await Promise.all([getViewer(), getAnswers()])
  const back = `/charts/bulk?chosen=${asked.chosen}`
  const read = await readChange(asked, owners, answers)
  if ('wrong' in read) return <NotYet back={back} title={read.wrong} />
  const chosen = await chosenDesigns(answers, asked.chosen, ownerIds)
  if (!chosen) return <NotYet back="/charts" title={say('What was chosen is no longer kept. Choose again.')} />
  if (chosen.designIds.length > mostDesigns) {
    const refusal = { kind: 'too-many', count: chosen.designIds.length, most: mostDesigns } as const
    return <NotYet back={back} title={describeBulkRefusal(refusal)} />
  }
  const { change, what } = read
  const { lines, fingerprint } = await previewChartBulk({ change, designIds: chosen.designIds })
  const of = (kind: ChartBulkLine['outcome']['kind']) => lines.filter(({ outcome }) => outcome.kind === kind)
  const [changes, refused, same] = [of('changes'), of('refused'), of('same')]
  const shown = new Set([...refused, ...changes, ...same].slice(0, linesShown))
  const names = await nameChartLines([...shown])
  const group = (key: string, title: string, some: readonly ChartBulkLine[]) => ({
    key,
    title: `${title}: ${numberText(some.length)}`,
    rows: some.filter((line) => shown.has(line)).map(toTableLine),
  })
  const search = new URLSearchParams(
    Object.entries(query).flatMap(([name, value]) => [value ?? []].flat().map((one): [string, string] => [name, one])),
  )
  return (
    <>
      <PageHead
        title={what}
        note={counted(chosen.designIds.length, 'design')}
        crumbs={[{ label: say('Charts'), href: '/charts' }, { label: say('Chosen'), href: back }, { label: say('Look first') }]}
        byline={say('Nothing is written yet.')}
      >
        <p>{sentenceOf(changes.length, refused.length)}</p>
      </PageHead>
      {changes.length > 0 ? (
        <DoItSection
          what={what}
          action={applyChartBulkAction}
          changes={changes.length}
          hidden={{ search: String(search), fingerprint }}
          back={back}
        />
      ) : (
        <Empty actions={<LinkButton href={back}>{say('Back to what was chosen')}</LinkButton>}>
          {say('All is so already, or cannot be.')}
        </Empty>
      )}
      <Section
        title={say('Line by line')}
        note={
          lines.length > shown.size
            ? say('The first {shown} of {lines, number}.', { shown: shown.size, lines: lines.length })
            : undefined
        }
      >
        <LinesTable
          caption={say('{what}: before and after', { what })}
          change={change}
          names={names}
          groups={[
            group('refused', say('Cannot'), refused),
            group('changes', say('Would change'), changes),
            group('same', say('So already'), same),
          ].filter(({ rows }) => rows.length > 0)}
        />
      </Section>
    </>
  )
}

function sentenceOf(changes: number, refused: number): string {
  if (changes === 0) return say('Nothing would change.')
  const would = say('{changes, plural, one {# line} other {# lines}} would change', { changes })
  return refused === 0 ? `${would}.` : say('{would}, {refused, number} cannot.', { would, refused })
}

const toTableLine = ({ outcome, isOut, before, ...line }: ChartBulkLine): ChartTableLine => ({
  ...line,
  before,
  isChanged: outcome.kind === 'changes',
  note: outcome.kind === 'refused' ? describeWhyNot(outcome.why) : isOut && say('out, and stays where it is'),
})

const NotYet = ({ back, title }: { back: string; title: string }) => (
  <>
    <PageHead
      title={say('What would change')}
      crumbs={[{ label: say('Charts'), href: '/charts' }, { label: say('Chosen'), href: back }, { label: say('Look first') }]}
    />
    <Notice kind="refusal" title={title} actions={<LinkButton href={back}>{say('Back')}</LinkButton>}>
      {say('Nothing was changed.')}
    </Notice>
  </>
)
