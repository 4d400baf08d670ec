import type { Metadata } from 'next'
import type { ImportListed } from '#lib/db/importing/import-service'
import { listImports } from '#lib/db/importing/imports'
import { type ImportKind, importKinds, listFields } from '#lib/importing/fields'
import { LinkButton } from '#ui/button'
import { Empty } from '#ui/empty'
import { FileField } from '#ui/field'
import { Form } from '#ui/form'
import { type Column, Ledger } from '#ui/ledger'
import { Link } from '#ui/link'
import { PageHead } from '#ui/page-head'
import { Section } from '#ui/section'
import { UnfoldButton } from '#ui/unfold'
import { UploadGuard } from '#ui/upload-guard'
import { momentWords } from '#words/date'
import { uploadAction } from './actions'
import s from './bring-in.module.css'
import { UndoImport } from './undo-import'
import { describeCounts, kindWords } from './words'

export const metadata: Metadata = { title: 'Bring in' }

const importsShown = 40
/** Older ones have mostly been built upon; they are undone from their own page. */
const undoShown = 6
const mostMegabytes = 50

export default async function BringInPage() {
  const imports = await listImports(importsShown)
  const lastDone = new Set(
    imports
      .filter(({ status }) => status === 'done')
      .slice(0, undoShown)
      .map(({ id }) => id),
  )
  return (
    <>
      <PageHead
        title="Bring in"
        byline="A workbook (xlsx), or a table saved as CSV, TSV or TXT. The file itself is not changed, and it stays on this machine."
        actions={<LinkButton href="/charts/read">Read a key, a PDF or a photo</LinkButton>}
      />
      <div className={s.upload}>
        <UploadGuard mostMegabytes={mostMegabytes}>
          <Form action={uploadAction} submit="Look at it" pending="Reading" label="Choose files">
            <FileField
              name="files"
              label="Files"
              hint="One or several; the sheets of a workbook come one after the other. Nothing is brought in yet: you see first what would happen."
              accept=".xlsx,.xlsm,application/vnd.openxmlformats-officedocument.spreadsheetml.sheet,.csv,.tsv,.tab,.txt,text/csv,text/tab-separated-values,text/plain"
              isMany
              isRequired
            />
          </Form>
        </UploadGuard>
        <p className={s.whole}>
          A whole collection that was taken out as an archive comes back under{' '}
          <Link href="/archive#bring-back">Everything in a file</Link>.
        </p>
      </div>
      <Section
        title="What can be brought in"
        id="kinds"
        note="One sheet holds one kind. Headings may have other names, in any order; or it may be a sheet of drawers, with the codes of the threads in them."
      >
        <Ledger
          caption="Kinds of file"
          rows={importKinds}
          rowKey={(kind) => kind}
          columns={kindColumns}
          under={(kind) => <FieldsOf kind={kind} />}
        />
      </Section>
      <Section title="Brought in so far">
        {imports.length === 0 ? (
          <Empty>Nothing yet. Every file brought in is listed here, and can be undone.</Empty>
        ) : (
          <Ledger caption="Imports, newest first" rows={imports} rowKey={({ id }) => id} columns={importColumns(lastDone)} />
        )}
      </Section>
    </>
  )
}

const kindColumns: Column<ImportKind>[] = [
  { key: 'kind', head: 'Kind', cell: (kind) => <b>{kindWords[kind].title}</b>, width: '9rem', phone: 'lead' },
  {
    key: 'tells',
    head: 'What it tells',
    cell: (kind) => (
      <>
        {kindWords[kind].tells} <span className="quiet">A row is {kindWords[kind].row}.</span>
      </>
    ),
    phone: 'wide',
  },
  {
    key: 'fields',
    head: 'Columns',
    cell: (kind) => <UnfoldButton label={`${kindWords[kind].title}: all columns`}>All columns</UnfoldButton>,
    width: '8rem',
    phone: 'line',
    isOffPaper: true,
  },
  {
    key: 'example',
    head: 'Example',
    cell: (kind) => (
      <a href={`/bring-in/examples/${kind}`} download>
        {kind}.csv
      </a>
    ),
    width: '7rem',
    phone: 'side',
  },
]

function FieldsOf({ kind }: { kind: ImportKind }) {
  return (
    <dl className={s.fields}>
      {listFields(kind).map(({ name, label, help, isRequired }) => (
        <div key={name}>
          <dt>
            {label}
            {isRequired && <span> needed</span>}
          </dt>
          <dd>{help}</dd>
        </div>
      ))}
    </dl>
  )
}

const importColumns = (lastDone: ReadonlySet<string>): Column<ImportListed>[] => [
  {
    key: 'file',
    head: 'File',
    cell: ({ id, fileName }) => <Link href={`/bring-in/results/${id}`}>{fileName}</Link>,
    phone: 'lead',
  },
  { key: 'kind', head: 'Kind', cell: ({ kind }) => kindWords[kind].title, width: '8rem' },
  {
    key: 'counts',
    head: 'Rows',
    cell: ({ addedCount, changedCount, sameCount, refusedCount, status }) => (
      <>
        {describeCounts({ added: addedCount, changed: changedCount, same: sameCount, refused: refusedCount })}
        {status === 'undone' && <span className="quiet"> (undone)</span>}
      </>
    ),
  },
  { key: 'at', head: 'When', cell: ({ at }) => <span className="nb">{momentWords(at)}</span>, width: '11rem' },
  {
    key: 'undo',
    head: 'Undo',
    headIsHidden: true,
    cell: (imported) => lastDone.has(imported.id) && <UndoImport imported={imported} openerKind="quiet" />,
    isAtEnd: true,
    width: '6rem',
    phone: 'side',
    isOffPaper: true,
  },
]
