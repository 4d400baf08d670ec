import { formatDate } from '#language/day'
import { numberText } from '#language/figures'
import { say } from '#language/say'
import { listParts, type Part } from '#lib/db/planning/days/parts'
import { addDays } from '#lib/quantity/day'
import { DateField, FieldRow, NumberField, SelectField, TextField } from '#ui/field'
import { Form } from '#ui/form'
import { Ledger } from '#ui/ledger'
import { Section } from '#ui/section'
import { Unfold, UnfoldButton } from '#ui/unfold'
import { makePartsAction, movePartAction, removePartAction, savePartAction, tickPartAction } from '../part-actions'
import s from './parts.module.css'

type PartsSectionProps = { projectId: string; today: string; isOpen: boolean }

/** A stitch-along's parts: when each comes out and is due, and which are done. */
export async function PartsSection({ projectId, today, isOpen }: PartsSectionProps) {
  const parts = await listParts(projectId)
  if (parts.length === 0) return isOpen ? <Adding projectId={projectId} today={today} hasParts={false} /> : null
  const done = parts.filter(({ doneOn }) => doneOn !== null).length
  const overdue = parts.filter((part) => isOverdue(part, today)).length
  return (
    <Section
      title={say('Stitch-along parts')}
      id="parts"
      note={[
        say('{done} of {parts, plural, one {# part} other {# parts}} done', { done, parts: parts.length }),
        overdue > 0 && say('{overdue} overdue', { overdue }),
      ]
        .filter(Boolean)
        .join(', ')}
    >
      <Ledger
        caption={say('The parts in their order')}
        rows={parts}
        rowKey={({ id }) => id}
        columns={[
          { key: 'name', head: say('Part'), cell: ({ name }) => name, phone: 'lead' },
          {
            key: 'out',
            head: say('Comes out'),
            cell: ({ comesOn }) => comesOn && <span className="nb">{formatDate(comesOn)}</span>,
            phone: 'labelled',
          },
          { key: 'due', head: say('Due'), cell: (part) => <Due part={part} today={today} />, phone: 'labelled' },
          {
            key: 'stitches',
            head: say('Stitches'),
            cell: ({ stitches }) => (stitches === null ? stitches : numberText(stitches)),
            isNumeric: true,
            phone: 'labelled',
          },
          {
            key: 'done',
            head: say('Done'),
            cell: (part) =>
              isOpen ? <Tick part={part} today={today} /> : part.doneOn && <span className="nb">{formatDate(part.doneOn)}</span>,
            phone: 'line',
          },
          ...(isOpen
            ? [
                {
                  key: 'change',
                  head: say('Change'),
                  headIsHidden: true,
                  cell: ({ name }: Part) => <UnfoldButton label={say('Change {name}', { name })}>{say('Change')}</UnfoldButton>,
                  isOffPaper: true,
                  phone: 'side' as const,
                },
              ]
            : []),
        ]}
        under={isOpen ? (part) => <ChangePart part={part} today={today} /> : undefined}
      />
      {isOpen && <Adding projectId={projectId} today={today} hasParts />}
    </Section>
  )
}

const isOverdue = ({ dueOn, doneOn }: Part, today: string): boolean => doneOn === null && dueOn !== null && dueOn < today

const Due = ({ part, today }: { part: Part; today: string }) =>
  part.dueOn && (
    <span className={isOverdue(part, today) ? 'do nb' : 'nb'}>
      {formatDate(part.dueOn)}
      {isOverdue(part, today) && say(', overdue')}
    </span>
  )

/** One press says that it is stitched, and one takes that back. */
const Tick = ({ part: { id, version, name, doneOn }, today }: { part: Part; today: string }) =>
  doneOn === null ? (
    <Form
      action={tickPartAction}
      hidden={{ id, version: String(version), doneOn: today }}
      submit={say('Done today')}
      submitKind="plain"
      isInline
      label={say('{name} is done', { name })}
    />
  ) : (
    <span className={s.done}>
      <span className="nb">{formatDate(doneOn)}</span>
      <Form
        action={tickPartAction}
        hidden={{ id, version: String(version), doneOn: '' }}
        submit={say('Not done')}
        submitKind="quiet"
        isInline
        label={say('{name} is not done after all', { name })}
      />
    </span>
  )

function ChangePart({ part, today }: { part: Part; today: string }) {
  const { id, version, name, doneOn } = part
  return (
    <div className={s.change}>
      <Form
        action={savePartAction}
        hidden={{ id, version: String(version) }}
        submit={say('Keep the change')}
        submitKind="plain"
        label={say('Change {name}', { name })}
      >
        <PartFields part={part} />
      </Form>
      <div className={s.ways}>
        {doneOn === null && (
          <Form
            action={tickPartAction}
            hidden={{ id, version: String(version) }}
            submit={say('Done on that day')}
            submitKind="plain"
            isInline
            label={say('When {name} was done', { name })}
          >
            <DateField name="doneOn" label={say('Done on')} defaultValue={today} max={today} />
          </Form>
        )}
        <Form
          action={movePartAction}
          hidden={{ id, to: 'earlier' }}
          submit={say('Before the one above')}
          submitKind="quiet"
          isInline
          label={say('Move {name} up', { name })}
        />
        <Form
          action={movePartAction}
          hidden={{ id, to: 'later' }}
          submit={say('After the one below')}
          submitKind="quiet"
          isInline
          label={say('Move {name} down', { name })}
        />
        <Form
          action={removePartAction}
          hidden={{ id, version: String(version) }}
          submit={say('Take it out')}
          submitKind="quiet"
          isInline
          label={say('Take out {name}', { name })}
        />
      </div>
    </div>
  )
}

const PartFields = ({ part }: { part?: Part }) => (
  <FieldRow>
    <TextField name="name" label={say('Part')} defaultValue={part?.name ?? ''} maxLength={120} width="half" isRequired />
    <DateField name="comesOn" label={say('Comes out')} defaultValue={part?.comesOn ?? ''} />
    <DateField name="dueOn" label={say('Due')} defaultValue={part?.dueOn ?? ''} />
    <NumberField name="stitches" label={say('Stitches')} isWhole defaultValue={part?.stitches ?? ''} />
  </FieldRow>
)

/** One part, or many by a rule. */
function Adding({ projectId, today, hasParts }: { projectId: string; today: string; hasParts: boolean }) {
  const nextMonth = `${addDays(`${today.slice(0, 7)}-28`, 4).slice(0, 7)}-01`
  return (
    <div className={s.adding}>
      <Unfold label={hasParts ? say('Add parts') : say('It comes out in parts: a stitch-along')}>
        <Form
          action={savePartAction}
          hidden={{ projectId }}
          submit={say('Add this part')}
          submitKind="plain"
          clearsWhenDone
          label={say('Add a part')}
        >
          <PartFields />
        </Form>
        <h3 className={s.many}>{say('Many at once')}</h3>
        <Form
          action={makePartsAction}
          hidden={{ projectId }}
          submit={say('Add these parts')}
          submitKind="plain"
          label={say('Add parts by a rule')}
        >
          <FieldRow>
            <TextField
              name="name"
              label={say('Called')}
              defaultValue="Part"
              hint={say('Their numbers come after it.')}
              maxLength={60}
              width="half"
            />
            <SelectField
              name="kind"
              label={say('One comes out')}
              defaultValue="monthly"
              options={[
                { value: 'monthly', label: say('every month, on the day of the first') },
                { value: 'fortnightly', label: say('every two weeks') },
                { value: 'weekly', label: say('every week') },
              ]}
              width="half"
            />
          </FieldRow>
          <FieldRow>
            <DateField name="from" label={say('The first on')} defaultValue={nextMonth} />
            <NumberField name="count" label={say('How many')} isWhole defaultValue="12" />
            <NumberField name="dueAfterDays" label={say('Due after')} unit={say('days')} isWhole defaultValue="" />
            <NumberField name="stitches" label={say('Stitches each')} isWhole defaultValue="" />
          </FieldRow>
        </Form>
      </Unfold>
    </div>
  )
}
