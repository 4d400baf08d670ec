import type { Metadata } from 'next'
import type { ImportChoices, ImportPreview, ImportRefused } from '#lib/db/importing/import-service'
import { previewImport } from '#lib/db/importing/preview-import'
import type { ImportKind } from '#lib/importing/fields'
import type { Mapping } from '#lib/importing/mapping'
import { type Separator, separators } from '#lib/importing/sniff-separator'
import { ButtonRow, LinkButton } from '#ui/button'
import { Facts } from '#ui/facts'
import { SelectField } from '#ui/field'
import { Form } from '#ui/form'
import { Link } from '#ui/link'
import { Notice } from '#ui/notice'
import { PageHead } from '#ui/page-head'
import { Section } from '#ui/section'
import { getViewer } from '#viewer/viewer'
import { counted, listed } from '#words/amounts'
import { bringInAction, readAsAction } from '../actions'
import { errandQuery, parseErrand, previewHref, type WaitingFile, writeChoices } from '../choices'
import { gatherRows } from '../gather-rows'
import {
  countedNoun,
  describeEncoding,
  describeFault,
  describeImportRefusal,
  describeNothingToDo,
  describeWarning,
  kindOptions,
  kindWords,
  separatorWords,
} from '../words'
import { FaultTable } from './fault-table'
import { MappingForm } from './mapping-form'
import s from './preview.module.css'
import { sampleValues } from './sample-values'

export const metadata: Metadata = { title: 'Bring in: preview' }

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
  const { encoding, encodingWarnings, headerRowNumber } = preview
  return (
    <>
      <PreviewHead title={preview.fileName} waiting={waiting} />
      <WhatWouldHappen preview={preview} waiting={waiting} />
      <div className={s.columns}>
        <HowItIsRead
          {...form}
          {...preview}
          note={`${describeEncoding(encoding, encodingWarnings)}; headings in row ${headerRowNumber}`}
        />
        <Faults preview={preview} />
      </div>
    </>
  )
}

function PreviewHead({ title, waiting }: { title: string; waiting: WaitingFile[] }) {
  return (
    <PageHead
      title={title}
      crumbs={[{ label: 'Bring in', href: '/bring-in' }, { label: title }]}
      byline={waiting.length > 0 ? `Then ${listed(waiting.map(({ fileName }) => fileName))}.` : undefined}
    />
  )
}

function WhatWouldHappen({ preview, waiting }: { preview: ImportPreview; waiting: WaitingFile[] }) {
  const { stagedId, kind, counts, rowCount, alsoMade } = preview
  const figure = (count: number) => count.toLocaleString('en-GB')
  const nothing = describeNothingToDo(counts)
  const [next, ...later] = waiting
  const leave = (
    <LinkButton href={next ? previewHref(next.stagedId, {}, later) : '/bring-in'}>
      {next ? `Leave it, on to ${next.fileName}` : 'Leave it'}
    </LinkButton>
  )
  return (
    <>
      <Facts
        items={[
          { label: kindWords[kind].title, value: counted(rowCount, 'row') },
          { label: 'New', value: figure(counts.added) },
          { label: 'Changed', value: figure(counts.changed) },
          { label: 'The same', value: figure(counts.same) },
          {
            label: 'Refused',
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
            submit={`Bring in ${counted(counts.added + counts.changed, 'row')}`}
            pending="Starting"
            hidden={hiddenErrand(stagedId, shownChoices(preview), waiting)}
            actions={leave}
            label="Bring in"
          >
            <p role="status">
              {counts.refused > 0
                ? `${counted(counts.refused, 'row')} cannot be brought in and would be left out. `
                : 'Every row can be brought in. '}
              Nothing is changed before you press the button, and it can be undone after.
            </p>
          </Form>
        )}
      </div>
      {!nothing && alsoMade.length > 0 && (
        <ul className={s.made} aria-label="Made besides the rows">
          {alsoMade.map(({ noun, count, names }) => (
            <li key={noun}>
              {countedNoun(count, noun)} new here
              {names.length > 0 && <span>: {listed(shortened(names, count))}</span>}
            </li>
          ))}
        </ul>
      )}
    </>
  )
}

function shortened(names: readonly string[], count: number): string[] {
  const shown = names.slice(0, 6)
  return count > shown.length ? [...shown, `${(count - shown.length).toLocaleString('en-GB')} more`] : shown
}

/** The choices behind what is on show, so that what is done is what was seen. */
const shownChoices = ({ kind, separator, mapping }: ImportPreview): ImportChoices => ({ kind, separator, mapping })

const hiddenErrand = (stagedId: string, choices: ImportChoices, waiting: WaitingFile[]): Record<string, string> => ({
  stagedId,
  read: writeChoices(choices),
  ...(waiting.length > 0 && { next: JSON.stringify(waiting.map((file) => [file.stagedId, file.fileName])) }),
})

type HowItIsReadProps = {
  stagedId: string
  separator: Separator
  headers: string[]
  sampleRows: string[][]
  mapping: Mapping
  isMappingRemembered?: boolean
  owners: string[]
  waiting: WaitingFile[]
  note?: string
}

function HowItIsRead(props: HowItIsReadProps) {
  const { stagedId, separator, headers, sampleRows, mapping, waiting } = props
  const taken = new Set(Object.values(mapping.columns))
  const unused = headers.filter((_, index) => !taken.has(index))
  const hidden = hiddenErrand(stagedId, {}, waiting)
  return (
    <Section title="How it is read" note={props.note}>
      <div className={s.readAs}>
        <ReadAsForm kind={mapping.kind} separator={separator} hidden={hidden} />
      </div>
      {props.isMappingRemembered && <p>A file with these headings was brought in before; this one is read the same way.</p>}
      <MappingForm
        key={JSON.stringify([separator, mapping])}
        mapping={mapping}
        separator={separator}
        headers={headers}
        samples={sampleValues(headers, sampleRows)}
        owners={props.owners}
        hidden={hidden}
      />
      <p className={s.unused}>
        {unused.length > 0
          ? `Columns of the file that are not taken: ${unused.join(', ')}.`
          : 'Every column of the file is taken.'}
      </p>
    </Section>
  )
}

type ReadAsFormProps = { kind: ImportKind | null; separator: Separator | null; hidden: Record<string, string> }

function ReadAsForm({ kind, separator, hidden }: ReadAsFormProps) {
  return (
    <Form
      key={`${kind} ${separator}`}
      action={readAsAction}
      submit="Look again"
      pending="Reading"
      submitKind="plain"
      isInline
      label="What the file is"
      hidden={hidden}
    >
      <SelectField
        name="kind"
        label="Its rows are"
        options={kindOptions}
        none={kind === null ? 'choose' : undefined}
        defaultValue={kind ?? ''}
      />
      <SelectField
        name="separator"
        label="Cells are parted by"
        options={separators.map((mark) => ({ value: mark, label: separatorWords[mark] }))}
        none={separator === null ? 'as it looks' : undefined}
        defaultValue={separator ?? ''}
      />
    </Form>
  )
}

type CannotPreviewProps = Pick<HowItIsReadProps, 'stagedId' | 'owners' | 'waiting'> & {
  refusal: ImportRefused
  choices: ImportChoices
}

/** Where a file cannot be previewed, for want of a kind or a column: what is needed to say so. Else why it cannot be read at all. */
function CannotPreview({ refusal, choices, ...form }: CannotPreviewProps) {
  const { stagedId, waiting } = form
  const fileName = refusal.kind === 'unknown-kind' || refusal.kind === 'mapping-incomplete' ? refusal.fileName : null
  const isForThePerson = fileName !== null
  return (
    <>
      <PreviewHead title={isForThePerson ? `Say how to read ${fileName}` : 'This file cannot be read'} waiting={waiting} />
      <Notice
        kind={isForThePerson ? 'caution' : 'refusal'}
        title={describeImportRefusal(refusal)}
        actions={<LinkButton href="/bring-in">Choose another file</LinkButton>}
      >
        Nothing was changed.
      </Notice>
      {refusal.kind === 'mapping-incomplete' ? (
        <HowItIsRead {...form} {...refusal} />
      ) : (
        (isForThePerson || choices.separator !== undefined) && (
          <Section
            title="How it is read"
            note={refusal.kind === 'unknown-kind' ? `Headings: ${refusal.headers.join(', ')}` : undefined}
          >
            <ReadAsForm
              kind={choices.kind ?? null}
              separator={choices.separator ?? null}
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
  const isCut = (shown: number, all: number) => (shown < all ? `the first ${shown} of ${all.toLocaleString('en-GB')}` : undefined)
  const toMend = `/bring-in/${stagedId}/refused${errandQuery({ stagedId: null, choices: shownChoices(preview), waiting: [] })}`
  return (
    <div>
      {errorCount > 0 && (
        <Section title={`${counted(counts.refused, 'row')} refused`} id="refused" note={isCut(errors.length, errorCount)}>
          <p className={s.mend}>
            <a href={toMend} download>
              Download these rows as CSV
            </a>{' '}
            to mend them and bring them in by themselves.
          </p>
          <FaultTable
            caption="Rows that are refused, and why"
            faults={gatherRows(errors).map(({ fault, rowNumbers }) => ({ rowNumbers, words: describeFault(fault, kind) }))}
          />
        </Section>
      )}
      {warningCount > 0 && (
        <Section title="Worth a look" note={isCut(warnings.length, warningCount) ?? 'these rows are brought in all the same'}>
          <FaultTable
            caption="Rows worth a look, and why"
            faults={gatherRows(warnings).map(({ fault, rowNumbers }) => ({ rowNumbers, words: describeWarning(fault, kind) }))}
          />
        </Section>
      )}
      {errorCount + warningCount === 0 && (
        <Section title="Nothing stands out">
          <p>
            No row is refused and none is doubtful. Look at the values beside each field, and at{' '}
            <Link href="/bring-in#kinds">the examples</Link> if in doubt.
          </p>
        </Section>
      )}
    </div>
  )
}
