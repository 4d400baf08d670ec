import { say } from '#language/say'
import { type Option, SelectField, TextField } from '#ui/field'
import { givenName } from '#words/given'
import s from '../../_listing/bulk.module.css'
import { ChangeChoice } from '../../_listing/change-choice'

type ChangeFieldsProps = { places: readonly string[]; owners: readonly Option[]; families: readonly string[] }

/** Each change with its own field beside it. The one whose round is filled counts; the others are passed over. */
export function ChangeFields({ places, owners, families }: ChangeFieldsProps) {
  return (
    <fieldset className={s.changes}>
      <legend className="vh">{say('What changes')}</legend>
      <ChangeChoice what="home" label={say('All batches live somewhere else')} isFirst>
        <TextField
          name="home"
          label={say('New home')}
          hint={say('What is out stays out, and comes back to the new one.')}
          suggestions={places}
          maxLength={100}
        />
      </ChangeChoice>
      {owners.length > 1 && (
        <ChangeChoice what="owner" label={say('All batches pass to another owner')}>
          <SelectField name="to" label={say('New owner')} options={owners} none={say('choose')} />
        </ChangeChoice>
      )}
      <ChangeChoice what="lot" label={say('Batches without a lot mark are of one lot')}>
        <TextField name="lot" label={say('Lot')} maxLength={100} />
      </ChangeChoice>
      <ChangeChoice what="minimum" label={say('The least to keep')}>
        <TextField name="putUps" label={say('Whole put-ups')} hint={say('Empty: none.')} maxLength={6} />
      </ChangeChoice>
      <ChangeChoice what="family" label={say('The colour family they are filed under')}>
        <SelectField
          name="newFamily"
          label={say('Family')}
          options={families.map((family) => ({ value: family, label: givenName(family) }))}
          none={say('as the colour says')}
        />
      </ChangeChoice>
      <ChangeChoice what="leaving" label={say('Whether they are still made')}>
        <SelectField
          name="leaving"
          label={say('Made')}
          options={[
            { value: 'yes', label: say('no longer made, or soon not to be') },
            { value: 'no', label: say('still made') },
          ]}
        />
      </ChangeChoice>
    </fieldset>
  )
}
