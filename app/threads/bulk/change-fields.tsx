import type { ReactNode } from 'react'
import { type Option, SelectField, TextField } from '#ui/field'
import s from './bulk.module.css'
import type { What } from './schema'

type ChangeFieldsProps = { places: readonly string[]; owners: readonly Option[]; families: readonly string[] }

/** Each change with its own field beside it. The one whose round is filled counts; the others are passed over. */
export function ChangeFields({ places, owners, families }: ChangeFieldsProps) {
  return (
    <fieldset className={s.changes}>
      <legend className="vh">What changes</legend>
      <Change what="home" label="All batches live somewhere else" isFirst>
        <TextField
          name="home"
          label="New home"
          hint="What is out stays out, and comes back to the new one."
          suggestions={places}
          maxLength={100}
        />
      </Change>
      {owners.length > 1 && (
        <Change what="owner" label="All batches pass to another owner">
          <SelectField name="to" label="New owner" options={owners} none="choose" />
        </Change>
      )}
      <Change what="lot" label="Batches without a lot mark are of one lot">
        <TextField name="lot" label="Lot" maxLength={100} />
      </Change>
      <Change what="minimum" label="The least to keep">
        <TextField name="putUps" label="Whole put-ups" hint="Empty: none." maxLength={6} />
      </Change>
      <Change what="family" label="The colour family they are filed under">
        <SelectField
          name="newFamily"
          label="Family"
          options={families.map((family) => ({ value: family, label: family }))}
          none="as the colour says"
        />
      </Change>
      <Change what="leaving" label="Whether they are still made">
        <SelectField
          name="leaving"
          label="Made"
          options={[
            { value: 'yes', label: 'no longer made, or soon not to be' },
            { value: 'no', label: 'still made' },
          ]}
        />
      </Change>
    </fieldset>
  )
}

type ChangeProps = { what: What; label: string; isFirst?: boolean; children: ReactNode }

const Change = ({ what, label, isFirst, children }: ChangeProps) => (
  <div className={s.change}>
    <label>
      <input type="radio" name="what" value={what} defaultChecked={isFirst} /> {label}
    </label>
    {children}
  </div>
)
