import type { Metadata } from 'next'
import { notFound } from 'next/navigation'
import { z } from 'zod'
import { numberText } from '#language/figures'
import { say, sayings } from '#language/say'
import { sayParts } from '#language/say-parts'
import { type SharedListName, sharedLists } from '#lib/db/list/shared-thing'
import { Button, ButtonRow, LinkButton } from '#ui/button'
import { Empty } from '#ui/empty'
import { FormStrip, StripCheck, StripSelect, StripStep } from '#ui/form-strip'
import { type Column, Ledger } from '#ui/ledger'
import { PageHead } from '#ui/page-head'
import { PrintLine } from '#ui/print-line'
import { Section } from '#ui/section'
import { getViewer } from '#viewer/viewer'
import { counted } from '#words/amounts'
import { dayOf } from '#words/date'
import { listQuerySchema, mostKept } from '../../_lists/list-query'
import { groupsOf, type ListRow, listWords } from '../../_lists/list-rows'
import { readRows, saysPlaces } from '../../_lists/read-rows'
import s from '../lists.module.css'
import { TickAll } from '../tick-all'

/** More rows of one kind are not drawn; the file has them all. */
const rowsShown = 2_000

const pathSchema = z.object({ list: z.enum(sharedLists) })

type PageProps = { params: Promise<unknown>; searchParams: Promise<Record<string, unknown>> }

export async function generateMetadata({ params }: PageProps): Promise<Metadata> {
  const path = pathSchema.safeParse(await params)
  return { title: path.success ? listWords()[path.data.list].title : say('Lists to share') }
}

export default async function SharedListPage({ params, searchParams }: PageProps) {
  const path = pathSchema.safeParse(await params)
  if (!path.success) notFound()
  const { list } = path.data
  const choices = listQuerySchema.parse(await searchParams)
  const [rows, { ownerName }] = await Promise.all([readRows(list, choices), getViewer()])
  const { title, byline } = listWords()[list]
  const withPlaces = saysPlaces(list, choices)
  const search = new URLSearchParams({ keep: String(choices.keep), by: choices.by, ...(withPlaces && { places: '1' }) })
  const fileAs = (ending: 'csv' | 'xlsx' | 'pdf') => `/lists/${list}/list.${ending}?${search}`
  return (
    <>
      <PageHead title={title} crumbs={[{ label: say('Lists to share'), href: '/lists' }, { label: title }]} byline={byline}>
        <span className="no-print">
          {sayParts(
            'Tick what goes on it. From the stock of {ownerName}, whose name is not on it; nor is a price, a person, an address or a note.',
            { ownerName: ownerName || say('nobody yet') },
          )}
        </span>
      </PageHead>
      <PrintLine>
        {title}, {dayOf(new Date())}
      </PrintLine>
      {list === 'doubles' && (
        <div className="no-print">
          <FormStrip
            action="/lists/doubles"
            label={say('What is kept')}
            summary={say('{keep} of each thread kept', { keep: choices.keep })}
          >
            <StripStep
              name="keep"
              label={say('Of each thread keep')}
              unit={say('whole, free')}
              value={choices.keep}
              min={0}
              max={mostKept}
            />
          </FormStrip>
        </div>
      )}
      {list === 'stash' && (
        <div className="no-print">
          <FormStrip
            action="/lists/stash"
            label={say('What it says')}
            summary={withPlaces ? say('with places') : say('without places')}
          >
            <StripCheck name="places" label={say('Say where things live')} isChecked={withPlaces} />
          </FormStrip>
        </div>
      )}
      {list === 'guild' && (
        <div className="no-print">
          <FormStrip
            action="/lists/guild"
            label={say('How it is parted')}
            summary={choices.by === 'theme' ? say('by season, subject and form') : say('by designer')}
          >
            <StripSelect
              name="by"
              label={say('By')}
              value={choices.by}
              options={[
                { value: 'designer', label: say('designer') },
                { value: 'theme', label: say('season, subject and form') },
              ]}
            />
          </FormStrip>
        </div>
      )}
      {rows.length === 0 ? (
        <Empty title={emptyWords[list].title}>{emptyWords[list].said}</Empty>
      ) : (
        <form method="post" action={fileAs('csv')} className={s.form} aria-label={title}>
          {groupsOf(rows).map(({ group, rows: some }) => (
            <Rows
              key={group}
              title={group}
              rows={some}
              isTicked={!(list === 'doubles' && some[0]?.section === 'cloth')}
              saysCopies={list !== 'guild'}
              file={fileAs('csv')}
              {...{ withPlaces }}
            />
          ))}
          <div className="no-print">
            <ButtonRow>
              <Button type="submit" kind="first">
                {say('Download what is ticked (CSV)')}
              </Button>
              <Button type="submit" formAction={fileAs('xlsx')}>
                {say('as XLSX')}
              </Button>
              <Button type="submit" formAction={fileAs('pdf')}>
                {say('as PDF')}
              </Button>
            </ButtonRow>
            <p className={s.after}>{say('Printed, the page has only what is ticked.')}</p>
          </div>
        </form>
      )}
    </>
  )
}

const emptyWords: Record<SharedListName, { title: string; said: string }> = sayings({
  doubles: { title: 'Nothing is held twice', said: 'No chart has a second copy, and no thread is free beyond what is kept.' },
  wants: { title: 'Nothing is wanted', said: 'No project is short of anything, and nothing is below the least that is kept.' },
  guild: { title: 'No chart is held yet', said: 'Once charts are on record, they stand here by designer, or by theme.' },
  stash: { title: 'Nothing is held yet', said: 'Once threads, charts or cloth are on record, they stand here.' },
})

type RowsProps = {
  title: string
  rows: ListRow[]
  isTicked: boolean
  /** Whether how many copies there are is anybody else's business. */
  saysCopies: boolean
  withPlaces: boolean
  file: string
}

function Rows({ title, rows, isTicked, saysCopies, withPlaces, file }: RowsProps) {
  const section = rows[0]?.section
  const columns: Column<ListRow>[] = [
    {
      key: 'tick',
      head: say('On the list'),
      headIsHidden: true,
      cell: ({ key, title: named }) => (
        <label className={s.tick}>
          <input
            type="checkbox"
            name="row"
            value={key}
            defaultChecked={isTicked}
            aria-label={say('{named}: on the list', { named })}
          />
        </label>
      ),
      width: '3rem',
      phone: 'mark',
      isOffPaper: true,
    },
    { key: 'title', head: say('What'), cell: ({ title: named }) => <b>{named}</b>, phone: 'lead' },
    ...(section === 'chart' && rows.some(({ by }) => by !== title)
      ? [{ key: 'by', head: say('Designer'), cell: ({ by }: ListRow) => by, phone: 'line' as const }]
      : []),
    { key: 'details', head: say('Details'), cell: ({ details }) => <span className={s.details}>{details}</span>, phone: 'line' },
    // Of thread the details say how many; a piece of cloth is one.
    ...((section === 'chart' && saysCopies) || section === 'notion'
      ? [
          {
            key: 'many',
            head: section === 'chart' ? say('Copies') : say('How many'),
            cell: ({ many }: ListRow) => numberText(many),
            isNumeric: true,
            phone: 'side' as const,
          },
        ]
      : []),
    ...(withPlaces
      ? [{ key: 'place', head: say('Place'), cell: ({ place }: ListRow) => place ?? '', phone: 'labelled' as const }]
      : []),
  ]
  return (
    <Section
      title={title}
      note={<span className="no-print">{counted(rows.length, 'line')}</span>}
      actions={<TickAll title={title} />}
    >
      <Ledger caption={title} columns={columns} rows={rows.slice(0, rowsShown)} rowKey={({ key }) => key} isTight />
      {rows.length > rowsShown && (
        <p className={s.after}>
          {say('Only the first {rowsShown, number} are drawn.', { rowsShown })}{' '}
          <LinkButton href={file}>{say('The file has them all')}</LinkButton>
        </p>
      )}
    </Section>
  )
}
