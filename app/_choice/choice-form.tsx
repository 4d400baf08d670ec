import type { ReactNode } from 'react'
import type { ChoiceCandidate, ChoiceQuestion } from '#lib/db/planning/together/read-choice'
import type { ChoiceSource } from '#lib/planning/together/wish-value'
import { CheckField, FieldRow, NumberField, SelectField } from '#ui/field'
import { Form } from '#ui/form'
import { Section } from '#ui/section'
import { counted, limitWords } from '#words/amounts'
import { valueWords } from '#words/choice'
import { startChoiceAction } from './actions'
import s from './choice.module.css'
import { choiceLimits, usualLimit } from './schema'
import type { ChoiceScreen } from './screens'
import { Stars } from './stars'

type ChoiceFormProps = {
  screen: ChoiceScreen
  from: ChoiceSource
  candidates: readonly ChoiceCandidate[]
  question: Pick<ChoiceQuestion, 'withoutPrice' | 'passedOver'>
  /** What is weighed at most. */
  mostWeighed: number
  /** How the cloth is asked about. */
  children: ReactNode
}

/** What is chosen from and within which limits; sent off, it begins to choose. */
export function ChoiceForm({ screen, from, candidates, question, mostWeighed, children }: ChoiceFormProps) {
  const { withoutPrice, passedOver } = question
  return (
    <Form action={startChoiceAction} submit="Find the best set" hidden={{ screen, from }}>
      <Section title="What may be bought" id="buying">
        <FieldRow>
          <SelectField
            name="buying"
            label="Buying"
            width="half"
            defaultValue="nothing"
            options={[
              { value: 'nothing', label: 'Nothing bought' },
              { value: 'put-ups', label: 'So many put-ups at most' },
              { value: 'budget', label: 'For so much money at most' },
            ]}
          />
          <NumberField name="most" label="How many, or how much" width="half" />
        </FieldRow>
        {withoutPrice > 0 && (
          <p className="quiet">
            {counted(withoutPrice, 'thread')} {withoutPrice === 1 ? 'has' : 'have'} no price: with a budget{' '}
            {withoutPrice === 1 ? 'it is' : 'they are'} not bought, by the count of put-ups {withoutPrice === 1 ? 'it' : 'they'}{' '}
            may be.
          </p>
        )}
        <CheckField
          name="hasLadder"
          label="Also show what a little more, or less, would bring"
          defaultChecked={screen === 'together'}
        />
      </Section>
      {children}
      <Section
        title="Designs"
        id="designs"
        note="What each counts is reckoned from stars, days and seasons. Type a figure to count it otherwise."
      >
        <ul className={s.list}>
          {candidates.map((candidate) => (
            <Candidate key={candidate.designId} candidate={candidate} />
          ))}
        </ul>
        {passedOver.designs > 0 && (
          <p className="quiet">
            {mostWeighed} are weighed at a time: {counted(passedOver.designs, 'more design')} could be stitched and are left
            aside.
          </p>
        )}
      </Section>
      <SelectField
        name="seconds"
        label="Search for at most"
        defaultValue={String(usualLimit)}
        options={choiceLimits.map((seconds) => ({ value: String(seconds), label: limitWords(seconds) }))}
        hint="It ends sooner when nothing better can be; what it finds by then is as good as was found."
      />
    </Form>
  )
}

function Candidate({ candidate }: { candidate: ChoiceCandidate }) {
  const { designId, title, copies, wishes, parts, usual, pin, shortPutUps } = candidate
  const stars = wishes.reduce<number | null>((most, one) => (one.stars === null ? most : Math.max(most ?? 0, one.stars)), null)
  return (
    <li className={s.design}>
      <input type="hidden" name="design" value={designId} />
      <div className={s.what}>
        <span className="title">{title}</span>
        {copies > 1 && <span className="nb"> × {copies}</span>}
        <small>
          {valueWords(parts)}
          {parts.length > 1 && <b className="nb"> = {usual}</b>}
        </small>
        {shortPutUps > 0 && <small className="do">short of {counted(shortPutUps, 'put-up')} by itself</small>}
        {wishes.length > 0 && <Stars projectIds={wishes.map(({ projectId }) => projectId)} stars={stars} title={title} />}
      </div>
      <SelectField
        name={`pin.${designId}`}
        defaultValue={pin}
        label={<span className="vh">{title}, whether it is in</span>}
        options={[
          { value: 'may', label: 'May be in' },
          { value: 'in', label: 'Must be in' },
          { value: 'out', label: 'Not in' },
        ]}
      />
      <NumberField
        name={`value.${designId}`}
        isWhole
        placeholder={String(usual)}
        label={
          <>
            <span className="vh">{title} </span>counts
          </>
        }
      />
    </li>
  )
}
