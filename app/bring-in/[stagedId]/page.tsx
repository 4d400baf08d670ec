import type { Metadata } from 'next'
import { numberText } from '#language/figures'
import { say } from '#language/say'
import { sayParts } from '#language/say-parts'
import type { FirstRow, HowFound, ImportChoices, ImportPreview, ImportRefused } from '#lib/db/importing/import-service'
import { previewImport } from '#lib/db/importing/preview-import'
import type { ImportKind } from '#lib/importing/fields'
import { fileTitle } from '#lib/importing/file-title'
import { sheetLayouts } from '#lib/importing/layouts'
import type { Mapping, Reading } from '#lib/importing/mapping'
import { type Separator, separators } from '#lib/importing/sniff-separator'
import { ButtonRow, LinkButton } from '#ui/button'
import { Facts } from '#ui/facts'
import { FieldRow, SelectField } from '#ui/field'
import { Form } from '#ui/form'
import { Link } from '#ui/link'
import { Notice } from '#ui/notice'
import { PageHead } from '#ui/page-head'
import { Section } from '#ui/section'
import { Unfold } from '#ui/unfold'
import { getViewer } from '#viewer/viewer'
import { counted, listed } from '#words/amounts'
import { bringInAction, readAsAction } from '../actions'
import { errandQuery, nextHref, parseErrand, type WaitingFile, waitingTitle, writeChoices, writeWaiting } from '../choices'
import { gatherRows } from '../gather-rows'
import { describeImportRefusal } from '../refusal-words'
import { describeFault } from '../row-words'
import { describeWarning } from '../warning-words'
import {
  countedNoun,
  describeEncoding,
  describeNothingToDo,
  kindOptions,
  kindWords,
  layoutWords,
  saidFields,
  separatorWords,
} from '../words'
import { FaultTable } from './fault-table'
import { MappingForm } from './mapping-form'
import s from './preview.module.css'
import { sampleValues } from './sample-values'

export const generateMetadata = (): Metadata => ({ title: say('Bring in: preview') })

type PreviewPageProps = { params: Promise<{ stagedId: string }>; searchParams: Promise<Record<string, unknown>> }

export default async function PreviewPage({ params, searchParams }: PreviewPageProps) {
  const [{ stagedId }, search, viewer] = await Promise.all([params, searchParams, getViewer()])
  const { choices, waiting } = parseErrand(search)
  // Goods of nobody named are the first owner's, unless another was chosen to look at.
  const chosen = viewer.owners.find(({ id }, index) => index > 0 && viewer.ownerIds.length === 1 && id === viewer.ownerIds[0])
  const isAsked = choices.mapping !== undefined || choices.ownerName !== undefined || chosen === undefined
  const result = await previewImport(stagedId, isAsked ? choices : { ...choices, ownerName: chosen.name })
  const form = { stagedId, waiting, owners: viewer.owners.map(({ name }) => name) }
  if (!result.ok) return <CannotPreview {...form} refusal={result.error} choices={choices} />
  const preview = result.value
  return (
    <>
      <PreviewHead title={titleOf(preview)} waiting={waiting} />
      <WhatWouldHappen preview={preview} waiting={waiting} />
      <div className={s.columns}>
        <HowItIsRead {...form} {...preview} asked={{ ...choices.reading, ...choices.mapping?.reading }} />
        <Faults preview={preview} />
      </div>
    </>
  )
}

const titleOf = ({ fileName, found }: Pick<ImportPreview, 'fileName' | 'found'>): string =>
  fileTitle(fileName, found.sheetName, found.sheets?.length)

/** "UTF-8; headings in row 3", "Workbook (xlsx); a column for each drawer, labels in row 2". */
function noteOf({ encoding, encodingWarnings, layout, headerRowNumber, headerRows, hasMacros }: HowFound): string {
  const rows =
    headerRows === 2
      ? say('rows {headerRowNumber} and {headerRowNumber2}', { headerRowNumber, headerRowNumber2: headerRowNumber + 1 })
      : say('row {headerRowNumber}', { headerRowNumber })
  const where =
    layout === 'rows'
      ? say('headings in {rows}', { rows })
      : layout === 'drawer-rows'
        ? layoutWords[layout]
        : say('{layout}, labels in {rows}', { layout: layoutWords[layout], rows })
  return say('{describeEncoding}; {where}{hasMacros, select, yes {; its macros are left alone} other {}}', {
    describeEncoding: describeEncoding(encoding, encodingWarnings),
    where,
    hasMacros,
  })
}

function PreviewHead({ title, waiting }: { title: string; waiting: WaitingFile[] }) {
  return (
    <PageHead
      title={title}
      crumbs={[{ label: say('Bring in'), href: '/bring-in' }, { label: title }]}
      byline={
        waiting.length > 0
          ? say('Then {shortened}.', { shortened: listed(shortened(waiting.map(waitingTitle), waiting.length)) })
          : undefined
      }
    />
  )
}

function WhatWouldHappen({ preview, waiting }: { preview: ImportPreview; waiting: WaitingFile[] }) {
  const { stagedId, kind, counts, rowCount, alsoMade } = preview
  const figure = (count: number) => numberText(count)
  const nothing = describeNothingToDo(counts)
  const [next, ...later] = waiting
  const leave = (
    <LinkButton href={next ? nextHref([next, ...later]) : '/bring-in'}>
      {next ? say('Leave it, on to {waitingTitle}', { waitingTitle: waitingTitle(next) }) : say('Leave it')}
    </LinkButton>
  )
  return (
    <>
      <Facts
        items={[
          { label: kindWords[kind].title, value: counted(rowCount, 'row') },
          { label: say('New'), value: figure(counts.added) },
          { label: say('Changed'), value: figure(counts.changed) },
          { label: say('The same'), value: figure(counts.same) },
          {
            label: say('Refused'),
            value: counts.refused > 0 ? <a href="#refused">{figure(counts.refused)}</a> : '0',
          },
        ]}
      />
      <div className={s.act}>
        {nothing ? (
          <>
            <p role="status">{nothing}</p>
            <ButtonRow>{leave}</ButtonRow>
          </>
        ) : (
          <Form
            action={bringInAction}
            submit={say('Bring in {added, plural, one {# row} other {# rows}}', { added: counts.added + counts.changed })}
            pending={say('Starting')}
            hidden={hiddenErrand(stagedId, shownChoices(preview), waiting)}
            actions={leave}
            label={say('Bring in')}
          >
            <p role="status">
              {say('{rest}Nothing is changed before you press the button, and it can be undone after.', {
                rest:
                  counts.refused > 0
                    ? say('{refused, plural, one {# row} other {# rows}} cannot be brought in and would be left out. ', {
                        refused: counts.refused,
                      })
                    : say('Every row can be brought in. '),
              })}
            </p>
          </Form>
        )}
      </div>
      {!nothing && alsoMade.length > 0 && (
        <ul className={s.made} aria-label={say('Made besides the rows')}>
          {alsoMade.map(({ noun, count, names }) => (
            <li key={noun}>
              {sayParts('{countedNoun} new here{rest}', {
                countedNoun: countedNoun(count, noun),
                rest: names.length > 0 && <span>: {listed(shortened(names, count))}</span>,
              })}
            </li>
          ))}
        </ul>
      )}
    </>
  )
}

function shortened(names: readonly string[], count: number): string[] {
  const shown = names.slice(0, 6)
  return count > shown.length ? [...shown, say('{count, number} more', { count: count - shown.length })] : shown
}

/** The choices behind what is on show, so that what is done is what was seen. */
const shownChoices = ({ kind, found, mapping }: ImportPreview): ImportChoices => ({
  kind,
  ...(found.separator && { separator: found.separator }),
  mapping,
})

const hiddenErrand = (stagedId: string, choices: ImportChoices, waiting: WaitingFile[]): Record<string, string> => ({
  stagedId,
  read: writeChoices(choices),
  ...writeWaiting(waiting),
})

type HowItIsReadProps = {
  stagedId: string
  found: HowFound
  /** What of it the person chose; the rest was found. */
  asked: Reading
  headers: string[]
  sampleRows: string[][]
  mapping: Mapping
  isMappingRemembered?: boolean
  owners: string[]
  waiting: WaitingFile[]
}

function HowItIsRead(props: HowItIsReadProps) {
  const { stagedId, found, asked, headers, sampleRows, mapping, waiting } = props
  const taken = new Set(Object.values(mapping.columns))
  const unused = headers.filter((_, index) => !taken.has(index))
  const hidden = hiddenErrand(stagedId, {}, waiting)
  return (
    <Section title={say('How it is read')} note={noteOf(found)}>
      <div className={s.readAs}>
        <ReadAsForm kind={mapping.kind} found={found} asked={asked} hidden={hidden} />
      </div>
      {props.isMappingRemembered && (
        <p>{say('A file with these headings was brought in before; this one is read the same way.')}</p>
      )}
      <MappingForm
        key={JSON.stringify([found.separator, mapping])}
        mapping={mapping}
        fields={saidFields(mapping.kind)}
        separator={found.separator}
        headers={headers}
        samples={sampleValues(headers, sampleRows)}
        owners={props.owners}
        hidden={hidden}
      />
      <p className={s.unused}>
        {unused.length > 0
          ? say('Columns of the file that are not taken: {unused}.', { unused: unused.join(', ') })
          : say('Every column of the file is taken.')}
      </p>
    </Section>
  )
}

type ReadAsFormProps = {
  kind: ImportKind | null
  /** Null where the file could not be opened at all. */
  found: HowFound | null
  asked: Reading
  /** The mark chosen, where nothing was found. */
  separator?: Separator | undefined
  hidden: Record<string, string>
}

function ReadAsForm({ kind, found, asked, separator, hidden }: ReadAsFormProps) {
  const mark = found === null ? (separator ?? null) : found.separator
  const isText = found === null || found.sheets === null
  const isChosen = asked.layout !== undefined || asked.headerRowNumber !== undefined || asked.headerRows !== undefined
  return (
    <Form
      key={JSON.stringify([kind, mark, asked, found?.sheetName])}
      action={readAsAction}
      submit={say('Look again')}
      pending={say('Reading')}
      submitKind="plain"
      label={say('What the file is')}
      hidden={{ ...hidden, ...(found?.sheetName && { shownSheet: found.sheetName }) }}
    >
      <FieldRow>
        <SelectField
          name="kind"
          label={say('Its rows are')}
          options={kindOptions()}
          none={kind === null ? say('choose') : undefined}
          defaultValue={kind ?? ''}
        />
        {isText ? (
          <SelectField
            name="separator"
            label={say('Cells are parted by')}
            options={separators.map((mark) => ({ value: mark, label: separatorWords[mark] }))}
            none={mark === null ? say('as it looks') : undefined}
            defaultValue={mark ?? ''}
          />
        ) : (
          <SelectField
            name="sheet"
            label={say('Sheet')}
            options={(found.sheets ?? []).map(({ name, isHidden }) => ({
              value: name,
              label: isHidden ? say('{name} (hidden)', { name }) : name,
            }))}
            defaultValue={found.sheetName ?? ''}
          />
        )}
      </FieldRow>
      {found && (
        <Unfold label={say('Another layout, or other headings')} isOpenAtFirst={isChosen && !isAsFound(found, asked)}>
          <FieldRow>
            <SelectField
              name="layout"
              label={say('It is laid out as')}
              none={
                asked.layout === undefined
                  ? say('as it looks: {layout}', { layout: layoutWords[found.layout] })
                  : say('as it looks')
              }
              options={sheetLayouts.map((layout) => ({ value: layout, label: layoutWords[layout] }))}
              defaultValue={asked.layout ?? ''}
            />
            <SelectField
              name="headerRowNumber"
              label={say('Headings or labels in')}
              none={
                asked.headerRowNumber === undefined
                  ? say('as it looks: row {headerRowNumber}', { headerRowNumber: found.headerRowNumber })
                  : say('as it looks')
              }
              options={headingRows(found, asked).map(({ rowNumber, cells }) => ({
                value: String(rowNumber),
                label: say('row {rowNumber}: {cells}', { rowNumber, cells: cells.join(', ').slice(0, 60) }),
              }))}
              defaultValue={asked.headerRowNumber === undefined ? '' : String(asked.headerRowNumber)}
            />
            <SelectField
              name="headerRows"
              label={say('Headings take up')}
              none={
                asked.headerRows === undefined
                  ? say('as it looks: {headerRowsCase, select, yes {two rows} other {one row}}', {
                      headerRowsCase: found.headerRows === 2,
                    })
                  : say('as it looks')
              }
              options={[
                { value: '1', label: say('one row') },
                { value: '2', label: say('two rows, one under the other') },
              ]}
              defaultValue={asked.headerRows === undefined ? '' : String(asked.headerRows)}
            />
          </FieldRow>
        </Unfold>
      )}
    </Form>
  )
}

/** What was said is what would have been found: nothing to look at. */
const isAsFound = (found: HowFound, { layout = 'rows', headerRowNumber }: Reading): boolean =>
  layout === 'rows' && found.headerRows === 1 && found.firstRows[0]?.rowNumber === headerRowNumber

/** The first rows, and the one chosen where it is further down. */
const headingRows = ({ firstRows }: HowFound, { headerRowNumber }: Reading): FirstRow[] =>
  headerRowNumber === undefined || firstRows.some((row) => row.rowNumber === headerRowNumber)
    ? firstRows
    : [...firstRows, { rowNumber: headerRowNumber, cells: [] }]

type CannotPreviewProps = Pick<HowItIsReadProps, 'stagedId' | 'owners' | 'waiting'> & {
  refusal: ImportRefused
  choices: ImportChoices
}

/** Where a file cannot be previewed, for want of a kind or a column: what is needed to say so. Else why it cannot be read at all. */
function CannotPreview({ refusal, choices, ...form }: CannotPreviewProps) {
  const { stagedId, waiting } = form
  const asked = { ...choices.reading, ...choices.mapping?.reading }
  const fileName = refusal.kind === 'unknown-kind' || refusal.kind === 'mapping-incomplete' ? titleOf(refusal) : null
  const [next, ...later] = waiting
  const isForThePerson = fileName !== null
  return (
    <>
      <PreviewHead
        title={isForThePerson ? say('Say how to read {fileName}', { fileName }) : say('This file cannot be read')}
        waiting={waiting}
      />
      <Notice
        kind={isForThePerson ? 'caution' : 'refusal'}
        title={describeImportRefusal(refusal)}
        actions={
          next ? (
            <LinkButton href={nextHref([next, ...later])}>
              {sayParts('Leave it, on to {waitingTitle}', { waitingTitle: waitingTitle(next) })}
            </LinkButton>
          ) : (
            <LinkButton href="/bring-in">{say('Choose another file')}</LinkButton>
          )
        }
      >
        {say('Nothing was changed.')}
      </Notice>
      {refusal.kind === 'mapping-incomplete' ? (
        <HowItIsRead {...form} {...refusal} asked={asked} />
      ) : (
        (isForThePerson || choices.separator !== undefined || choices.reading !== undefined) && (
          <Section
            title={say('How it is read')}
            note={
              refusal.kind === 'unknown-kind' ? say('Headings: {headers}', { headers: refusal.headers.join(', ') }) : undefined
            }
          >
            <ReadAsForm
              kind={choices.kind ?? null}
              found={refusal.kind === 'unknown-kind' ? refusal.found : null}
              asked={asked}
              separator={choices.separator}
              hidden={hiddenErrand(stagedId, {}, waiting)}
            />
          </Section>
        )
      )}
    </>
  )
}

function Faults({ preview }: { preview: ImportPreview }) {
  const { stagedId, kind, counts, errors, errorCount, warnings, warningCount } = preview
  const { layout } = preview.found
  const isCut = (shown: number, all: number) =>
    shown < all ? say('the first {shown} of {all, number}', { shown, all }) : undefined
  const toMend = `/bring-in/${stagedId}/refused${errandQuery({ stagedId: null, choices: shownChoices(preview), waiting: [] })}`
  return (
    <div>
      {errorCount > 0 && (
        <Section
          title={say('{refused, plural, one {# row} other {# rows}} refused', { refused: counts.refused })}
          id="refused"
          note={isCut(errors.length, errorCount)}
        >
          <p className={s.mend}>
            {sayParts('<link>Download these rows as CSV</link> to mend them and bring them in by themselves.', {
              link: (words) => (
                <a href={toMend} download>
                  {words}
                </a>
              ),
            })}
          </p>
          <FaultTable
            caption={say('Rows that are refused, and why')}
            layout={layout}
            faults={gatherRows(errors).map(({ fault, rowNumbers }) => ({ rowNumbers, words: describeFault(fault, kind) }))}
          />
        </Section>
      )}
      {warningCount > 0 && (
        <Section
          title={say('Worth a look')}
          note={isCut(warnings.length, warningCount) ?? say('these rows are brought in all the same')}
        >
          <FaultTable
            caption={say('Rows worth a look, and why')}
            layout={layout}
            faults={gatherRows(warnings).map(({ fault, rowNumbers }) => ({ rowNumbers, words: describeWarning(fault, kind) }))}
          />
        </Section>
      )}
      {errorCount + warningCount === 0 && (
        <Section title={say('Nothing stands out')}>
          <p>
            {sayParts(
              'No row is refused and none is doubtful. Look at the values beside each field, and at <link>the examples</link> if in doubt.',
              { link: (words) => <Link href="/bring-in#kinds">{words}</Link> },
            )}
          </p>
        </Section>
      )}
    </div>
  )
}
