import { plainFigure } from '#language/figures'
import { formatClothLength } from '#language/lengths'
import { say } from '#language/say'
import { sayParts } from '#language/say-parts'
import { type CountedWay, enoughReadings, type RulerCount } from '#lib/cloth/ruler-count'
import { type LengthUnit, UM_PER_INCH } from '#lib/quantity/cloth-length'
import { type Count, sameCount } from '#lib/quantity/count'
import { Sum, Sums } from '#ui/sum'
import { Unfold } from '#ui/unfold'
import { counted as countedWords } from '#words/amounts'
import { countWords } from '#words/cloth-count'
import { describeCounts } from '../words'
import s from './count-desk.module.css'

const figure = (value: number, digits: number): string => plainFigure(Number(value.toFixed(digits)))

type CountResultProps = {
  counted: RulerCount
  /** What was on record of the piece. */
  held: { ends: Count; picks: Count } | null
  unit: LengthUnit
}

/** What the readings make: count, squareness, what it would be sold as, and how far to trust it. */
export function CountResult({ counted, held, unit }: CountResultProps) {
  const { ends, picks } = counted
  const ways = [
    { head: say('Across'), way: ends },
    { head: say('Up'), way: picks },
  ]
  const isOther = held !== null && !(sameCount(held.ends, ends.count) && sameCount(held.picks, picks.count))
  const isDoubtful = ways.some(({ way }) => way.readings.some(({ isOutlier }) => isOutlier))
  const few = Math.min(ends.readings.length, picks.readings.length)
  return (
    <div className={s.result}>
      <p className={s.count}>{countWords(ends.count, picks.count)}</p>
      <p>{describeCounts(ends.count, picks.count)}.</p>
      {isDoubtful && (
        <p className={s.wrong}>{say('A reading lies far from the others: count there again before this is trusted.')}</p>
      )}
      <p>
        <Squareness counted={counted} />
      </p>
      <p>
        {sayParts('Most likely sold as <b>{nominal} count</b>{rest}.', {
          b: (words) => <b>{words}</b>,
          nominal: counted.nominal,
          rest: isOther && say('; on record until now as {ends}', { ends: countWords(held.ends, held.picks) }),
        })}
      </p>
      <table className={s.spread}>
        <caption className="vh">{say('How far the readings lie apart, to the inch')}</caption>
        <thead>
          <tr>
            <th scope="col">{say('To the inch')}</th>
            <th scope="col">{say('Mean')}</th>
            <th scope="col">{say('Lowest to highest')}</th>
            <th scope="col">{say('Give or take')}</th>
          </tr>
        </thead>
        <tbody>
          {ways.map(({ head, way }) => (
            <tr key={head}>
              <th scope="row">{head}</th>
              <td>{figure((way.count.threads * 25_400) / way.count.perUm, 2)}</td>
              <td>{spreadWords(way)}</td>
              <td>{figure(way.givePerInch, 2)}</td>
            </tr>
          ))}
        </tbody>
      </table>
      {ways
        .filter(({ way }) => way.isApart)
        .map(({ head }) => (
          <p key={head} className={s.wrong}>
            {sayParts('{head}: the two readings differ by more than they should. Count a third place.', { head })}
          </p>
        ))}
      <Unfold label={say('How the count comes about')}>
        <Sums>
          {ways.map(({ head, way }) => (
            <WaySum key={head} head={head} way={way} unit={unit} />
          ))}
        </Sums>
      </Unfold>
      {few < enoughReadings && (
        <p className={s.note}>
          {say('{rest}: three each way is good practice.', {
            rest: few === 1 ? say('Counted in one place') : say('Counted in {counted}', { counted: countedWords(few, 'place') }),
          })}
        </p>
      )}
    </div>
  )
}

/** All that was counted, in all the length it was counted in. */
function WaySum({ head, way: { count, readings, givePerInch }, unit }: { head: string; way: CountedWay; unit: LengthUnit }) {
  const threads = readings.reduce((sum, reading) => sum + reading.threads, 0)
  const lengthUm = readings.reduce((sum, reading) => sum + reading.lengthUm, 0)
  return (
    <Sum
      title={head}
      rows={[
        ...readings.map((reading, at) => ({
          label: say('Place {at}', { at: at + 1 }),
          how: say('in {length}', { length: formatClothLength(reading.lengthUm, unit) }),
          figure: figure(reading.threads, 1),
        })),
        {
          label: say('Counted'),
          how: say('in {length}', { length: formatClothLength(lengthUm, unit) }),
          figure: figure(threads, 1),
          kind: 'rule',
        },
        {
          label: say('To the inch'),
          how: `${figure(threads, 1)} ÷ ${figure(lengthUm / UM_PER_INCH, 3)} in`,
          figure: figure((count.threads * UM_PER_INCH) / count.perUm, 2),
          kind: 'end',
        },
        {
          label: say('Give or take'),
          how: say('half a thread in each place: {half} ÷ {inches} in', {
            half: figure(readings.length / 2, 1),
            inches: figure(lengthUm / UM_PER_INCH, 3),
          }),
          figure: figure(givePerInch, 2),
        },
      ]}
    />
  )
}

const spreadWords = ({ leastPerInch, mostPerInch, readings }: CountedWay): string =>
  readings.length === 1
    ? say('one reading')
    : say('{figure} to {figure2}', { figure: figure(leastPerInch, 2), figure2: figure(mostPerInch, 2) })

function Squareness({ counted }: { counted: RulerCount }) {
  const percent = figure(counted.unevenPercent, 1)
  switch (counted.squareness) {
    case 'square':
      return say('Square, as far as a ruler shows.')
    case 'open':
      return say(
        'The two ways differ by {percent} %, which a ruler cannot tell from nothing: it may be square. Count over a longer length.',
        { percent },
      )
    case 'uneven': {
      const isCloserAcross =
        counted.ends.count.threads * counted.picks.count.perUm > counted.picks.count.threads * counted.ends.count.perUm
      return sayParts(
        '<b>Not square ({percent} %)</b>: upright, stitches come out {isCloserAcross, select, yes {taller than wide} other {wider than tall}}.',
        { b: (words) => <b>{words}</b>, percent, isCloserAcross },
      )
    }
  }
}
