import type { Metadata } from 'next'
import { notFound } from 'next/navigation'
import { say } from '#language/say'
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

export const generateMetadata = (): Metadata => ({ title: say('Many charts changed') })

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
        crumbs={[{ label: say('Charts'), href: '/charts' }, { label: say('Chosen'), href: '/charts/bulk' }, { label: edit.what }]}
        byline={`${dayOf(edit.at)}${edit.who ? say(', by {who}', { who: edit.who }) : ''}.`}
        actions={<LinkButton href="/charts">{say('To the charts')}</LinkButton>}
      />
      {edit.isUndone ? (
        <Notice
          kind="done"
          title={say('Taken back: {takenBack, plural, one {# line} other {# lines}} as before.', { takenBack })}
        >
          {edit.left.length > 0 &&
            say('{left, plural, one {# line} other {# lines}} left alone, named below.', { left: edit.left.length })}
        </Notice>
      ) : (
        <Notice
          kind="done"
          title={say('Done: {steps, plural, one {# line} other {# lines}} changed.', { steps: edit.steps.length })}
          actions={
            <ConfirmDialog
              opener={say('Take it back')}
              title={say('Take back “{what}”?', { what: edit.what })}
              confirm={say('Take it back')}
              action={undoChartBulkAction}
              hidden={{ bulkEditId: edit.id }}
            >
              <p>{say('Everything is as it was before. What somebody changed since is left alone, and named.')}</p>
            </ConfirmDialog>
          }
        />
      )}
      {left.length > 0 && (
        <Section title={say('Left alone')} note={counted(edit.left.length, 'line')}>
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
        title={say('What changed')}
        note={
          edit.steps.length > shown.length
            ? say('The first {shown} of {steps, number}.', { shown: shown.length, steps: edit.steps.length })
            : undefined
        }
      >
        <LinesTable
          caption={say('{what}: before and after', { what: edit.what })}
          change={edit.change}
          names={names}
          groups={[{ key: 'all', rows: shown.map((step) => ({ ...step, note: null, isChanged: true })) }]}
        />
      </Section>
    </>
  )
}
