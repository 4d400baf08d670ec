import type { Metadata } from 'next'
import { notFound } from 'next/navigation'
import { findChartBulk, nameChartLines } from '#lib/db/chart-bulk/queries'
import { LinkButton } from '#ui/button'
import { ConfirmDialog } from '#ui/confirm-dialog'
import { Notice } from '#ui/notice'
import { PageHead } from '#ui/page-head'
import { Section } from '#ui/section'
import { counted } from '#words/amounts'
import { dayOf } from '#words/date'
import s from '../../../../_listing/bulk.module.css'
import { undoChartBulkAction } from '../../actions'
import { ChartLineName, LinesTable } from '../../lines-table'
import { describeLeft } from '../../words'

export const metadata: Metadata = { title: 'Many charts changed' }

const linesShown = 300

export default async function ChartBulkDonePage({ params }: { params: Promise<{ bulkEditId: string }> }) {
  const { bulkEditId } = await params
  const edit = await findChartBulk(bulkEditId)
  if (!edit) notFound()
  const shown = edit.steps.slice(0, linesShown)
  const left = edit.left.slice(0, linesShown)
  const names = await nameChartLines([...shown, ...left])
  const takenBack = edit.steps.length - edit.left.length
  return (
    <>
      <PageHead
        title={edit.what}
        note={counted(edit.steps.length, 'line')}
        crumbs={[{ label: 'Charts', href: '/charts' }, { label: 'Chosen', href: '/charts/bulk' }, { label: edit.what }]}
        byline={`${dayOf(edit.at)}${edit.who ? `, by ${edit.who}` : ''}.`}
        actions={<LinkButton href="/charts">To the charts</LinkButton>}
      />
      {edit.isUndone ? (
        <Notice kind="done" title={`Taken back: ${counted(takenBack, 'line')} as before.`}>
          {edit.left.length > 0 && `${counted(edit.left.length, 'line')} left alone, named below.`}
        </Notice>
      ) : (
        <Notice
          kind="done"
          title={`Done: ${counted(edit.steps.length, 'line')} changed.`}
          actions={
            <ConfirmDialog
              opener="Take it back"
              title={`Take back “${edit.what}”?`}
              confirm="Take it back"
              action={undoChartBulkAction}
              hidden={{ bulkEditId: edit.id }}
            >
              <p>Everything is as it was before. What somebody changed since is left alone, and named.</p>
            </ConfirmDialog>
          }
        />
      )}
      {left.length > 0 && (
        <Section title="Left alone" note={counted(edit.left.length, 'line')}>
          <ul className={s.edits}>
            {left.map((one) => (
              <li key={one.id}>
                <ChartLineName line={one} names={names} />
                <span>{describeLeft(one)}</span>
              </li>
            ))}
          </ul>
        </Section>
      )}
      <Section
        title="What changed"
        note={
          edit.steps.length > shown.length
            ? `The first ${shown.length} of ${edit.steps.length.toLocaleString('en-GB')}.`
            : undefined
        }
      >
        <LinesTable
          caption={`${edit.what}: before and after`}
          change={edit.change}
          names={names}
          groups={[{ key: 'all', rows: shown.map((step) => ({ ...step, note: null, isChanged: true })) }]}
        />
      </Section>
    </>
  )
}
