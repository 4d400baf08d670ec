import { say } from '#language/say'
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
      submit={say('It was washed')}
      submitKind="plain"
      label={say('Write down a wash')}
      clearsWhenDone
    >
      <DateField name="washedOn" label={say('Washed on')} defaultValue={today} max={today} isRequired />
      <TextField
        name="size"
        label={say('It measures now')}
        hint={say('Dry and pressed, if it was measured again: {isIn, select, yes {17½ x 26½ in} other {44 x 68 cm}}', {
          isIn: unit === 'in',
        })}
        width="half"
      />
      <CheckField
        name="isSquared"
        label={say('It is squared')}
        hint={say('Of the new size: straight to a thread on all sides')}
        defaultChecked={piece.isSquared}
      />
      <TextField name="note" label={say('Note')} maxLength={300} />
    </Form>
  )
}

/** How it did, wet on white. */
export function BleedTestForm({ piece, today }: CareFormProps) {
  return (
    <Form
      action={testBleedingAction}
      hidden={hiddenOf(piece)}
      submit={say('Write it down')}
      submitKind="plain"
      label={say('Write down a test for bleeding')}
      clearsWhenDone
    >
      <ChoiceField
        name="result"
        label={say('A damp white cloth, pressed on a corner until dry')}
        options={[
          { value: 'passed', label: say('stayed white'), note: say('No guarantee: a wash is longer and wetter.') },
          { value: 'bled', label: say('took colour') },
        ]}
      />
      <DateField name="testedOn" label={say('Tried on')} defaultValue={today} max={today} isRequired />
      <TextField name="note" label={say('Note')} maxLength={300} />
    </Form>
  )
}
