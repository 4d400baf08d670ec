import { formatDate } from '#language/day'
import { readLooks } from '#lib/db/photo/photo-looks'
import type { WorkRow } from '#lib/db/work/queries'
import { ButtonRow } from '#ui/button'
import { DateField, FieldRow, FileField, NumberField, TextArea } from '#ui/field'
import { Form } from '#ui/form'
import { Ledger } from '#ui/ledger'
import { Photo } from '#ui/photo'
import { UnfoldButton } from '#ui/unfold'
import { workWords } from '#words/work'
import { changeWorkAction, removeWorkAction, restoreWorkAction } from '../work-actions'
import s from './log.module.css'
import { photoHint } from './photo-form'

type WorkLedgerProps = { entries: readonly WorkRow[]; removed: WorkRow | null; today: string }

const thumbRoom = { widthPx: 64, heightPx: 64 }

/** A log, line by line: each can be said otherwise or taken out, and what was taken out last put back. */
export async function WorkLedger({ entries, removed, today }: WorkLedgerProps) {
  const looks = await readLooks(entries.map(({ photoFile }) => photoFile))
  return (
    <>
      {removed && (
        <div className={s.removed}>
          <Form
            action={restoreWorkAction}
            hidden={{ entryId: removed.id, version: String(removed.version) }}
            submit="Put it back"
            submitKind="plain"
            isInline
            label="Put back what was taken out last"
          >
            <p>
              Taken out last: {formatDate(removed.day)}, {workWords(removed)}.
            </p>
          </Form>
        </div>
      )}
      {entries.length > 0 && (
        <Ledger
          caption="The log, the latest day first"
          rows={entries}
          rowKey={({ id, version }) => `${id} ${version}`}
          isTight
          columns={[
            { key: 'day', head: 'Day', cell: ({ day }) => <span className="nb">{formatDate(day)}</span>, phone: 'line' },
            {
              key: 'what',
              head: 'Done',
              cell: (entry) => (
                <>
                  {workWords(entry)}
                  {entry.note && (
                    <>
                      <br />
                      <small className="quiet">{entry.note}</small>
                    </>
                  )}
                </>
              ),
              phone: 'lead',
            },
            {
              key: 'photo',
              head: 'Photo',
              headIsHidden: true,
              cell: ({ photoFile, day }) =>
                photoFile && (
                  <a href={`/photos/${photoFile}`} className={s.thumb}>
                    <Photo
                      file={photoFile}
                      look={looks.get(photoFile)}
                      alt={`As it looked on ${formatDate(day)}`}
                      room={thumbRoom}
                    />
                  </a>
                ),
              phone: 'line',
            },
            {
              key: 'change',
              head: 'Change it',
              headIsHidden: true,
              isOffPaper: true,
              isAtEnd: true,
              cell: (entry) => <UnfoldButton label={`Change ${formatDate(entry.day)}, ${workWords(entry)}`}>Change</UnfoldButton>,
              phone: 'side',
            },
          ]}
          under={(entry) => <ChangeForm entry={entry} today={today} />}
        />
      )}
    </>
  )
}

const ChangeForm = ({ entry, today }: { entry: WorkRow; today: string }) => {
  const edit = { entryId: entry.id, version: String(entry.version) }
  return (
    <div className={s.change}>
      <Form
        action={changeWorkAction}
        hidden={edit}
        submit="Keep the change"
        submitKind="plain"
        label={`Entry of ${formatDate(entry.day)}`}
      >
        <FieldRow>
          <DateField name="day" label="Day" defaultValue={entry.day} max={today} />
          <NumberField
            name="stitches"
            label="Stitches"
            defaultValue={entry.donePerMille !== null || entry.stitches === 0 ? '' : entry.stitches}
          />
          <NumberField name="minutes" label="Hours" unit="h" defaultValue={clockOf(entry.minutes)} />
          <NumberField
            name="donePerMille"
            label="Done"
            unit="%"
            defaultValue={entry.donePerMille === null ? '' : entry.donePerMille / 10}
          />
        </FieldRow>
        <TextArea name="note" label="Note" defaultValue={entry.note ?? ''} rows={2} />
        <FileField
          name="photo"
          label={entry.photoFile ? 'Another photo' : 'Photo'}
          accept="image/jpeg,image/png,image/webp"
          hint={photoHint}
        />
      </Form>
      <ButtonRow>
        <Form
          action={removeWorkAction}
          hidden={edit}
          submit="Take it out"
          submitKind="plain"
          label={`Take out ${formatDate(entry.day)}`}
        />
      </ButtonRow>
    </div>
  )
}

/** "1:30", as the field reads it again to the minute. */
const clockOf = (minutes: number): string =>
  minutes === 0 ? '' : `${Math.floor(minutes / 60)}:${String(minutes % 60).padStart(2, '0')}`
