'use client'

import { useId } from 'react'
import { say } from '#language/say'
import { needsLook } from '#lib/chart/reading-fields'
import { Suggestions } from '#ui/field'
import { counted } from '#words/amounts'
import type { SourceShown } from '../../../_reading/review-shown'
import { standingWords } from '../../../_reading/words'
import { StateMark } from '../state-mark'
import { acceptFact } from './corrections'
import { useDesk } from './desk-context'
import { type FactField, factFields, factLabels, factStanding, factsOf, factText, typedFact } from './facts'
import { FieldInput } from './field-input'
import { LineRow } from './line-row'
import s from './review.module.css'

type DesignReviewProps = {
  /** Its index in the reading. */
  design: number
  source: SourceShown
  makerNames: readonly string[]
  lineNames: readonly string[]
}

/** One design that was read: what the text says of it, and its thread lists. */
export function DesignReview({ design, source, makerNames, lineNames }: DesignReviewProps) {
  const { shown } = useDesk()
  const makersId = useId()
  const linesId = useId()
  const read = shown.reading.designs[design]
  if (!read) return null
  const { facts, lists } = read
  const title =
    facts.title?.value ?? (shown.reading.designs.length > 1 ? say('Design {design}', { design: design + 1 }) : say('The design'))
  return (
    <section className={s.design} aria-label={title}>
      <Suggestions id={makersId} suggestions={makerNames} />
      <Suggestions id={linesId} suggestions={lineNames} />
      <h2>{title}</h2>
      <div className={s.facts}>
        {factFields.map((field) => (
          <Fact key={field} design={design} field={field} />
        ))}
      </div>
      {lists.map((list, index) => (
        // biome-ignore lint/suspicious/noArrayIndexKey: a list is known by its place in the reading
        <div key={index} className={s.list}>
          <h3>
            {list.name ?? (lists.length > 1 ? say('List {index}', { index: index + 1 }) : say('Its key'))},{' '}
            {counted(list.lines.length, 'line')}
          </h3>
          <div className={s.heads} aria-hidden="true">
            <span />
            <span>{say('Symbol')}</span>
            <span>{say('Thread')}</span>
            <span>{say('Strands')}</span>
            <span>{say('Stitches')}</span>
            <span>{say('Skeins')}</span>
            <span />
          </div>
          {list.lines.map((line, at) => (
            <LineRow
              // biome-ignore lint/suspicious/noArrayIndexKey: a line is known by its place in the reading
              key={at}
              line={line}
              place={{ design, list: index, line: at }}
              source={source}
              makersId={makersId}
              linesId={linesId}
            />
          ))}
          {list.lines.length === 0 && <p className="quiet">{say('No line of a key was found here.')}</p>}
        </div>
      ))}
      {lists.length === 0 && <p className="quiet">{say('No key was found for it.')}</p>}
    </section>
  )
}

function Fact({ design, field }: { design: number; field: FactField }) {
  const { shown, units, correct } = useDesk()
  const facts = shown.reading.designs[design]?.facts
  if (!facts) return null
  const standing = factStanding(facts, field)
  const from = factsOf[field].flatMap((name) => facts[name]?.line ?? [])
  const accept = () => void correct(acceptFact(design, facts, factsOf[field]))
  const label = factLabels[field]
  if (field === 'over' || field === 'weave') return <FactChoice design={design} field={field} from={from} accept={accept} />
  return (
    <div className={s.fact} data-fact={field}>
      <span className={s.factLabel}>{label}</span>
      <FieldInput
        label={label}
        value={factText(facts, field, units.cloth)}
        standing={standing}
        column={`fact-${design}`}
        read={(text) => typedFact(design, field, text)}
        accept={accept}
        from={from}
      />
    </div>
  )
}

const choices = () =>
  ({
    over: [
      { value: '1', label: say('one thread') },
      { value: '2', label: say('two threads') },
    ],
    weave: [
      { value: 'single', label: say('single threads') },
      { value: 'block', label: say('blocks') },
    ],
  }) as const

type FactChoiceProps = { design: number; field: 'over' | 'weave'; from: readonly number[]; accept: () => void }

function FactChoice({ design, field, from, accept }: FactChoiceProps) {
  const { shown, units, correct, moveOn, setActive } = useDesk()
  const id = useId()
  const facts = shown.reading.designs[design]?.facts
  if (!facts) return null
  const standing = factStanding(facts, field)
  const isToBeLookedAt = needsLook(standing)
  return (
    <div className={s.fact} data-fact={field}>
      <span className={s.factLabel}>{factLabels[field]}</span>
      <span className={s.field}>
        <select
          className={s.input}
          aria-label={factLabels[field]}
          aria-describedby={`${id}-standing`}
          data-field=""
          data-look={isToBeLookedAt ? '' : undefined}
          data-column={`fact-${design}`}
          tabIndex={isToBeLookedAt ? 0 : -1}
          value={factText(facts, field, units.cloth)}
          onFocus={() => setActive(from)}
          onChange={(event) => {
            const typed = typedFact(design, field, event.target.value)
            if (typed.ok) void correct(typed.corrections)
          }}
          onKeyDown={(event) => {
            if (event.key !== 'Enter') return
            event.preventDefault()
            if (isToBeLookedAt) accept()
            moveOn(event.currentTarget)
          }}
        >
          <option value="">{say('not said')}</option>
          {choices()[field].map(({ value, label }) => (
            <option key={value} value={value}>
              {label}
            </option>
          ))}
        </select>
        <span className={s.under}>
          <StateMark mark={standing} word={standingWords[standing]} id={`${id}-standing`} />
        </span>
      </span>
    </div>
  )
}
