import type { Metadata } from 'next'
import { numberText } from '#language/figures'
import { say } from '#language/say'
import { countHomed, type LineNames, nameLines } from '#lib/db/bulk-edit/name-lines'
import { mostThreads, previewBulkEdit } from '#lib/db/bulk-edit/read-bulk-edit'
import type { BulkLine } from '#lib/stock/plan-bulk-edit'
import { LinkButton } from '#ui/button'
import { Empty } from '#ui/empty'
import { Notice } from '#ui/notice'
import { PageHead } from '#ui/page-head'
import { Section } from '#ui/section'
import { getViewer } from '#viewer/viewer'
import { counted } from '#words/amounts'
import { DoItSection } from '../../../_listing/do-it-section'
import { readChoices } from '../../../_listing/thread-filter'
import { applyBulkEditAction } from '../actions'
import { listChosen } from '../chosen-threads'
import { LinesTable, type TableLine } from '../lines-table'
import { type Query, readBulkChoices, readChange, searchOf } from '../schema'
import { describeBulkRefusal, describeWhyNot } from '../words'

export const generateMetadata = (): Metadata => ({ title: say('What would change') })

/** More lines than these are counted and not shown. */
const linesShown = 300

export default async function BulkPreviewPage({ searchParams }: { searchParams: Promise<Query> }) {
  const query = await searchParams
  const { settings, ownerIds, owners } = await getViewer()
  const choices = readBulkChoices(query)
  const narrowing = Object.entries(readChoices(query)).filter(
    ([name, value]) => value !== '' && name !== 'page' && name !== 'order',
  )
  const back = `/threads/bulk?${choices.chosen === '' ? searchOf(Object.fromEntries(narrowing) as Query) : `chosen=${choices.chosen}`}`
  const asked = await readChange(choices, owners)
  if ('wrong' in asked) return <NotYet back={back} title={asked.wrong} />
  const threadIds = await listChosen(query, choices, ownerIds)
  if (threadIds.length === 0) return <NotYet back={back} title={say('No thread is ticked.')} />
  if (threadIds.length > mostThreads) {
    const refusal = { kind: 'too-many', count: threadIds.length, most: mostThreads } as const
    return <NotYet back={back} title={describeBulkRefusal(refusal)} />
  }

  const { plan, fingerprint } = await previewBulkEdit({ ...asked, threadIds, ownerIds })
  const of = (kind: BulkLine['outcome']['kind']) => plan.lines.filter(({ outcome }) => outcome.kind === kind)
  const [changes, refused, same] = [of('changes'), of('refused'), of('same')]
  const shown = [...refused, ...changes, ...same].slice(0, linesShown)
  const [names, homed] = await Promise.all([
    nameLines(shown),
    asked.change.kind === 'home'
      ? countHomed(asked.change.toPlaceId, [...new Set(changes.map(({ threadId }) => threadId))])
      : null,
  ])
  const group = (key: string, title: string, lines: readonly BulkLine[]) => ({
    key,
    title: `${title}: ${numberText(lines.length)}`,
    rows: lines.filter((line) => shown.includes(line)).map((line) => toTableLine(line, names)),
  })
  return (
    <>
      <PageHead
        title={asked.what}
        note={counted(threadIds.length, 'thread')}
        crumbs={[
          { label: say('Threads'), href: '/threads' },
          { label: say('Change many'), href: back },
          { label: say('Look first') },
        ]}
        byline={say('Nothing is written yet.')}
      >
        <p>
          {changes.length === 0
            ? say('Nothing would change.')
            : say('{changes, plural, one {# line} other {# lines}} would change', { changes: changes.length })}
          {changes.length > 0 && (refused.length > 0 ? say(', {refused} cannot', { refused: refused.length }) : '')}
          {changes.length > 0 && '.'}
        </p>
      </PageHead>
      {homed && homed.capacity !== null && homed.threads > homed.capacity && (
        <Notice
          kind="caution"
          title={say('That place holds {capacity}; {threads} different threads would live in it.', {
            capacity: homed.capacity,
            threads: homed.threads,
          })}
        >
          {say('It can be done all the same, if the rest has room beside it.')}
        </Notice>
      )}
      {changes.length > 0 ? (
        <DoItSection
          what={asked.what}
          action={applyBulkEditAction}
          changes={changes.length}
          hidden={{ search: searchOf(query), fingerprint }}
          back={back}
        />
      ) : (
        <Empty actions={<LinkButton href={back}>{say('Back to the list')}</LinkButton>}>
          {say('All is so already, or cannot be.')}
        </Empty>
      )}
      <Section
        title={say('Line by line')}
        note={
          plan.lines.length > shown.length
            ? say('The first {shown} of {lines}.', { shown: shown.length, lines: plan.lines.length })
            : undefined
        }
      >
        <LinesTable
          caption={say('{what}: before and after', { what: asked.what })}
          change={asked.change}
          names={names}
          unit={settings.threadUnit}
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

const toTableLine = ({ outcome, isOut, threadId, batchId, before }: BulkLine, names: LineNames): TableLine => ({
  threadId,
  batchId,
  before,
  isChanged: outcome.kind === 'changes',
  note:
    outcome.kind === 'refused'
      ? describeWhyNot(outcome.why)
      : isOut &&
        say('out in {currentLabel}, and stays there', {
          currentLabel: names.batches.get(batchId ?? '')?.currentLabel ?? say('another place'),
        }),
})

const NotYet = ({ back, title }: { back: string; title: string }) => (
  <>
    <PageHead
      title={say('What would change')}
      crumbs={[
        { label: say('Threads'), href: '/threads' },
        { label: say('Change many'), href: back },
        { label: say('Look first') },
      ]}
    />
    <Notice kind="refusal" title={title} actions={<LinkButton href={back}>{say('Back to the list')}</LinkButton>}>
      {say('Nothing was changed.')}
    </Notice>
  </>
)
