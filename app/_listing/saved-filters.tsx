import { say } from '#language/say'
import { listSavedFilters } from '#lib/db/settings/saved-filters'
import { type FilterRoom, longestFilterName, type SavedFilter } from '#lib/settings/saved-filters'
import { Button } from '#ui/button'
import { TextField } from '#ui/field'
import { Form } from '#ui/form'
import { Link } from '#ui/link'
import { Notice } from '#ui/notice'
import { changeFilterAction, saveFilterAction } from './filter-actions'
import s from './saved-filters.module.css'

type SavedFiltersProps = {
  room: FilterRoom
  /** The list's choices, as they stand in its address; empty where nothing is chosen. */
  filter: string
  /** What a filter names that is not there any more, in words; null when all of it is. */
  missingFrom: (filter: string) => string | null
}

/** Choices the house keeps under names, above the list: one press each. */
export async function SavedFilters({ room, filter, missingFrom }: SavedFiltersProps) {
  const filters = await listSavedFilters(room)
  const current = filters.find((one) => one.filter === filter)
  const missing = filter === '' ? null : missingFrom(filter)
  if (filters.length === 0 && filter === '') return null
  return (
    <div className={s.saved}>
      {filters.length > 0 && (
        <nav aria-label={say('Kept filters')}>
          <ul className={s.row}>
            {filters.map((one) => (
              <li key={one.name}>
                <Link href={`/${room}?${one.filter}`} aria-current={one === current ? 'page' : undefined}>
                  {one.name}
                </Link>
                {missingFrom(one.filter) !== null && <span className="do"> {say('out of date')}</span>}
              </li>
            ))}
          </ul>
        </nav>
      )}
      {filter !== '' && !current && (
        <details className={s.unfold}>
          <summary>{say('Keep this filter')}</summary>
          <Form
            label={say('Keep this filter')}
            action={saveFilterAction}
            submit={say('Keep it')}
            submitKind="plain"
            hidden={{ room, filter }}
            isInline
          >
            <TextField
              name="name"
              label={say('Name')}
              hint={say('Everybody in the house sees it above this list.')}
              maxLength={longestFilterName}
              isRequired
            />
          </Form>
        </details>
      )}
      {filters.length > 0 && (
        <details className={s.unfold}>
          <summary>{say('Change kept filters')}</summary>
          <ul>
            {filters.map((one, at) => (
              <li key={one.name}>
                <ChangeFilter one={one} isFirst={at === 0} isLast={at === filters.length - 1} />
              </li>
            ))}
          </ul>
        </details>
      )}
      {missing !== null && (
        <Notice kind="caution" title={missing}>
          {current
            ? say('Choose anew above the list and keep that instead, or take this one away under “Change kept filters”.')
            : say('Choose anew above the list.')}
        </Notice>
      )}
    </div>
  )
}

type ChangeFilterProps = { one: SavedFilter; isFirst: boolean; isLast: boolean }

const ChangeFilter = ({ one: { room, name }, isFirst, isLast }: ChangeFilterProps) => (
  <Form
    label={say('Change the filter {name}', { name })}
    action={changeFilterAction}
    submit={say('Rename')}
    submitKind="plain"
    hidden={{ room, named: name }}
    isInline
    actions={
      <>
        {!isFirst && (
          <Button type="submit" kind="quiet" name="act" value="earlier">
            {say('Earlier')}
          </Button>
        )}
        {!isLast && (
          <Button type="submit" kind="quiet" name="act" value="later">
            {say('Later')}
          </Button>
        )}
        <Button type="submit" kind="quiet" name="act" value="remove">
          {say('Take away')}
        </Button>
      </>
    }
  >
    <TextField name="name" label={say('Name')} defaultValue={name} maxLength={longestFilterName} />
  </Form>
)
