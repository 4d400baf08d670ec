import { formatDate } from '#language/day'
import { type KeptOccasion, listOwnOccasions } from '#lib/db/planning/days/occasions'
import { dayOfRule, nextDay, type OccasionRule, parseRule } from '#lib/planning/days/occasion-rule'
import { countries } from '#lib/planning/days/occasions'
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

const countryOptions = Object.entries(countries)
  .map(([value, label]) => ({ value, label }))
  .sort((a, b) => (a.label < b.label ? -1 : 1))
const kindOptions = [
  { value: 'fixed', label: 'the same day every year' },
  { value: 'weekday', label: 'a weekday of a month' },
  { value: 'easter', label: 'so many days from Easter' },
  { value: 'nearest', label: 'the weekday nearest a day' },
  { value: 'once', label: 'once' },
]
const nthOptions = ['first', 'second', 'third', 'fourth', 'fifth'].map((label, at) => ({ value: String(at + 1), label }))

/** Which feasts are known, and the days somebody keeps besides. */
export async function OccasionsSection({ viewer: { settings, owners, ownerIds } }: { viewer: Viewer }) {
  const own = await listOwnOccasions(owners.map(({ id }) => id))
  const today = calendarDay(new Date())
  return (
    <Section
      title="Occasions"
      id="occasions"
      note={
        <>
          What works are due for; they stand in <Link href="/calendar">By when</Link>.
        </>
      }
    >
      <Form action={saveCountryAction} submit="Keep it" submitKind="plain" isInline label="Feasts and customary days">
        <SelectField
          name="country"
          label="Feasts and customary days as in"
          defaultValue={settings.planning.country}
          options={countryOptions}
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
              <Unfold label={<>Change {occasion.name}</>}>
                <OccasionForm occasion={occasion} />
                <Form
                  action={removeOccasionAction}
                  hidden={{ id: occasion.id }}
                  submit="Take it out"
                  submitKind="quiet"
                  isInline
                  label={`Take out ${occasion.name}`}
                />
              </Unfold>
            </li>
          ))}
        </ul>
      )}
      <h3 className={s.add}>A day of your own</h3>
      <Form
        action={saveOccasionAction}
        submit="Add this day"
        submitKind="plain"
        clearsWhenDone
        label="Add a day of your own"
        hidden={owners.length === 1 ? { ownerId: owners[0]?.id ?? '' } : {}}
      >
        <OccasionFields rule={null} />
        {owners.length > 1 && <OwnerField label="Whose" owners={owners} ownerIds={ownerIds} />}
      </Form>
    </Section>
  )
}

const NextWords = ({ rule: text, today }: { rule: string; today: string }) => {
  const rule = parseRule(text)
  const next = rule && nextDay((year) => dayOfRule(rule, year), today)
  return <span className="quiet">{next ? `: next ${formatDate(next)}` : ': gone by'}</span>
}

const OccasionForm = ({ occasion }: { occasion: KeptOccasion }) => (
  <Form
    action={saveOccasionAction}
    hidden={{ id: occasion.id, version: String(occasion.version) }}
    submit="Keep the change"
    submitKind="plain"
    label={`Change ${occasion.name}`}
  >
    <OccasionFields rule={parseRule(occasion.rule)} name={occasion.name} />
  </Form>
)

/** Only the fields of the kind chosen are in sight; the style sheet sees to it, so that it needs no script. */
function OccasionFields({ rule, name = '' }: { rule: OccasionRule | null; name?: string }) {
  const has = { month: 12, day: 24, weekday: 7, nth: 'last', days: 0, on: '', ...rule }
  return (
    <div className={s.rule}>
      <TextField name="name" label="What it is" defaultValue={name} maxLength={120} width="half" isRequired />
      <SelectField name="kind" label="It falls on" defaultValue={rule?.kind ?? 'fixed'} options={kindOptions} width="half" />
      <span data-for="weekday">
        <SelectField
          name="nth"
          label="Which"
          defaultValue={String(has.nth)}
          options={[...nthOptions, { value: 'last', label: 'last' }]}
          width="short"
        />
      </span>
      <span data-for="weekday nearest">
        <SelectField name="weekday" label="Weekday" defaultValue={String(has.weekday)} options={weekdayOptions} width="short" />
      </span>
      <span data-for="fixed nearest">
        <NumberField name="day" label="Day" isWhole defaultValue={has.day} />
      </span>
      <span data-for="fixed weekday nearest">
        <SelectField name="month" label="Month" defaultValue={String(has.month)} options={monthOptions} width="short" />
      </span>
      <span data-for="easter nearest">
        <NumberField name="days" label="Days from it" isWhole defaultValue={Math.abs(has.days)} />
      </span>
      <span data-for="easter nearest">
        <SelectField
          name="side"
          label="Before or after"
          defaultValue={has.days < 0 ? 'before' : 'after'}
          options={[
            { value: 'before', label: 'before it' },
            { value: 'after', label: 'after it' },
          ]}
          width="short"
        />
      </span>
      <span data-for="once">
        <DateField name="on" label="Date" defaultValue={has.on} />
      </span>
    </div>
  )
}
