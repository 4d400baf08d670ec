import type { PlaceRecord } from '#lib/db/place/place-rows'
import { givenPlaceKinds } from '#lib/place/place'
import { FieldRow, NumberField, SelectField, TextArea, TextField } from '#ui/field'
import { kindWord } from './words'

/** What is written on a place's card. */
export function PlaceFields({ place }: { place?: PlaceRecord }) {
  return (
    <>
      <FieldRow>
        <TextField
          name="label"
          label="Label"
          hint="Just as it is written on it: T2.1"
          defaultValue={place?.label}
          maxLength={60}
          width="half"
          isRequired
          autoFocus={place === undefined}
        />
        <SelectField
          name="kind"
          label="Sort of place"
          options={givenPlaceKinds.map((kind) => ({ value: kind, label: kindWord(kind) }))}
          defaultValue={place?.kind ?? 'drawer'}
          width="half"
        />
      </FieldRow>
      <TextField
        name="name"
        label="Name"
        hint="What one says of it besides: Ecru to 0204, spare, part skeins"
        defaultValue={place?.name ?? ''}
        maxLength={120}
      />
      <FieldRow>
        <NumberField
          name="capacity"
          label="Holds"
          hint="Compartments, charts or pieces, when it is worth knowing how full it is"
          defaultValue={place?.capacity ?? ''}
          isWhole
        />
        <NumberField
          name="walkOrder"
          label="Turn in the walk"
          hint="Only where one does not walk in the order of the labels"
          defaultValue={place?.walkOrder ?? ''}
          isWhole
        />
      </FieldRow>
      <TextArea name="note" label="Note" defaultValue={place?.note ?? ''} rows={3} />
    </>
  )
}
