import { say } from '#language/say'
import { labToHex } from '#lib/colour/convert'
import type { Lab } from '#lib/colour/lab'
import type { Dyeing } from '#lib/thread/thread'
import { ThreadBar } from '#trade/thread-bar'
import type { Hex } from '#trade/winding'
import type { Column } from '#ui/ledger'

type ThreadMarkProps = { lab: Lab | null; dyeing: Dyeing; size?: 'small' | 'plain' | 'large' }

/** How far the tones of a dyed bar lie from its one recorded colour, in lightness. Chosen by eye: enough to be seen at 34 pixels. */
const toneStep = 9

/** A thread's bar in its recorded colour; one that is not solid is drawn in a lighter and a darker tone of it too. */
export function ThreadMark({ lab, dyeing, size }: ThreadMarkProps) {
  if (lab === null) return <ThreadBar hexes={[]} size={size} />
  const tones = dyeing === 'solid' ? [0] : [0, toneStep, -toneStep]
  const hexes = tones.map((tone) => labToHex({ ...lab, L: Math.min(100, Math.max(0, lab.L + tone)) }) as Hex)
  return <ThreadBar hexes={hexes} dye={dyeing === 'solid' ? 'solid' : 'overdyed'} size={size} />
}

/** The first column of a list of threads. */
export const threadMarkColumn = (): Column<{ lab: Lab | null; line: { dyeing: Dyeing } }> => ({
  key: 'bar',
  head: say('Colour'),
  headIsHidden: true,
  cell: ({ lab, line }) => <ThreadMark lab={lab} dyeing={line.dyeing} />,
  width: '3rem',
  phone: 'mark',
})
