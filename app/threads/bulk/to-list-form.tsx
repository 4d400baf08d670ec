import { say } from '#language/say'
import { listBuyLists } from '#lib/db/buying/queries'
import { newId } from '#lib/db/new-id'
import type { Owner } from '#lib/db/owner/owners'
import { OwnerField } from '#trade/owner-field'
import { NumberField, SelectField, TextField } from '#ui/field'
import { Form } from '#ui/form'
import { toListAction } from './to-list-action'

type ToListFormProps = { chosenId: string; owners: readonly Owner[]; ownerIds: readonly string[] }

/** More open lists than these are not offered. */
const listsOffered = 50

/** Puts the chosen threads on a list to shop by. */
export async function ToListForm({ chosenId, owners, ownerIds }: ToListFormProps) {
  const { lists } = await listBuyLists({ ownerIds, isOpen: true }, { offset: 0, limit: listsOffered })
  const own = owners.filter(({ id }) => ownerIds.includes(id))
  const [only] = own
  return (
    <Form
      label={say('Add to a list to shop by')}
      action={toListAction}
      submit={say('Add to the list')}
      submitKind="plain"
      hidden={{ chosen: chosenId, newListId: newId(), ...(own.length === 1 && only && { ownerId: only.id }) }}
      isInline
    >
      {lists.length > 0 && (
        <SelectField
          name="listId"
          label={say('List')}
          none={say('a new one')}
          defaultValue={lists[0]?.id ?? ''}
          options={lists.map(({ id, title, ownerName }) => ({
            value: id,
            label: own.length > 1 ? say('{title}, for {ownerName}', { title, ownerName }) : title,
          }))}
        />
      )}
      <NumberField name="putUps" label={say('Put-ups of each')} defaultValue={1} isWhole />
      <TextField name="title" label={say('A new list is called')} maxLength={200} />
      {own.length > 1 && <OwnerField label={say('For the stock of')} owners={own} ownerIds={ownerIds} />}
    </Form>
  )
}
