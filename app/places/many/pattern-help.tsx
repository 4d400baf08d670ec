import { say } from '#language/say'
import s from './many.module.css'

const ways = (): readonly [string, string][] => [
  ['T[1-8]', say('T1, T2 … T8. Text stands for itself; brackets count.')],
  ['R1-[01-40]', say('R1-01 … R1-40: zeros make all numbers equally wide.')],
  ['Shelf [A-F]', say('Shelf A … Shelf F: letters, capital or small.')],
  [
    'R[10-90 by 10]',
    say(
      'R10, R20 … R90: gaps, so that a place can be put in between later. Shops that number with gaps need not relabel a wall.',
    ),
  ],
  ['D[1-4, 6, 8-12]', say('Leaves D5 and D7 out.')],
  [
    'T[2-4] > .[1-5] > -[01-40]',
    say('Each > goes inside: T2, in it T2.1 to T2.5, in each of those 40 compartments, T2.1-14 among them.'),
  ],
  ['T[2-4].[1-5]', say('Without > they stand side by side: T2.1, T2.2 … T4.5.')],
]

/** The pattern language, by example. */
export function PatternHelp() {
  return (
    <>
      <dl className={s.ways}>
        {ways().map(([pattern, meaning]) => (
          <div key={pattern}>
            <dt className={s.pattern}>{pattern}</dt>
            <dd>{meaning}</dd>
          </div>
        ))}
      </dl>
      <p>
        {say(
          'The signs [ ] and > cannot be part of a label here. At most 5,000 places are made at once, six deep, with labels of up to 60 characters.',
        )}
      </p>
    </>
  )
}
