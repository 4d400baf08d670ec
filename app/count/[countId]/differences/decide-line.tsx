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
            note={lot ? `lot ${lot}` : undefined}
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
        {line.countedBy && line.counted !== null && <> Counted by {line.countedBy}.</>}
        {line.lastMoved && (
          <>
            {' '}
            Last moved {dayOf(line.lastMoved.at)}
            {line.lastMoved.who && ` by ${line.lastMoved.who}`}.
          </>
        )}
      </p>
      {line.found !== null && (
        <p className={s.figures}>
          {elsewhere ? (
            <>
              <Link href={`/threads/${elsewhere.threadId}`}>The record</Link> has{' '}
              {elsewhere.where.length === 0
                ? 'none of it whole anywhere.'
                : `${listed(elsewhere.where.map(({ label, wholePutUps }) => `${wholePutUps} in ${label}`))}.`}
            </>
          ) : (
            'No one thread on record is called that.'
          )}
        </p>
      )}
      {line.hasMoved && (
        <p className={s.figures}>
          <span className="do">Its stock moved since</span>, so the figure may be of before or after: count it again.
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
            label={<span>What to do with {lineName(line)}</span>}
            none="Decide later"
            options={choices}
          />
          <input type="hidden" name={`saw-${line.id}`} value={line.counted ?? ''} />
        </div>
      )}
    </li>
  )
}

function differenceWords({ counted: figure, expected, putUpWord }: ComparedLine): string {
  if (figure === null) return `Not counted; the record has ${counted(expected, putUpWord)}.`
  const difference = figure - expected
  const against = `${figure} counted, the record has ${expected}`
  return difference === 0 ? `${against}: right.` : `${against}: ${Math.abs(difference)} ${difference > 0 ? 'over' : 'under'}.`
}

const outcomeWords = ({ outcome, counted: figure }: ComparedLine): string =>
  outcome === 'accepted'
    ? `The record is corrected to ${figure}.`
    : outcome === 'left'
      ? 'Left as the record has it.'
      : figure === null
        ? 'To be counted again.'
        : 'Counted again.'

function choicesOf(line: ComparedLine) {
  const isDifferent = line.counted !== null && line.counted !== line.expected
  return [
    ...(isDifferent && line.found === null && !line.hasMoved
      ? [{ value: 'accepted', label: `Correct the record to ${line.counted}` }]
      : []),
    ...(line.outcome === 'recount' && line.counted === null
      ? []
      : [{ value: 'recount', label: line.counted === null ? 'Have it counted' : 'Count it again' }]),
    ...(isDifferent ? [{ value: 'left', label: line.found === null ? 'Leave the record' : 'Seen to' }] : []),
  ]
}
