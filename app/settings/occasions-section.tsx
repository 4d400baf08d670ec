import { formatDate } from '#language/day'
import { countryName, namesInOrder } from '#language/figures'
import { say } from '#language/say'
import { sayParts } from '#language/say-parts'
import { type KeptOccasion, listOwnOccasions } from '#lib/db/planning/days/occasions'
import { dayOfRule, nextDay, type OccasionRule, parseRule } from '#lib/planning/days/occasion-rule'
import { countryCodes } from '#lib/planning/days/occasions'
import { OwnerField } from '#trade/owner-field'
import { DateField, NumberField, SelectField, TextField } from '#ui/field'
import { Form } from '#ui/form'
import { Link } from '#ui/link'
import { Section } from '#ui/section'
import { Unfold } from '#ui/unfold'
import type { Viewer } from '#viewer/viewer'
import { calendarDay } from '#words/date'
import { monthOptions, storedRuleWords } from '#words/occasion'
import { weekdayOptions } from '#words/work'
import { removeOccasionAction, saveCountryAction, saveOccasionAction } from './occasion-actions'
import s from './occasions.module.css'

const countryOptions = () =>
  countryCodes.map((value) => ({ value, label: countryName(value) })).sort((a, b) => namesInOrder().compare(a.label, b.label))
const kindOptions = () => [
  { value: 'fixed', label: say('the same day every year') },
  { value: 'weekday', label: say('a weekday of a month') },
  { value: 'easter', label: say('so many days from Easter') },
  { value: 'nearest', label: say('the weekday nearest a day') },
  { value: 'once', label: say('once') },
]
const nthOptions = () =>
  [say('first'), say('second'), say('third'), say('fourth'), say('fifth')].map((label, at) => ({ value: String(at + 1), label }))

/** Which feasts are known, and the days somebody keeps besides. */
export async function OccasionsSection({ viewer: { settings, owners, ownerIds } }: { viewer: Viewer }) {
  const own = await listOwnOccasions(owners.map(({ id }) => id))
  const today = calendarDay(new Date())
  return (
    <Section
      title={say('Occasions')}
      id="occasions"
      note={sayParts('What works are due for; they stand in <link>By when</link>.', {
        link: (words) => <Link href="/calendar">{words}</Link>,
      })}
    >
      <Form
        action={saveCountryAction}
        submit={say('Keep it')}
        submitKind="plain"
        isInline
        label={say('Feasts and customary days')}
      >
        <SelectField
          name="country"
          label={say('Feasts and customary days as in')}
          defaultValue={settings.planning.country}
          options={countryOptions()}
          width="half"
        />
      </Form>
      {own.length > 0 && (
        <ul className={s.own}>
          {own.map((occasion) => (
            <li key={`${occasion.id} ${occasion.version}`}>
              <span>
                <strong>{occasion.name}</strong>, {storedRuleWords(occasion.rule)}
                <NextWords rule={occasion.rule} today={today} />
                {owners.length > 1 && <span className="quiet"> ({occasion.owner.name})</span>}
              </span>
              <Unfold label={sayParts('Change {name}', { name: occasion.name })}>
                <OccasionForm occasion={occasion} />
                <Form
                  action={removeOccasionAction}
                  hidden={{ id: occasion.id }}
                  submit={say('Take it out')}
                  submitKind="quiet"
                  isInline
                  label={say('Take out {name}', { name: occasion.name })}
                />
              </Unfold>
            </li>
          ))}
        </ul>
      )}
      <h3 className={s.add}>{say('A day of your own')}</h3>
      <Form
        action={saveOccasionAction}
        submit={say('Add this day')}
        submitKind="plain"
        clearsWhenDone
        label={say('Add a day of your own')}
        hidden={owners.length === 1 ? { ownerId: owners[0]?.id ?? '' } : {}}
      >
        <OccasionFields rule={null} />
        {owners.length > 1 && <OwnerField label={say('Whose')} owners={owners} ownerIds={ownerIds} />}
      </Form>
    </Section>
  )
}

const NextWords = ({ rule: text, today }: { rule: string; today: string }) => {
  const rule = parseRule(text)
  const next = rule && nextDay((year) => dayOfRule(rule, year), today)
  return <span className="quiet">{next ? say(': next {next}', { next: formatDate(next) }) : say(': gone by')}</span>
}

const OccasionForm = ({ occasion }: { occasion: KeptOccasion }) => (
  <Form
    action={saveOccasionAction}
    hidden={{ id: occasion.id, version: String(occasion.version) }}
    submit={say('Keep the change')}
    submitKind="plain"
    label={say('Change {name}', { name: occasion.name })}
  >
    <OccasionFields rule={parseRule(occasion.rule)} name={occasion.name} />
  </Form>
)

/** Only the fields of the kind chosen are in sight; the style sheet sees to it, so that it needs no script. */
function OccasionFields({ rule, name = '' }: { rule: OccasionRule | null; name?: string }) {
  const has = { month: 12, day: 24, weekday: 7, nth: 'last', days: 0, on: '', ...rule }
  return (
    <div className={s.rule}>
      <TextField name="name" label={say('What it is')} defaultValue={name} maxLength={120} width="half" isRequired />
      <SelectField
        name="kind"
        label={say('It falls on')}
        defaultValue={rule?.kind ?? 'fixed'}
        options={kindOptions()}
        width="half"
      />
      <span data-for="weekday">
        <SelectField
          name="nth"
          label={say('Which')}
          defaultValue={String(has.nth)}
          options={[...nthOptions(), { value: 'last', label: say('last') }]}
          width="short"
        />
      </span>
      <span data-for="weekday nearest">
        <SelectField
          name="weekday"
          label={say('Weekday')}
          defaultValue={String(has.weekday)}
          options={weekdayOptions()}
          width="short"
        />
      </span>
      <span data-for="fixed nearest">
        <NumberField name="day" label={say('Day')} isWhole defaultValue={has.day} />
      </span>
      <span data-for="fixed weekday nearest">
        <SelectField name="month" label={say('Month')} defaultValue={String(has.month)} options={monthOptions()} width="short" />
      </span>
      <span data-for="easter nearest">
        <NumberField name="days" label={say('Days from it')} isWhole defaultValue={Math.abs(has.days)} />
      </span>
      <span data-for="easter nearest">
        <SelectField
          name="side"
          label={say('Before or after')}
          defaultValue={has.days < 0 ? 'before' : 'after'}
          options={[
            { value: 'before', label: say('before it') },
            { value: 'after', label: say('after it') },
          ]}
          width="short"
        />
      </span>
      <span data-for="once">
        <DateField name="on" label={say('Date')} defaultValue={has.on} />
      </span>
    </div>
  )
}
