import { formatDate } from '#language/day'
import { withDecimalMark } from '#language/figures'
import { say } from '#language/say'
import { sayParts } from '#language/say-parts'
import { findLearntAllowance, listUseReadings, type UseReading } from '#lib/db/settings/use-readings'
import type { ThreadLengthUnit } from '#lib/quantity/thread-length'
import { factorOf, fewestReadings, isAllowance, type LearntAllowance } from '#lib/thread/allowance'
import { Form } from '#ui/form'
import { type Column, Ledger } from '#ui/ledger'
import { Link } from '#ui/link'
import { Section } from '#ui/section'
import { Unfold } from '#ui/unfold'
import { counted, threadLength } from '#words/amounts'
import { threadName } from '#words/thread'
import { saveAllowanceAction } from './actions'
import s from './settings.module.css'

const mostShown = 200
const two = (factor: number): string => withDecimalMark(factor.toFixed(2))

type OwnAllowanceProps = { ownerIds: readonly string[]; allowance: number; unit: ThreadLengthUnit }

/** What the finished pieces say of a person's own allowance: offered with its spread and every reading, never taken unasked. */
export async function OwnAllowance({ ownerIds, allowance, unit }: OwnAllowanceProps) {
  const [{ learnt, readingCount }, { readings, next }] = await Promise.all([
    findLearntAllowance(ownerIds),
    listUseReadings(ownerIds, { limit: mostShown }),
  ])
  return (
    <Section
      title={say('Your own allowance')}
      id="own-allowance"
      note={say('By what finished pieces took, where what was left over was measured or weighed.')}
    >
      <div className={s.learnt}>
        {learnt ? (
          <>
            <p>
              {sayParts('<strong>Your own: {two}</strong> {learnt}.', {
                strong: (words) => <strong>{words}</strong>,
                two: two(learnt.factor),
                learnt: learntWords(learnt),
              })}
            </p>
            {learnt.factor === allowance ? (
              <p className="quiet">{say('Every design without an allowance of its own is reckoned with it.')}</p>
            ) : (
              <Form
                action={saveAllowanceAction}
                submit={say('Reckon with {two} instead of {allowance}', { two: two(learnt.factor), allowance })}
                submitKind="plain"
                hidden={{ allowance: String(learnt.factor) }}
                label={say('Use your own allowance')}
              />
            )}
          </>
        ) : (
          <p>
            {sayParts(
              'Not known yet: it takes {fewestReadings} readings that can be true, and there {readings}. When you finish a piece whose key counts its stitches, measure or weigh what is left of its threads.',
              { fewestReadings, readings: readingsWords(readingCount) },
            )}
          </p>
        )}
        {readings.length > 0 && (
          <Unfold label={say('Every reading, piece by piece')}>
            <Ledger
              caption={say('What finished pieces took')}
              columns={columnsIn(unit)}
              groups={byPiece(readings)}
              rowKey={({ id }) => id}
              foot={
                next === null
                  ? counted(readings.length, 'reading')
                  : say('The last {mostShown} readings of {readingCount}', { mostShown, readingCount })
              }
            />
          </Unfold>
        )}
      </div>
    </Section>
  )
}

const readingsWords = (count: number): string =>
  count === 0
    ? say('are none')
    : say('{count, plural, one {is} other {are}} {count, plural, one {# reading} other {# readings}}', { count })

/** "from 6 colours of 3 finished pieces, between 1.31 and 1.55, the middle half of them between 1.38 and 1.46". */
function learntWords({ colourCount, pieceCount, least, most, lowerQuarter, upperQuarter }: LearntAllowance): string {
  const from = say(
    'from {colourCount, plural, one {# colour} other {# colours}} of {pieceCount, plural, one {# finished piece} other {# finished pieces}}',
    { colourCount, pieceCount },
  )
  return say('{from}, between {two} and {two2}, the middle half of them between {two3} and {two4}', {
    from,
    two: two(least),
    two2: two(most),
    two3: two(lowerQuarter),
    two4: two(upperQuarter),
  })
}

function byPiece(readings: readonly UseReading[]) {
  const groups = new Map<string, UseReading[]>()
  for (const reading of readings) groups.set(reading.projectId, [...(groups.get(reading.projectId) ?? []), reading])
  return [...groups].map(([projectId, rows]) => {
    const { title, finishedOn } = (rows[0] as UseReading).piece
    return {
      key: projectId,
      title: (
        <Link href={`/projects/${projectId}`} className="title">
          {title}
        </Link>
      ),
      note: finishedOn && formatDate(finishedOn),
      rows,
    }
  })
}

function columnsIn(unit: ThreadLengthUnit): Column<UseReading>[] {
  const length = (strandTenths: number, { thread }: UseReading) => threadLength(strandTenths, thread.strands, unit)
  return [
    {
      key: 'thread',
      head: say('Thread'),
      phone: 'lead',
      cell: ({ thread }) => <Link href={`/threads/${thread.id}`}>{threadName(thread)}</Link>,
    },
    {
      key: 'used',
      head: say('Used'),
      isNumeric: true,
      phone: 'labelled',
      cell: (reading) => `${length(reading.usedStrandTenths, reading)}, ${reading.how}`,
    },
    {
      key: 'flat',
      head: say('In knots and beads'),
      isNumeric: true,
      phone: 'labelled',
      cell: (reading) => (reading.flatStrandTenths === 0 ? say('none') : length(reading.flatStrandTenths, reading)),
    },
    {
      key: 'plain',
      head: say('In the stitches'),
      isNumeric: true,
      phone: 'labelled',
      cell: (reading) => length(reading.plainStrandTenths, reading),
    },
    {
      key: 'factor',
      head: say('Factor'),
      isNumeric: true,
      phone: 'side',
      cell: (reading) => {
        const factor = factorOf(reading)
        return isAllowance(factor) ? <b>{two(factor)}</b> : say('{two}, left out: it cannot be true', { two: two(factor) })
      },
    },
  ]
}
