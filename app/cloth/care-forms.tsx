import type { ClothDetail } from '#lib/db/cloth/queries'
import type { LengthUnit } from '#lib/quantity/cloth-length'
import { CheckField, ChoiceField, DateField, TextField } from '#ui/field'
import { Form } from '#ui/form'
import { testBleedingAction, washClothAction } from './actions'

type CareFormProps = {
  piece: ClothDetail
  /** yyyy-mm-dd */
  today: string
}

const hiddenOf = ({ id, version }: ClothDetail) => ({ id, version: String(version) })

/** It was washed: when, and what it measures now. */
export function WashForm({ piece, today, unit }: CareFormProps & { unit: LengthUnit }) {
  return (
    <Form
      action={washClothAction}
      hidden={hiddenOf(piece)}
      submit="It was washed"
      submitKind="plain"
      label="Write down a wash"
      clearsWhenDone
    >
      <DateField name="washedOn" label="Washed on" defaultValue={today} max={today} isRequired />
      <TextField
        name="size"
        label="It measures now"
        hint={`Dry and pressed, if it was measured again: ${unit === 'in' ? '17½ x 26½ in' : '44 x 68 cm'}`}
        width="half"
      />
      <CheckField
        name="isSquared"
        label="It is squared"
        hint="Of the new size: straight to a thread on all sides"
        defaultChecked={piece.isSquared}
      />
      <TextField name="note" label="Note" maxLength={300} />
    </Form>
  )
}

/** How it did, wet on white. */
export function BleedTestForm({ piece, today }: CareFormProps) {
  return (
    <Form
      action={testBleedingAction}
      hidden={hiddenOf(piece)}
      submit="Write it down"
      submitKind="plain"
      label="Write down a test for bleeding"
      clearsWhenDone
    >
      <ChoiceField
        name="result"
        label="A damp white cloth, pressed on a corner until dry"
        options={[
          { value: 'passed', label: 'stayed white', note: 'No guarantee: a wash is longer and wetter.' },
          { value: 'bled', label: 'took colour' },
        ]}
      />
      <DateField name="testedOn" label="Tried on" defaultValue={today} max={today} isRequired />
      <TextField name="note" label="Note" maxLength={300} />
    </Form>
  )
}
