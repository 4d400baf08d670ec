import type { Metadata } from 'next'
import { say } from '#language/say'
import { sayParts } from '#language/say-parts'
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

export const generateMetadata = (): Metadata => ({ title: say('Everything in a file') })

export default async function ArchivePage() {
  requireRight('keep')
  const archives = await listArchives()
  return (
    <>
      <PageHead
        title={say('Everything in a file')}
        crumbs={[{ label: say('Settings'), href: '/settings' }, { label: say('Everything in a file') }]}
        byline={say(
          'What is here is yours to take along: all of it as one archive, or sheets to read. An archive is brought back where there is nothing yet.',
        )}
      />
      <Section
        title={say('Take it all out')}
        note={say('One ZIP: every row of the record with its history, photos and files, and sheets that any spreadsheet opens.')}
      >
        <div className={s.part}>
          <Form action={takeOutAction} submit={say('Write an archive')} pending={say('Beginning')} />
          <p className="quiet">
            {sayParts(
              'It holds prices, notes and names; for others there are <link>lists to share</link>. What is in it, part by part, says <link2>the description of the format</link2>.',
              {
                link: (words) => <Link href="/lists">{words}</Link>,
                link2: (words) => <Link href="/archive/format">{words}</Link>,
              },
            )}
          </p>
        </div>
        {archives.length === 0 ? (
          <Empty>
            {sayParts(
              'No archive is waiting to be fetched. One that was written stays here for {daysKept} days; keep it on another disk than this one.',
              { daysKept },
            )}
          </Empty>
        ) : (
          <Ledger
            caption={say('Archives to fetch, newest first')}
            rows={archives}
            rowKey={({ name }) => name}
            columns={columns()}
          />
        )}
      </Section>
      <Section title={say('Sheets to read')} note={say('XLSX, for people: with prices and notes. Codes keep their zeros.')}>
        <ul className={s.sheets}>
          <li>
            <LinkButton href="/archive/sheets/everything.xlsx" download>
              {say('All of them in one workbook')}
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
      <Section
        title={say('Bring an archive back')}
        id="bring-back"
        note={say('The same collection, with its history, where there is none.')}
      >
        <GiveArchive />
      </Section>
    </>
  )
}

const columns = (): Column<KeptArchive>[] => [
  {
    key: 'name',
    head: say('Archive'),
    cell: ({ name, madeAt }) => (
      <LinkButton kind="quiet" href={`/archive/files/${name}`} download>
        {say('Archive of {moment}', { moment: momentWords(madeAt) })}
      </LinkButton>
    ),
    phone: 'lead',
  },
  { key: 'bytes', head: say('Size'), cell: ({ bytes }) => bytesWords(bytes), isNumeric: true, width: '8rem', phone: 'side' },
  {
    key: 'remove',
    head: say('Remove'),
    headIsHidden: true,
    cell: ({ name, madeAt }) => (
      <ConfirmDialog
        opener={say('Remove')}
        openerKind="quiet"
        title={say('Remove the archive of {moment}?', { moment: momentWords(madeAt) })}
        confirm={say('Remove it')}
        action={removeArchiveAction}
        hidden={{ name }}
      >
        {say('The collection stays as it is. If you have not fetched this archive, it is gone.')}
      </ConfirmDialog>
    ),
    isAtEnd: true,
    width: '7rem',
    phone: 'line',
    isOffPaper: true,
  },
]
