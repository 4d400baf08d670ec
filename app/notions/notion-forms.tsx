import { say } from '#language/say'
import { countChanges } from '#lib/db/notion/count-notion'
import type { NotionDetail } from '#lib/db/notion/queries'
import { ConfirmDialog } from '#ui/confirm-dialog'
import { CheckField, ChoiceField, NumberField, SelectField, TextField } from '#ui/field'
import { Form } from '#ui/form'
import { notionTitle } from '#words/notion'
import { PlaceLabelField } from '../_places/place-label-field'
import {
  countNotionAction,
  moveNotionAction,
  putBackNotionAction,
  removeNotionAction,
  restoreNotionAction,
  takeNotionAction,
} from './actions'
import { countChangeWords } from './words'

type NotionProps = { notion: NotionDetail }

const hiddenOf = ({ id, version }: NotionDetail) => ({ id, version: String(version) })

export const PutBackForm = ({ notion }: NotionProps) => (
  <Form action={putBackNotionAction} hidden={hiddenOf(notion)} submit={say('Put it back')} isInline label={say('Put it back')} />
)

type TakeFormProps = NotionProps & { projects: readonly { id: string; title: string; status: string }[] }

export const TakeForm = ({ notion, projects }: TakeFormProps) => (
  <Form
    action={takeNotionAction}
    hidden={hiddenOf(notion)}
    submit={say('Take it')}
    submitKind="plain"
    label={say('Take it for a project')}
  >
    <SelectField
      name="projectId"
      label={say('For')}
      options={projects.map(({ id, title, status }) => ({ value: id, label: `${title}, ${status}` }))}
      none={say('choose a project')}
      width="half"
      isRequired
    />
    <NumberField
      name="many"
      label={say('How many')}
      hint={notion.count === 1 ? undefined : say('Of {count}; count them back in when it is done', { count: notion.count })}
      defaultValue={1}
      isWhole
      isRequired
    />
  </Form>
)

export const CountForm = ({ notion }: NotionProps) => (
  <Form
    action={countNotionAction}
    hidden={hiddenOf(notion)}
    submit={say('Write it down')}
    submitKind="plain"
    label={say('Change how many there are')}
    clearsWhenDone
  >
    <ChoiceField
      name="change"
      label={say('What happened')}
      options={countChanges.map((value) => ({ value, label: countChangeWords[value] }))}
      defaultValue="received"
    />
    <NumberField name="many" label={say('How many')} isWhole isRequired />
    <TextField name="reason" label={say('Note')} maxLength={300} />
  </Form>
)

export const MoveForm = ({ notion, placeLabels }: NotionProps & { placeLabels: readonly string[] }) => (
  <Form
    action={moveNotionAction}
    hidden={hiddenOf(notion)}
    submit={say('Move it')}
    submitKind="plain"
    label={say('Move it')}
    clearsWhenDone
  >
    <PlaceLabelField label={say('To')} placeLabels={placeLabels} maxLength={60} />
    <CheckField name="becomesHome" label={say('It lives there from now on')} hint={say('Left out, it is only there for now')} />
  </Form>
)

export const RestoreForm = ({ notion }: NotionProps) => (
  <Form
    action={restoreNotionAction}
    hidden={hiddenOf(notion)}
    submit={say('Put it back on the list')}
    submitKind="plain"
    isInline
  />
)

export const RemoveDialog = ({ notion }: NotionProps) => (
  <ConfirmDialog
    opener={say('Take it off the list')}
    title={say('Take {notionTitle} off the list?', { notionTitle: notionTitle(notion) })}
    confirm={say('Take it off')}
    action={removeNotionAction}
    hidden={hiddenOf(notion)}
  >
    <p>
      {say('{count, plural, one {It goes} other {All # of it go}}; the history stays, and it can be put back on the list.', {
        count: notion.count,
      })}
    </p>
    <TextField name="reason" label={say('Why')} hint={say('Lost, broken, given away')} maxLength={300} />
  </ConfirmDialog>
)
