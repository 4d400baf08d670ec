import { say } from '#language/say'
import { sayParts } from '#language/say-parts'
import type { FileRole } from '#lib/db/file/keep-file'
import type { FiledThing } from '#lib/db/file/kept-thing'
import type { FileListed } from '#lib/db/file/queries'
import { ConfirmDialog } from '#ui/confirm-dialog'
import { Empty } from '#ui/empty'
import { ChoiceField, FileField } from '#ui/field'
import { Form } from '#ui/form'
import { type Column, Ledger } from '#ui/ledger'
import { Section } from '#ui/section'
import { Unfold } from '#ui/unfold'
import { UploadGuard } from '#ui/upload-guard'
import { keepFileAction, removeFileAction, restoreFileAction } from './actions'
import s from './files.module.css'
import { KeptElsewhere } from './kept-elsewhere'
import { fileFacts, fileRoleWords, ownUseWords } from './words'

const mostMegabytes = 50

type FilesSectionProps = {
  thing: FiledThing
  files: readonly FileListed[]
  /** Whose goods are looked at: files of others are named, and not to be had. */
  ownerIds: readonly string[]
  /** What may be kept with it. */
  roles: readonly FileRole[]
  /** A thing that is gone keeps its files; no more come to it. */
  isGone?: boolean
}

/** The files kept with a thing: to open, to take off and bring back, to add to. */
export function FilesSection({ thing, files, ownerIds, roles, isGone = false }: FilesSectionProps) {
  const mine = files.filter(({ owner }) => ownerIds.includes(owner.id))
  const others = files.filter(({ owner, isGone: isRemoved }) => !isRemoved && !ownerIds.includes(owner.id))
  const [one] = others
  return (
    <Section
      title={roles.includes('chart') ? say('Files') : say('Receipts')}
      id="files"
      note={roles.includes('chart') ? ownUseWords() : undefined}
    >
      {mine.length === 0 && others.length === 0 && (
        <Empty>
          {roles.includes('chart')
            ? say('No file yet: its PDF, a scan, or the receipt can be kept here.')
            : say('No receipt is kept yet.')}
        </Empty>
      )}
      {mine.length > 0 && <Ledger caption={say('Files kept with it')} rows={mine} rowKey={({ id }) => id} columns={columns()} />}
      {one && (
        <p className="quiet">
          {sayParts(
            '{others, plural, one {A file is} other {# files are}} kept for {name}, and opened only with their stock in view.',
            { others: others.length, name: one.owner.name },
          )}
        </p>
      )}
      {!isGone && (
        <div className={s.add}>
          <Unfold label={roles.includes('chart') ? say('Add a file or a receipt') : say('Add a receipt')}>
            <UploadGuard mostMegabytes={mostMegabytes}>
              <Form
                action={keepFileAction}
                submit={say('Keep it')}
                pending={say('Sending')}
                label={say('Add a file')}
                hidden={{ noun: thing.noun, thingId: thing.id, ...(roles.length === 1 ? { role: roles[0] as FileRole } : {}) }}
                clearsWhenDone
              >
                <FileField
                  name="file"
                  label={say('File')}
                  hint={say('PDF, JPEG, PNG or WebP, up to {mostMegabytes} MB; kept as it is', { mostMegabytes })}
                  accept=".pdf,application/pdf,image/jpeg,image/png,image/webp"
                  isRequired
                />
                {roles.length > 1 && (
                  <ChoiceField
                    name="role"
                    label={say('What it is')}
                    options={roles.map((value) => ({ value, label: fileRoleWords[value] }))}
                    defaultValue={roles[0]}
                  />
                )}
                <KeptElsewhere />
              </Form>
            </UploadGuard>
          </Unfold>
        </div>
      )}
    </Section>
  )
}

const columns = (): Column<FileListed>[] => [
  {
    key: 'name',
    head: say('File'),
    phone: 'lead',
    cell: ({ id, name, isGone }) =>
      isGone ? (
        <span className="quiet">{sayParts('{name}, taken off', { name })}</span>
      ) : (
        <a href={`/files/${id}`} download>
          {name}
        </a>
      ),
  },
  { key: 'role', head: say('What it is'), cell: ({ role }) => fileRoleWords[role], width: '9rem', phone: 'side' },
  { key: 'facts', head: say('Size'), cell: fileFacts, phone: 'line' },
  {
    key: 'change',
    head: say('Change'),
    headIsHidden: true,
    isAtEnd: true,
    isOffPaper: true,
    phone: 'line',
    cell: ({ id, version, name, isGone }) => {
      const hidden = { id, version: String(version) }
      return isGone ? (
        <Form action={restoreFileAction} hidden={hidden} submit={say('Undo: bring it back')} submitKind="quiet" isInline />
      ) : (
        <ConfirmDialog
          opener={sayParts('Take off{name}', { name: <span className="vh"> {name}</span> })}
          openerKind="quiet"
          title={say('Take {name} off?', { name })}
          confirm={say('Take it off')}
          action={removeFileAction}
          hidden={hidden}
        >
          <p>{say('It is not opened any more from here, and can be brought back.')}</p>
        </ConfirmDialog>
      )
    },
  },
]
