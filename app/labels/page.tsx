import type { Metadata } from 'next'
import { headers } from 'next/headers'
import { withDecimalMark } from '#language/figures'
import { say } from '#language/say'
import { listPlaceOptions } from '#lib/db/place/queries'
import { type Label, labelKey, labelNouns, labelText } from '#lib/label/label'
import { labelPages, sheetsFor } from '#lib/printing/label-pages'
import { labelSheets, tapeHeightsMm } from '#lib/printing/label-sheets'
import { LinkButton } from '#ui/button'
import { Empty } from '#ui/empty'
import { Form } from '#ui/form'
import { FormStrip, StripCheck, StripSelect, StripStep, StripText } from '#ui/form-strip'
import { Ledger } from '#ui/ledger'
import { Notice } from '#ui/notice'
import { PageHead } from '#ui/page-head'
import { Section } from '#ui/section'
import { getViewer } from '#viewer/viewer'
import { labelNounWords } from '#words/labels'
import { describeLabelRefusal, type ReadLabels, readLabels } from '../_labels/read-labels'
import { keepPrintedAction } from './actions'
import { choiceMeant } from './choice-meant'
import { LabelPreview, measure } from './label-preview'
import s from './labels.module.css'
import {
  baseOfRequest,
  choiceOf,
  isOnlyHere,
  type LabelsQuery,
  ontoOf,
  ownSheet,
  readBase,
  readLabelsQuery,
  stockOf,
  whichOf,
} from './labels-query'
import { describeStockRefusal, ownFieldWords } from './words'

export const generateMetadata = (): Metadata => ({ title: say('Labels') })

const rowsShown = 100
const tapesShown = 3

const stockOptions = () => [
  ...labelSheets.map(({ key, name }) => ({ value: key, label: withDecimalMark(name), group: say('Sheets') })),
  { value: ownSheet, label: say('Other sheets: type the sizes'), group: say('Sheets') },
  ...tapeHeightsMm.map((height) => ({
    value: `tape-${height}`,
    label: say('Tape, {height} mm high', { height }),
    group: say('Tape'),
  })),
]

type PageProps = { searchParams: Promise<Record<string, string | string[] | undefined>> }

export default async function LabelsPage({ searchParams }: PageProps) {
  const given = await searchParams
  const query = readLabelsQuery(given)
  const [{ settings, ownerIds, ownerName }, places, requestHeaders] = await Promise.all([
    getViewer(),
    listPlaceOptions(),
    headers(),
  ])
  const which = whichOf(query)
  const read = await readLabels({
    choice: await choiceMeant(query, ownerIds, settings.lengthUnit),
    which,
    ownerIds,
    unit: settings.lengthUnit,
  })
  const typedBase = query.base ?? baseOfRequest(requestHeaders)
  return (
    <>
      <PageHead
        title={say('Labels')}
        crumbs={[{ label: say('Places'), href: '/places' }, { label: say('Labels') }]}
        byline={say('Of all places, and of the things of {ownerName}.', { ownerName: ownerName || say('their owners') })}
      >
        {read.ok && <p>{countSentence(read.value)}</p>}
      </PageHead>
      <Choices query={query} places={places} which={which} base={typedBase} />
      {read.ok ? (
        <ToPrint read={read.value} query={query} search={searchOf(given)} typedBase={typedBase} />
      ) : (
        <Notice kind="refusal" title={say('No labels yet')}>
          {describeLabelRefusal(read.error)}
        </Notice>
      )}
    </>
  )
}

function countSentence({ count, changedCount }: ReadLabels): string {
  if (count === 0) return say('Nothing to label.')
  if (changedCount === 0) return say('{count, plural, one {# label} other {# labels}}, all as they were printed.', { count })
  return say('{changedCount, number} of {count, plural, one {# label} other {# labels}} new or changed since printing.', {
    changedCount,
    count,
  })
}

function searchOf(given: Record<string, string | string[] | undefined>): string {
  const search = new URLSearchParams()
  for (const [name, values] of Object.entries(given)) for (const value of [values ?? []].flat()) search.append(name, value)
  return search.toString()
}

type ChoicesProps = {
  query: LabelsQuery
  places: readonly { id: string; pathText: string }[]
  which: 'changed' | 'all'
  base: string
}

function Choices({ query, places, which, base }: ChoicesProps) {
  const choice = choiceOf(query)
  const onto = ontoOf(query)
  const isSheet = !onto.startsWith('tape-')
  const stockName = stockOptions().find(({ value }) => value === onto)?.label ?? onto
  const text = (name: keyof typeof ownFieldWords) => (
    <StripText key={name} name={name} label={ownFieldWords[name]} value={query[name]} />
  )
  return (
    <FormStrip
      action="/labels"
      label={say('Which labels, and on what')}
      summary={say('{isChanged, select, yes {What changed} other {All}}, on {stockName}', {
        isChanged: which === 'changed',
        stockName,
      })}
      hidden={{ ...(query.one && { one: query.one }), ...(query.chosen && { chosen: query.chosen }) }}
      clear={query.one || query.chosen ? { href: '/labels', label: say('Choose other labels') } : undefined}
      second={
        <>
          {query.chosen === null &&
            choice.kind === 'in-place' &&
            labelNouns.map((noun) => (
              <StripCheck
                key={noun}
                name="what"
                value={noun}
                label={labelNounWords[noun]}
                isChecked={choice.nouns.includes(noun)}
              />
            ))}
          {isSheet && (
            <>
              <StripStep
                name="start"
                label={say('Start at label')}
                unit={say('of the first sheet')}
                value={query.start}
                max={189}
                none="1"
              />
              <StripCheck
                name="trial"
                label={say('Draw their edges, for a trial on plain paper')}
                isChecked={query.trial !== null}
              />
            </>
          )}
        </>
      }
    >
      {query.chosen === null && choice.kind === 'in-place' && (
        <StripSelect
          name="place"
          label={say('Where')}
          value={query.place ?? ''}
          any={say('everywhere')}
          options={places.map(({ id, pathText }) => ({ value: id, label: pathText }))}
        />
      )}
      <StripSelect
        name="which"
        label={say('Which')}
        value={which}
        options={[
          { value: 'changed', label: say('only what is new or changed') },
          { value: 'all', label: say('all of them') },
        ]}
      />
      <StripSelect name="onto" label={say('Printed on')} value={onto} options={stockOptions()} />
      <StripText name="base" label={say('Codes lead to')} value={base} />
      {onto === ownSheet && (
        <>
          <StripSelect
            name="paper"
            label={say('Paper')}
            value={query.paper}
            options={[
              { value: 'a4', label: 'A4' },
              { value: 'letter', label: say('Letter') },
            ]}
          />
          {(['columns', 'rows', 'width', 'height', 'left', 'top', 'gapX', 'gapY'] as const).map(text)}
        </>
      )}
    </FormStrip>
  )
}

type ToPrintProps = { read: ReadLabels; query: LabelsQuery; search: string; typedBase: string }

function ToPrint({ read, query, search, typedBase }: ToPrintProps) {
  const { labels, count, printed, seen } = read
  if (labels.length === 0) {
    return count === 0 ? (
      <Empty title={say('Nothing to label')} actions={<LinkButton href="/places/new">{say('Write down a place')}</LinkButton>}>
        {say(
          'Nothing of that kind is there. Labels are made for places, threads, cloth, charts and projects once they are written down.',
        )}
      </Empty>
    ) : (
      <Empty title={say('Nothing changed')}>
        {say('Every label reads as it did when it was printed. Choose “all of them” to print them again.')}
      </Empty>
    )
  }
  const stock = stockOf(query)
  const base = readBase(typedBase)
  if (!stock.ok || base === null) {
    return (
      <Notice kind="refusal" title={say('These cannot be printed yet')}>
        {stock.ok ? say('Codes lead to an address such as http://192.168.1.20:4300.') : describeStockRefusal(stock.error)}
      </Notice>
    )
  }
  const isSheet = stock.value.kind === 'sheet'
  const onFirst =
    stock.value.kind === 'sheet' ? stock.value.sheet.columns * stock.value.sheet.rows - stock.value.startAt + 1 : tapesShown
  const sheets = stock.value.kind === 'sheet' ? sheetsFor(labels.length, stock.value.sheet, stock.value.startAt) : 0
  const { pages, withoutCode } = labelPages(labels.slice(0, onFirst), { stock: stock.value, base, hasOutlines: isSheet }, measure)
  return (
    <>
      <div className={s.acts}>
        <LinkButton kind="first" href={`/labels/labels.pdf?${search}`} target="_blank">
          {say('Print {labels, plural, one {# label} other {# labels}}{isSheet}', {
            labels: labels.length,
            isSheet: isSheet ? say(' on {sheets, plural, one {# sheet} other {# sheets}}', { sheets }) : '',
          })}
        </LinkButton>
        <Form action={keepPrintedAction} submit={say('They are printed')} submitKind="plain" hidden={{ search, seen }} />
      </div>
      <p className={`quiet ${s.note}`}>
        {say(
          'Print at actual size, not fitted to the page. Once they are on their places, say they are printed: from then on only what changed comes up here.',
        )}
      </p>
      {withoutCode > 0 && (
        <Notice kind="caution" title={say('No code on labels this small')}>
          {say('Its squares would come out too fine for a phone. The words are printed, as large as fits.')}
        </Notice>
      )}
      {withoutCode === 0 && isOnlyHere(base) && (
        <Notice kind="caution" title={say('The codes open on this machine only')}>
          {say(
            '{base} leads a phone to itself. Type the address others use for this machine on your network under “Codes lead to”.',
            { base },
          )}
        </Notice>
      )}
      <div className={s.columns}>
        <Section
          title={isSheet ? say('The first sheet') : say('The first labels')}
          note={isSheet && query.trial === null ? say('The edges are not printed.') : ''}
        >
          <div className={s.preview}>
            {pages.map((page, at) => (
              <LabelPreview
                key={labelKey(labels[at] as Label)}
                page={page}
                sentence={
                  isSheet
                    ? say('The first sheet, with {min, plural, one {# label} other {# labels}}.', {
                        min: Math.min(onFirst, labels.length),
                      })
                    : say('The label of {title}.', { title: labels[at]?.title })
                }
                widthRem={isSheet ? 30 : page.widthMm * 0.24}
              />
            ))}
          </div>
        </Section>
        <Section
          title={say('To print')}
          note={
            labels.length > rowsShown
              ? say('The first {rowsShown} of {labels, number}.', { rowsShown, labels: labels.length })
              : ''
          }
        >
          <Ledger
            caption={say('Labels to print')}
            rows={labels.slice(0, rowsShown)}
            rowKey={labelKey}
            isTight
            columns={[
              {
                key: 'label',
                head: say('Label'),
                cell: (label) => (
                  <>
                    <strong>{label.title}</strong> <small className="quiet">{label.note}</small>
                  </>
                ),
                phone: 'lead',
              },
              { key: 'before', head: say('Printed'), cell: (label) => beforeWords(label, printed), isAtEnd: true, phone: 'line' },
            ]}
          />
        </Section>
      </div>
    </>
  )
}

/** How a label stands against what was printed of it before. */
function beforeWords(label: Label, printed: ReadonlyMap<string, string>): string {
  const before = printed.get(labelKey(label))
  if (before === undefined) return say('never')
  if (before === labelText(label)) return say('as it reads now')
  return say('before: {split}', { split: before.split('\n').filter(Boolean).join(', ') })
}
