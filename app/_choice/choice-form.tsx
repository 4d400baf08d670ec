import type { ReactNode } from 'react'
import { say } from '#language/say'
import { sayParts } from '#language/say-parts'
import type { ChoiceCandidate, ChoiceQuestion } from '#lib/db/planning/together/read-choice'
import type { ChoiceSource } from '#lib/planning/together/wish-value'
import { CheckField, FieldRow, NumberField, SelectField } from '#ui/field'
import { Form } from '#ui/form'
import { Section } from '#ui/section'
import { limitWords } from '#words/amounts'
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
    <Form action={startChoiceAction} submit={say('Find the best set')} hidden={{ screen, from }}>
      <Section title={say('What may be bought')} id="buying">
        <FieldRow>
          <SelectField
            name="buying"
            label={say('Buying')}
            width="half"
            defaultValue="nothing"
            options={[
              { value: 'nothing', label: say('Nothing bought') },
              { value: 'put-ups', label: say('So many put-ups at most') },
              { value: 'budget', label: say('For so much money at most') },
            ]}
          />
          <NumberField name="most" label={say('How many, or how much')} width="half" />
        </FieldRow>
        {withoutPrice > 0 && (
          <p className="quiet">
            {say(
              '{withoutPrice, plural, one {# thread} other {# threads}} {withoutPrice, plural, one {has} other {have}} no price: with a budget {withoutPrice, plural, one {it is} other {they are}} not bought, by the count of put-ups {withoutPrice, plural, one {it} other {they}} may be.',
              { withoutPrice },
            )}
          </p>
        )}
        <CheckField
          name="hasLadder"
          label={say('Also show what a little more, or less, would bring')}
          defaultChecked={screen === 'together'}
        />
      </Section>
      {children}
      <Section
        title={say('Designs')}
        id="designs"
        note={say('What each counts is reckoned from stars, days and seasons. Type a figure to count it otherwise.')}
      >
        <ul className={s.list}>
          {candidates.map((candidate) => (
            <Candidate key={candidate.designId} candidate={candidate} />
          ))}
        </ul>
        {passedOver.designs > 0 && (
          <p className="quiet">
            {sayParts(
              '{mostWeighed} are weighed at a time: {designs, plural, one {# more design} other {# more designs}} could be stitched and are left aside.',
              { mostWeighed, designs: passedOver.designs },
            )}
          </p>
        )}
      </Section>
      <SelectField
        name="seconds"
        label={say('Search for at most')}
        defaultValue={String(usualLimit)}
        options={choiceLimits.map((seconds) => ({ value: String(seconds), label: limitWords(seconds) }))}
        hint={say('It ends sooner when nothing better can be; what it finds by then is as good as was found.')}
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
        {shortPutUps > 0 && (
          <small className="do">
            {say('short of {shortPutUps, plural, one {# put-up} other {# put-ups}} by itself', { shortPutUps })}
          </small>
        )}
        {wishes.length > 0 && <Stars projectIds={wishes.map(({ projectId }) => projectId)} stars={stars} title={title} />}
      </div>
      <SelectField
        name={`pin.${designId}`}
        defaultValue={pin}
        label={<span className="vh">{sayParts('{title}, whether it is in', { title })}</span>}
        options={[
          { value: 'may', label: say('May be in') },
          { value: 'in', label: say('Must be in') },
          { value: 'out', label: say('Not in') },
        ]}
      />
      <NumberField
        name={`value.${designId}`}
        isWhole
        placeholder={String(usual)}
        label={sayParts('{title}counts', { title: <span className="vh">{title} </span> })}
      />
    </li>
  )
}
