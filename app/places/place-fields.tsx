import { say } from '#language/say'
import type { PlaceRecord } from '#lib/db/place/place-rows'
import type { PutUpRoom } from '#lib/place/capacity'
import { givenPlaceKinds, type PlaceKind } from '#lib/place/place'
import { FieldRow, NumberField, SelectField, TextArea, TextField } from '#ui/field'
import { singular } from '#words/amounts'
import s from './place-fields.module.css'
import { putUpRows } from './schema'
import { kindWord } from './words'

type PlaceFieldsProps = {
  place?: PlaceRecord
  putUps?: readonly PutUpRoom[]
  /** What a new one would be called by the shop's own pattern. */
  proposed?: { label: string; kind: PlaceKind | null } | undefined
}

const usualPutUps = ['skein', 'card', 'loop', 'hank', 'spool', 'ball', 'cut']

/** What is written on a place's card. */
export function PlaceFields({ place, putUps = [], proposed }: PlaceFieldsProps) {
  const rows = Math.min(putUpRows, Math.max(3, putUps.length + 1))
  return (
    <>
      <FieldRow>
        <TextField
          name="label"
          label={say('Label')}
          hint={
            proposed
              ? say('The next free one by the shop’s pattern; any other will do')
              : say('Just as it is written on it: T2.1')
          }
          defaultValue={place?.label ?? proposed?.label}
          maxLength={60}
          width="half"
          isRequired
          autoFocus={place === undefined}
        />
        <SelectField
          name="kind"
          label={say('Sort of place')}
          options={givenPlaceKinds.map((kind) => ({ value: kind, label: kindWord(kind) }))}
          defaultValue={place?.kind ?? proposed?.kind ?? 'drawer'}
          width="half"
        />
      </FieldRow>
      <TextField
        name="name"
        label={say('Name')}
        hint={say('What one says of it besides: Ecru to 0204, spare, part skeins')}
        defaultValue={place?.name ?? ''}
        maxLength={120}
      />
      <FieldRow>
        <NumberField
          name="capacity"
          label={say('Holds')}
          hint={say('Compartments, charts or pieces, when it is worth knowing how full it is')}
          defaultValue={place?.capacity ?? ''}
          isWhole
        />
        <NumberField
          name="walkOrder"
          label={say('Turn in the walk')}
          hint={say('Only where one does not walk in the order of the labels')}
          defaultValue={place?.walkOrder ?? ''}
          isWhole
        />
      </FieldRow>
      <fieldset className={s.room}>
        <legend>{say('Takes, by kind of put-up')}</legend>
        <p className="quiet">
          {say(
            'A compartment that takes 6 skeins or 12 cards: put skeins in until it is snug, and count. Each kind takes its share of the room. A part skein counts as one.',
          )}
        </p>
        {Array.from({ length: rows }, (_, row) => row).map((row) => (
          <FieldRow key={row}>
            <NumberField
              name={`most${row}`}
              label={say('How many{rest}', { rest: row === 0 ? '' : say(', row {row}', { row: row + 1 }) })}
              defaultValue={putUps[row]?.most ?? ''}
              isWhole
            />
            <TextField
              name={`putUp${row}`}
              label={say('Of what{rest}', { rest: row === 0 ? '' : say(', row {row}', { row: row + 1 }) })}
              defaultValue={putUps[row] ? singular(putUps[row].putUpWord) : ''}
              suggestions={usualPutUps.map(singular)}
              maxLength={30}
              width="half"
            />
          </FieldRow>
        ))}
      </fieldset>
      <TextArea name="note" label={say('Note')} defaultValue={place?.note ?? ''} rows={3} />
    </>
  )
}
