import type { Metadata } from 'next'
import { notFound } from 'next/navigation'
import { say } from '#language/say'
import { findChartBulk, nameChartLines } from '#lib/db/chart-bulk/queries'
import { LinkButton } from '#ui/button'
import { PageHead } from '#ui/page-head'
import { Section } from '#ui/section'
import { counted } from '#words/amounts'
import { dayOf } from '#words/date'
import s from '../../../../_listing/bulk.module.css'
import { DoneNotice } from '../../../../_listing/done-notice'
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
  return (
    <>
      <PageHead
        title={edit.what}
        note={counted(edit.steps.length, 'line')}
        crumbs={[{ label: say('Charts'), href: '/charts' }, { label: say('Chosen'), href: '/charts/bulk' }, { label: edit.what }]}
        byline={`${dayOf(edit.at)}${edit.who ? say(', by {who}', { who: edit.who }) : ''}.`}
        actions={<LinkButton href="/charts">{say('To the charts')}</LinkButton>}
      />
      <DoneNotice edit={edit} undo={undoChartBulkAction} />
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
