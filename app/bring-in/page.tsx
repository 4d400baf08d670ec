import type { Metadata } from 'next'
import { say } from '#language/say'
import { sayParts } from '#language/say-parts'
import type { ImportListed } from '#lib/db/importing/import-service'
import { listImports } from '#lib/db/importing/imports'
import { type ImportKind, importKinds } from '#lib/importing/fields'
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
import { describeCounts, kindWords, saidFields } from './words'

export const generateMetadata = (): Metadata => ({ title: say('Bring in') })

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
        title={say('Bring in')}
        byline={say(
          'A workbook (xlsx), or a table saved as CSV, TSV or TXT. The file itself is not changed, and it stays on this machine.',
        )}
        actions={<LinkButton href="/charts/read">{say('Read a key, a PDF or a photo')}</LinkButton>}
      />
      <div className={s.upload}>
        <UploadGuard mostMegabytes={mostMegabytes}>
          <Form action={uploadAction} submit={say('Look at it')} pending={say('Reading')} label={say('Choose files')}>
            <FileField
              name="files"
              label={say('Files')}
              hint={say(
                'One or several; the sheets of a workbook come one after the other. Nothing is brought in yet: you see first what would happen.',
              )}
              accept=".xlsx,.xlsm,application/vnd.openxmlformats-officedocument.spreadsheetml.sheet,.csv,.tsv,.tab,.txt,text/csv,text/tab-separated-values,text/plain"
              isMany
              isRequired
            />
          </Form>
        </UploadGuard>
        <p className={s.whole}>
          {sayParts('A whole collection that was taken out as an archive comes back under <link>Everything in a file</link>.', {
            link: (words) => <Link href="/archive#bring-back">{words}</Link>,
          })}
        </p>
      </div>
      <Section
        title={say('What can be brought in')}
        id="kinds"
        note={say(
          'One sheet holds one kind. Headings may have other names, in any order; or it may be a sheet of drawers, with the codes of the threads in them.',
        )}
      >
        <Ledger
          caption={say('Kinds of file')}
          rows={importKinds}
          rowKey={(kind) => kind}
          columns={kindColumns()}
          under={(kind) => <FieldsOf kind={kind} />}
        />
      </Section>
      <Section title={say('Brought in so far')}>
        {imports.length === 0 ? (
          <Empty>{say('Nothing yet. Every file brought in is listed here, and can be undone.')}</Empty>
        ) : (
          <Ledger
            caption={say('Imports, newest first')}
            rows={imports}
            rowKey={({ id }) => id}
            columns={importColumns(lastDone)}
          />
        )}
      </Section>
    </>
  )
}

const kindColumns = (): Column<ImportKind>[] => [
  { key: 'kind', head: say('Kind'), cell: (kind) => <b>{kindWords[kind].title}</b>, width: '9rem', phone: 'lead' },
  {
    key: 'tells',
    head: say('What it tells'),
    cell: (kind) => (
      <>
        {kindWords[kind].tells} <span className="quiet">{sayParts('A row is {row}.', { row: kindWords[kind].row })}</span>
      </>
    ),
    phone: 'wide',
  },
  {
    key: 'fields',
    head: say('Columns'),
    cell: (kind) => (
      <UnfoldButton label={say('{title}: all columns', { title: kindWords[kind].title })}>{say('All columns')}</UnfoldButton>
    ),
    width: '8rem',
    phone: 'line',
    isOffPaper: true,
  },
  {
    key: 'example',
    head: say('Example'),
    cell: (kind) => (
      <a href={`/bring-in/examples/${kind}`} download>
        {sayParts('{kind}.csv', { kind })}
      </a>
    ),
    width: '7rem',
    phone: 'side',
  },
]

function FieldsOf({ kind }: { kind: ImportKind }) {
  return (
    <dl className={s.fields}>
      {saidFields(kind).map(({ name, label, help, isRequired }) => (
        <div key={name}>
          <dt>
            {label}
            {isRequired && <span> {say('needed')}</span>}
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
    head: say('File'),
    cell: ({ id, fileName }) => <Link href={`/bring-in/results/${id}`}>{fileName}</Link>,
    phone: 'lead',
  },
  { key: 'kind', head: say('Kind'), cell: ({ kind }) => kindWords[kind].title, width: '8rem' },
  {
    key: 'counts',
    head: say('Rows'),
    cell: ({ addedCount, changedCount, sameCount, refusedCount, status }) => (
      <>
        {describeCounts({ added: addedCount, changed: changedCount, same: sameCount, refused: refusedCount })}
        {status === 'undone' && <span className="quiet"> {say('(undone)')}</span>}
      </>
    ),
  },
  { key: 'at', head: say('When'), cell: ({ at }) => <span className="nb">{momentWords(at)}</span>, width: '11rem' },
  {
    key: 'undo',
    head: say('Undo'),
    headIsHidden: true,
    cell: (imported) => lastDone.has(imported.id) && <UndoImport imported={imported} openerKind="quiet" />,
    isAtEnd: true,
    width: '6rem',
    phone: 'side',
    isOffPaper: true,
  },
]
