import { say } from '#language/say'
import { sayParts } from '#language/say-parts'
import type { ComparedLine, FoundElsewhere } from '#lib/db/count/read-comparison'
import { PlaceLabel } from '#trade/place-label'
import { ThreadName } from '#trade/thread-bar'
import { SelectField } from '#ui/field'
import { Link } from '#ui/link'
import { counted, listed } from '#words/amounts'
import { hexesOf } from '#words/colour'
import { dayOf } from '#words/date'
import { lineName } from '../../words'
import s from '../count.module.css'

type DecideLineProps = { line: ComparedLine; elsewhere?: FoundElsewhere; canDecide: boolean }

/** One line that is not as the record has it, and what can be done about it. */
export function DecideLine({ line, elsewhere, canDecide }: DecideLineProps) {
  const { thread, lot, place } = line
  const choices = line.outcome === 'accepted' || !canDecide ? [] : choicesOf(line)
  return (
    <li className={s.decide}>
      <div className={s.head}>
        {thread ? (
          <ThreadName
            maker={thread.makerName}
            code={thread.code}
            name={thread.name ?? undefined}
            note={lot ? say('lot {lot}', { lot }) : undefined}
            href={`/threads/${thread.id}`}
            hexes={hexesOf(thread.lab)}
          />
        ) : (
          <b>{line.found}</b>
        )}
        <PlaceLabel label={place.label} href={`/places/${place.id}`} />
      </div>
      <p className={s.figures}>
        <b>{differenceWords(line)}</b>
        {line.countedBy && line.counted !== null && sayParts(' Counted by {countedBy}.', { countedBy: line.countedBy })}
        {line.lastMoved &&
          sayParts(' Last moved {at}{rest}.', {
            at: dayOf(line.lastMoved.at),
            rest: line.lastMoved.who && say(' by {who}', { who: line.lastMoved.who }),
          })}
      </p>
      {line.found !== null && (
        <p className={s.figures}>
          {elsewhere
            ? sayParts('<link>The record</link> has {rest}', {
                link: (words) => <Link href={`/threads/${elsewhere.threadId}`}>{words}</Link>,
                rest:
                  elsewhere.where.length === 0
                    ? say('none of it whole anywhere.')
                    : `${listed(elsewhere.where.map(({ label, wholePutUps }) => say('{count, number} in {place}', { count: wholePutUps, place: label })))}.`,
              })
            : say('No one thread on record is called that.')}
        </p>
      )}
      {line.hasMoved && (
        <p className={s.figures}>
          {sayParts('<span>Its stock moved since</span>, so the figure may be of before or after: count it again.', {
            span: (words) => <span className="do">{words}</span>,
          })}
        </p>
      )}
      {line.outcome && (
        <p className={s.figures}>
          {outcomeWords(line)}
          {line.note && ` ${line.note}`}
        </p>
      )}
      {choices.length > 0 && (
        <div className={s.choice}>
          <SelectField
            name={`outcome-${line.id}`}
            label={<span>{say('What to do with {lineName}', { lineName: lineName(line) })}</span>}
            none={say('Decide later')}
            options={choices}
          />
          <input type="hidden" name={`saw-${line.id}`} value={line.counted ?? ''} />
        </div>
      )}
    </li>
  )
}

function differenceWords({ counted: figure, expected, putUpWord }: ComparedLine): string {
  if (figure === null) return say('Not counted; the record has {counted}.', { counted: counted(expected, putUpWord) })
  const difference = figure - expected
  const against = say('{figure} counted, the record has {expected}', { figure, expected })
  return difference === 0
    ? say('{against}: right.', { against })
    : say('{against}: {abs} {differenceCase, select, yes {over} other {under}}.', {
        against,
        abs: Math.abs(difference),
        differenceCase: difference > 0,
      })
}

const outcomeWords = ({ outcome, counted: figure }: ComparedLine): string =>
  outcome === 'accepted'
    ? say('The record is corrected to {figure}.', { figure })
    : outcome === 'left'
      ? say('Left as the record has it.')
      : figure === null
        ? say('To be counted again.')
        : say('Counted again.')

function choicesOf(line: ComparedLine) {
  const isDifferent = line.counted !== null && line.counted !== line.expected
  return [
    ...(isDifferent && line.found === null && !line.hasMoved
      ? [{ value: 'accepted', label: say('Correct the record to {counted}', { counted: line.counted }) }]
      : []),
    ...(line.outcome === 'recount' && line.counted === null
      ? []
      : [{ value: 'recount', label: line.counted === null ? say('Have it counted') : say('Count it again') }]),
    ...(isDifferent ? [{ value: 'left', label: line.found === null ? say('Leave the record') : say('Seen to') }] : []),
  ]
}
