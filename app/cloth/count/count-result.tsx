import { type CountedWay, enoughReadings, type RulerCount } from '#lib/cloth/ruler-count'
import { type Count, formatCount, sameCount } from '#lib/quantity/count'
import { counted as countedWords } from '#words/amounts'
import { describeCounts } from '../words'
import s from './count-desk.module.css'

const figure = (value: number, digits: number): string => String(Number(value.toFixed(digits)))

type CountResultProps = {
  counted: RulerCount
  /** What was on record of the piece. */
  held: { ends: Count; picks: Count } | null
}

/** What the readings make: count, squareness, what it would be sold as, and how far to trust it. */
export function CountResult({ counted, held }: CountResultProps) {
  const { ends, picks } = counted
  const ways = [
    { head: 'Across', way: ends },
    { head: 'Up', way: picks },
  ]
  const isOther = held !== null && !(sameCount(held.ends, ends.count) && sameCount(held.picks, picks.count))
  const isDoubtful = ways.some(({ way }) => way.readings.some(({ isOutlier }) => isOutlier))
  const few = Math.min(ends.readings.length, picks.readings.length)
  return (
    <div className={s.result}>
      <p className={s.count}>{formatCount(ends.count, picks.count)}</p>
      <p>{describeCounts(ends.count, picks.count)}.</p>
      {isDoubtful && <p className={s.wrong}>A reading lies far from the others: count there again before this is trusted.</p>}
      <p>
        <Squareness counted={counted} />
      </p>
      <p>
        Most likely sold as <b>{counted.nominal} count</b>
        {isOther && <>; on record until now as {formatCount(held.ends, held.picks)}</>}.
      </p>
      <table className={s.spread}>
        <caption className="vh">How far the readings lie apart, to the inch</caption>
        <thead>
          <tr>
            <th scope="col">To the inch</th>
            <th scope="col">Mean</th>
            <th scope="col">Lowest to highest</th>
            <th scope="col">Give or take</th>
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
            {head}: the two readings differ by more than they should. Count a third place.
          </p>
        ))}
      {few < enoughReadings && (
        <p className={s.note}>
          {few === 1 ? 'Counted in one place' : `Counted in ${countedWords(few, 'place')}`}: three each way is good practice.
        </p>
      )}
    </div>
  )
}

const spreadWords = ({ leastPerInch, mostPerInch, readings }: CountedWay): string =>
  readings.length === 1 ? 'one reading' : `${figure(leastPerInch, 2)} to ${figure(mostPerInch, 2)}`

function Squareness({ counted }: { counted: RulerCount }) {
  const percent = figure(counted.unevenPercent, 1)
  switch (counted.squareness) {
    case 'square':
      return 'Square, as far as a ruler shows.'
    case 'open':
      return `The two ways differ by ${percent} %, which a ruler cannot tell from nothing: it may be square. Count over a longer length.`
    case 'uneven': {
      const isCloserAcross =
        counted.ends.count.threads * counted.picks.count.perUm > counted.picks.count.threads * counted.ends.count.perUm
      return (
        <>
          <b>Not square ({percent} %)</b>: upright, stitches come out {isCloserAcross ? 'taller than wide' : 'wider than tall'}.
        </>
      )
    }
  }
}
