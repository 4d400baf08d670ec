import { formatDate } from '#language/day'
import { say } from '#language/say'
import { readLooks } from '#lib/db/photo/photo-looks'
import type { WorkRow } from '#lib/db/work/queries'
import { Photo } from '#trade/photo'
import { ButtonRow } from '#ui/button'
import { DateField, FieldRow, FileField, NumberField, TextArea } from '#ui/field'
import { Form } from '#ui/form'
import { Ledger } from '#ui/ledger'
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
            submit={say('Put it back')}
            submitKind="plain"
            isInline
            label={say('Put back what was taken out last')}
          >
            <p>{say('Taken out last: {day}, {work}.', { day: formatDate(removed.day), work: workWords(removed) })}</p>
          </Form>
        </div>
      )}
      {entries.length > 0 && (
        <Ledger
          caption={say('The log, the latest day first')}
          rows={entries}
          rowKey={({ id, version }) => `${id} ${version}`}
          isTight
          columns={[
            { key: 'day', head: say('Day'), cell: ({ day }) => <span className="nb">{formatDate(day)}</span>, phone: 'line' },
            {
              key: 'what',
              head: say('Done'),
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
              head: say('Photo'),
              headIsHidden: true,
              cell: ({ photoFile, day }) =>
                photoFile && (
                  <a href={`/photos/${photoFile}`} className={s.thumb}>
                    <Photo
                      file={photoFile}
                      look={looks.get(photoFile)}
                      alt={say('As it looked on {day}', { day: formatDate(day) })}
                      room={thumbRoom}
                    />
                  </a>
                ),
              phone: 'line',
            },
            {
              key: 'change',
              head: say('Change it'),
              headIsHidden: true,
              isOffPaper: true,
              isAtEnd: true,
              cell: (entry) => (
                <UnfoldButton label={say('Change {day}, {work}', { day: formatDate(entry.day), work: workWords(entry) })}>
                  {say('Change')}
                </UnfoldButton>
              ),
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
        submit={say('Keep the change')}
        submitKind="plain"
        label={say('Entry of {day}', { day: formatDate(entry.day) })}
      >
        <FieldRow>
          <DateField name="day" label={say('Day')} defaultValue={entry.day} max={today} />
          <NumberField
            name="stitches"
            label={say('Stitches')}
            defaultValue={entry.donePerMille !== null || entry.stitches === 0 ? '' : entry.stitches}
          />
          <NumberField name="minutes" label={say('Hours')} unit="h" defaultValue={clockOf(entry.minutes)} />
          <NumberField
            name="donePerMille"
            label={say('Done')}
            unit="%"
            defaultValue={entry.donePerMille === null ? '' : entry.donePerMille / 10}
          />
        </FieldRow>
        <TextArea name="note" label={say('Note')} defaultValue={entry.note ?? ''} rows={2} />
        <FileField
          name="photo"
          label={entry.photoFile ? say('Another photo') : say('Photo')}
          accept="image/jpeg,image/png,image/webp"
          hint={photoHint()}
        />
      </Form>
      <ButtonRow>
        <Form
          action={removeWorkAction}
          hidden={edit}
          submit={say('Take it out')}
          submitKind="plain"
          label={say('Take out {day}', { day: formatDate(entry.day) })}
        />
      </ButtonRow>
    </div>
  )
}

/** "1:30", as the field reads it again to the minute. */
const clockOf = (minutes: number): string =>
  minutes === 0 ? '' : `${Math.floor(minutes / 60)}:${String(minutes % 60).padStart(2, '0')}`
