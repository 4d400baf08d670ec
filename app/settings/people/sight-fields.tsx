import { say } from '#language/say'
import { CheckField, ChoiceField } from '#ui/field'
import s from './people.module.css'

type SightFieldsProps = {
  owners: readonly { id: string; name: string }[]
  /** Null for everybody's. */
  ownerIds: readonly string[] | null
}

/** Whose goods somebody sees. */
export function SightFields({ owners, ownerIds }: SightFieldsProps) {
  if (owners.length === 0) return null
  return (
    <div className={s.sight}>
      <ChoiceField
        name="sees"
        label={say('They see')}
        defaultValue={ownerIds === null ? 'everyone' : 'chosen'}
        options={[
          { value: 'everyone', label: say('everybody’s goods') },
          { value: 'chosen', label: say('only those of some'), note: say('so a stash at home stays private') },
        ]}
      />
      <div className={s.owners}>
        {owners.map(({ id, name }) => (
          <CheckField key={id} name={`owner ${id}`} label={name} value={id} defaultChecked={ownerIds?.includes(id) ?? false} />
        ))}
      </div>
    </div>
  )
}
