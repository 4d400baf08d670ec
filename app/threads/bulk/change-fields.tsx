import { type Option, SelectField, TextField } from '#ui/field'
import s from '../../_listing/bulk.module.css'
import { ChangeChoice } from '../../_listing/change-choice'

type ChangeFieldsProps = { places: readonly string[]; owners: readonly Option[]; families: readonly string[] }

/** Each change with its own field beside it. The one whose round is filled counts; the others are passed over. */
export function ChangeFields({ places, owners, families }: ChangeFieldsProps) {
  return (
    <fieldset className={s.changes}>
      <legend className="vh">What changes</legend>
      <ChangeChoice what="home" label="All batches live somewhere else" isFirst>
        <TextField
          name="home"
          label="New home"
          hint="What is out stays out, and comes back to the new one."
          suggestions={places}
          maxLength={100}
        />
      </ChangeChoice>
      {owners.length > 1 && (
        <ChangeChoice what="owner" label="All batches pass to another owner">
          <SelectField name="to" label="New owner" options={owners} none="choose" />
        </ChangeChoice>
      )}
      <ChangeChoice what="lot" label="Batches without a lot mark are of one lot">
        <TextField name="lot" label="Lot" maxLength={100} />
      </ChangeChoice>
      <ChangeChoice what="minimum" label="The least to keep">
        <TextField name="putUps" label="Whole put-ups" hint="Empty: none." maxLength={6} />
      </ChangeChoice>
      <ChangeChoice what="family" label="The colour family they are filed under">
        <SelectField
          name="newFamily"
          label="Family"
          options={families.map((family) => ({ value: family, label: family }))}
          none="as the colour says"
        />
      </ChangeChoice>
      <ChangeChoice what="leaving" label="Whether they are still made">
        <SelectField
          name="leaving"
          label="Made"
          options={[
            { value: 'yes', label: 'no longer made, or soon not to be' },
            { value: 'no', label: 'still made' },
          ]}
        />
      </ChangeChoice>
    </fieldset>
  )
}
