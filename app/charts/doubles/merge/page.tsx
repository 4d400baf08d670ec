import type { Metadata } from 'next'
import { notFound } from 'next/navigation'
import { z } from 'zod'
import { formatDate } from '#language/day'
import { say } from '#language/say'
import { sayParts } from '#language/say-parts'
import { type MergedField, mayTakeBoth } from '#lib/chart/doubles-merged'
import { getAnswers } from '#lib/db/answers/get-answers'
import { findChart } from '#lib/db/chart/queries'
import { type ChartsPreview, type PreviewedChart, previewCharts } from '#lib/db/merging/preview-charts'
import { formatPrice } from '#lib/quantity/money'
import { LinkButton } from '#ui/button'
import { Empty } from '#ui/empty'
import { Facts } from '#ui/facts'
import { ChoiceField } from '#ui/field'
import { Form } from '#ui/form'
import { Ledger } from '#ui/ledger'
import { Notice } from '#ui/notice'
import { PageHead } from '#ui/page-head'
import { Section } from '#ui/section'
import { getViewer } from '#viewer/viewer'
import { listed } from '#words/amounts'
import { midSentence } from '#words/capital'
import { kindWords } from '../../../_charts/words'
import { mergeChartsAction } from '../../../_doubles/actions'
import { describeMergingRefusal, fieldWords } from '../../../_doubles/words'
import { FindBox } from '../../../_find/find-box'

export const generateMetadata = (): Metadata => ({ title: say('Make one chart of two') })

const idSchema = z.string().min(1).max(64).optional().catch(undefined)
const querySchema = z.object({ kept: idSchema, gone: idSchema, q: z.string().trim().max(200).catch('') })

type Props = { searchParams: Promise<Record<string, string | string[] | undefined>> }

const crumbs = () => [
  { label: say('Charts'), href: '/charts' },
  { label: say('Doubles'), href: '/charts/doubles' },
  { label: say('Make one of two') },
]

export default async function MergeChartsPage({ searchParams }: Props) {
  const { kept: keptId, gone: goneId, q } = querySchema.parse(await searchParams)
  if (!goneId) notFound()
  if (!keptId) return <ChooseOther goneId={goneId} words={q} />
  const preview = await previewCharts({ keptId, goneId })
  if (!preview) notFound()
  const { settings } = await getViewer()
  const { kept, gone, refusal, differing, filled, united, moved } = preview
  const isToChoose = differing.length > 0 || united.some(({ differs }) => differs)
  const said = (chart: PreviewedChart, field: MergedField) => saidWords(chart, field, settings.currency)
  return (
    <>
      <PageHead
        title={say('Make one chart of two')}
        crumbs={crumbs()}
        byline={sayParts('{title} goes up in {title2}. Nothing of either is lost, and it can be taken back.', {
          title: <span className="title">{gone.title}</span>,
          title2: <span className="title">{kept.title}</span>,
        })}
        actions={
          <LinkButton href={`/charts/doubles/merge?kept=${gone.id}&gone=${kept.id}`}>{say('Keep the other instead')}</LinkButton>
        }
      />
      {refusal && <Notice kind="caution" title={describeMergingRefusal(refusal)} />}
      <Section title={say('The two beside one another')}>
        <Ledger
          caption={say('What is on record of each')}
          rows={factRows(preview, settings.currency)}
          rowKey={({ label }) => label}
          isTight
          columns={[
            { key: 'what', head: say('What'), cell: ({ label }) => label, phone: 'lead', width: '12rem' },
            { key: 'kept', head: say('Is kept'), cell: (row) => row.kept || '–', phone: 'labelled' },
            { key: 'gone', head: say('Goes up in it'), cell: (row) => row.gone || '–', phone: 'labelled' },
          ]}
        />
      </Section>
      <Section title={say('What it will be')}>
        <Facts
          isStacked
          items={[
            {
              label: say('Copies'),
              value: say('{copies, plural, one {# copy} other {# copies}}, {copies2} and {copies3} added up', {
                copies: preview.copies,
                copies2: kept.copies,
                copies3: gone.copies,
              }),
            },
            ...(united.length > 0
              ? [
                  {
                    label: say('Become one'),
                    value: listed(
                      united.map(({ otherTitle, keptTitle }) =>
                        otherTitle === keptTitle ? keptTitle : say('{otherTitle} with {keptTitle}', { otherTitle, keptTitle }),
                      ),
                    ),
                  },
                ]
              : []),
            ...(moved.length > 0 ? [{ label: say('Go over as they are'), value: listed(moved) }] : []),
            ...(filled.length > 0
              ? [{ label: say('Taken from the other'), value: listed(filled.map((field) => midSentence(fieldWords[field]))) }]
              : []),
            ...(gone.projects > 0
              ? [{ label: say('Projects and finishes'), value: say('{projects} go along', { projects: gone.projects }) }]
              : []),
            ...(gone.openLoans > 0 ? [{ label: say('Lent'), value: say('what is lent stays on its loan') }] : []),
            {
              label: say('Found by'),
              value: say('both titles, {title} and {title2}', { title: kept.title, title2: gone.title }),
            },
          ]}
        />
      </Section>
      {!refusal && (
        <Section
          title={isToChoose ? say('Where they differ') : say('Make them one')}
          note={isToChoose && say('what the kept one says stands unless you choose')}
        >
          <Form
            action={mergeChartsAction}
            hidden={{
              keptId: kept.id,
              goneId: gone.id,
              keptVersion: String(kept.version),
              goneVersion: String(gone.version),
            }}
            submit={say('Make them one')}
            pending={say('Merging')}
            actions={<LinkButton href="/charts/doubles">{say('Leave them')}</LinkButton>}
          >
            {differing.map(({ field, unasked }) => (
              <ChoiceField
                key={field}
                name={`take ${field}`}
                label={fieldWords[field]}
                defaultValue={unasked}
                options={[
                  { value: 'kept', label: said(kept, field) },
                  { value: 'other', label: said(gone, field) },
                  ...(mayTakeBoth(field) ? [{ value: 'both', label: say('both') }] : []),
                ]}
              />
            ))}
            {united
              .filter(({ differs }) => differs)
              .map(({ otherId, otherTitle, keptTitle }) => (
                <ChoiceField
                  key={otherId}
                  name={`facts ${otherId}`}
                  label={say('Size, cloth and notes of {keptTitle}, where the two differ', { keptTitle })}
                  defaultValue="kept"
                  options={[
                    { value: 'kept', label: say('as the kept chart says') },
                    { value: 'other', label: say('as {otherTitle} says in the other', { otherTitle }) },
                  ]}
                />
              ))}
          </Form>
        </Section>
      )}
    </>
  )
}

function saidWords(chart: PreviewedChart, field: MergedField, currency: string): string {
  switch (field) {
    case 'title':
      return chart.title
    case 'designers':
      return listed(chart.designers)
    case 'kind':
      return midSentence(kindWords[chart.kind])
    case 'edition':
      return chart.edition ?? ''
    case 'parts':
      return chart.partsNeeded === 1
        ? ''
        : say('{partsHeld} of {partsNeeded}', { partsHeld: chart.partsHeld, partsNeeded: chart.partsNeeded })
    case 'place':
      return chart.homeLabel ?? chart.placeLabel ?? ''
    case 'boughtOn':
      return chart.boughtOn ? formatDate(chart.boughtOn) : ''
    case 'price':
      return chart.priceMinor === null ? '' : `${currency}${formatPrice(chart.priceMinor, null)}`
    case 'outOfPrint':
      return chart.isOutOfPrint ? say('out of print') : ''
    case 'cover':
      return chart.coverFile ? say('the picture of {title}', { title: chart.title }) : ''
    case 'note':
      return chart.note ?? ''
  }
}

function factRows({ kept, gone }: ChartsPreview, currency: string): { label: string; kept: string; gone: string }[] {
  const fields = Object.keys(fieldWords) as MergedField[]
  const rows = fields.map((field) => ({
    label: fieldWords[field],
    kept: saidWords(kept, field, currency),
    gone: saidWords(gone, field, currency),
  }))
  const more = [
    { label: say('Copies'), kept: String(kept.copies), gone: String(gone.copies) },
    {
      label: say('Designs'),
      kept: listed(kept.designs.map(({ title }) => title)),
      gone: listed(gone.designs.map(({ title }) => title)),
    },
    {
      label: say('Projects'),
      kept: kept.projects ? String(kept.projects) : '',
      gone: gone.projects ? String(gone.projects) : '',
    },
  ]
  return [...rows, ...more].filter((row) => row.kept !== '' || row.gone !== '')
}

/** Which chart is it the double of? */
async function ChooseOther({ goneId, words }: { goneId: string; words: string }) {
  const [gone, { world, search }] = await Promise.all([findChart(goneId), getAnswers()])
  if (!gone || gone.isGone) notFound()
  const found = new Map<string, { id: string; title: string; designers: string }>()
  for (const hit of words === '' ? [] : search.search(words, { limit: 40, noun: 'design' }).hits) {
    const facts = world.designs.get(hit.id.slice('design:'.length))
    const chartId = facts?.design.chartId
    if (!facts || !chartId || chartId === goneId || facts.ownerId !== gone.owner.id) continue
    const designers = listed(facts.designerIds.flatMap((id) => world.designers.get(id) ?? []))
    found.set(chartId, { id: chartId, title: facts.chartTitle, designers })
  }
  return (
    <>
      <PageHead
        title={say('What is {title} a double of?', { title: gone.title })}
        crumbs={crumbs()}
        byline={say('Look for the chart that is kept, among those of {name}.', { name: gone.owner.name })}
      />
      <FindBox
        words={words}
        isFocused
        at={`/charts/doubles/merge?gone=${goneId}`}
        label={say('Title or designer of the chart that is kept')}
        placeholder={say('rook, Stoat …')}
      />
      {words !== '' &&
        (found.size === 0 ? (
          <Empty title={say('No chart like that')}>{say('Try fewer words, or another spelling.')}</Empty>
        ) : (
          <Ledger
            caption={say('Charts like that')}
            rows={[...found.values()]}
            rowKey={({ id }) => id}
            rowHref={({ id }) => `/charts/doubles/merge?kept=${id}&gone=${goneId}`}
            columns={[
              { key: 'title', head: say('Chart'), cell: ({ title }) => <span className="title">{title}</span>, phone: 'lead' },
              { key: 'by', head: say('Designer'), cell: ({ designers }) => designers },
            ]}
          />
        ))}
    </>
  )
}
