import type { Metadata } from 'next'
import { requireRight } from '#lib/db/access/right'
import { daysKept, type KeptArchive, listArchives } from '#lib/db/archive/archive-files'
import { peopleSheets } from '#lib/db/archive/collection-workbook'
import { LinkButton } from '#ui/button'
import { ConfirmDialog } from '#ui/confirm-dialog'
import { Empty } from '#ui/empty'
import { Form } from '#ui/form'
import { type Column, Ledger } from '#ui/ledger'
import { Link } from '#ui/link'
import { PageHead } from '#ui/page-head'
import { Section } from '#ui/section'
import { bytesWords, sheetWords } from '#words/archive'
import { momentWords } from '#words/date'
import { removeArchiveAction, takeOutAction } from './actions'
import s from './archive.module.css'
import { GiveArchive } from './give-archive'

export const metadata: Metadata = { title: 'Everything in a file' }

export default async function ArchivePage() {
  requireRight('keep')
  const archives = await listArchives()
  return (
    <>
      <PageHead
        title="Everything in a file"
        crumbs={[{ label: 'Settings', href: '/settings' }, { label: 'Everything in a file' }]}
        byline="What is here is yours to take along: all of it as one archive, or sheets to read. An archive is brought back where there is nothing yet."
      />
      <Section
        title="Take it all out"
        note="One ZIP: every row of the record with its history, photos and files, and sheets that any spreadsheet opens."
      >
        <div className={s.part}>
          <Form action={takeOutAction} submit="Write an archive" pending="Beginning" />
          <p className="quiet">
            It holds prices, notes and names; for others there are <Link href="/lists">lists to share</Link>. What is in it, part
            by part, says <Link href="/archive/format">the description of the format</Link>.
          </p>
        </div>
        {archives.length === 0 ? (
          <Empty>
            No archive is waiting to be fetched. One that was written stays here for {daysKept} days; keep it on another disk than
            this one.
          </Empty>
        ) : (
          <Ledger caption="Archives to fetch, newest first" rows={archives} rowKey={({ name }) => name} columns={columns} />
        )}
      </Section>
      <Section title="Sheets to read" note="XLSX, for people: with prices and notes. Codes keep their zeros.">
        <ul className={s.sheets}>
          <li>
            <LinkButton href="/archive/sheets/everything.xlsx" download>
              All of them in one workbook
            </LinkButton>
          </li>
          {peopleSheets.map((sheet) => (
            <li key={sheet}>
              <Link href={`/archive/sheets/${sheet}.xlsx`} download>
                {sheetWords[sheet]}
              </Link>
            </li>
          ))}
        </ul>
      </Section>
      <Section title="Bring an archive back" id="bring-back" note="The same collection, with its history, where there is none.">
        <GiveArchive />
      </Section>
    </>
  )
}

const columns: Column<KeptArchive>[] = [
  {
    key: 'name',
    head: 'Archive',
    cell: ({ name, madeAt }) => (
      <LinkButton kind="quiet" href={`/archive/files/${name}`} download>
        Archive of {momentWords(madeAt)}
      </LinkButton>
    ),
    phone: 'lead',
  },
  { key: 'bytes', head: 'Size', cell: ({ bytes }) => bytesWords(bytes), isNumeric: true, width: '8rem', phone: 'side' },
  {
    key: 'remove',
    head: 'Remove',
    headIsHidden: true,
    cell: ({ name, madeAt }) => (
      <ConfirmDialog
        opener="Remove"
        openerKind="quiet"
        title={`Remove the archive of ${momentWords(madeAt)}?`}
        confirm="Remove it"
        action={removeArchiveAction}
        hidden={{ name }}
      >
        The collection stays as it is. If you have not fetched this archive, it is gone.
      </ConfirmDialog>
    ),
    isAtEnd: true,
    width: '7rem',
    phone: 'line',
    isOffPaper: true,
  },
]
