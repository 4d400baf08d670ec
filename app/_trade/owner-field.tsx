import { say } from '#language/say'
import { SelectField } from '#ui/field'

type OwnerFieldProps = {
  label: string
  owners: readonly { id: string; name: string }[]
  /** Whose goods are shown: the only one is chosen already. */
  ownerIds: readonly string[]
}

/** Whose goods a form is about. */
export const OwnerField = ({ label, owners, ownerIds }: OwnerFieldProps) => (
  <SelectField
    name="ownerId"
    label={label}
    isRequired
    none={ownerIds.length === 1 ? undefined : say('choose')}
    defaultValue={ownerIds.length === 1 ? ownerIds[0] : ''}
    options={owners.map(({ id, name }) => ({ value: id, label: name }))}
  />
)
