/** A colour as `#8e2f2b`. */
export type Hex = `#${string}`

/** How the colours lie on the bar: one colour; tones one after another; two threads wound together. */
export type Dye = 'solid' | 'overdyed' | 'blend'

type WindingProps = { x: number; y: number; width: number; height: number; hexes: readonly Hex[]; dye: Dye }

// Chosen by eye: the thread's slant and the spacing of its lay, in drawing units.
const slant = 4
const lay = 3

/** The thread wound on a card, without the card: its colours and the lay of the strand. No colour known: bare card, dashed. */
export function Winding({ x, y, width, height, hexes, dye }: WindingProps) {
  if (hexes.length === 0 || width <= 0)
    return (
      <rect
        x={x}
        y={y}
        width={Math.max(0, width)}
        height={height}
        fill="var(--paper)"
        stroke="var(--ink)"
        strokeWidth="var(--pen-fine)"
        strokeDasharray="var(--dash)"
      />
    )
  const outline = `M${round(x)} ${y}h${round(width)}v${height}h${round(-width)}z`
  return (
    <g style={{ forcedColorAdjust: 'none' }}>
      <path d={outline} fill={hexes[0]} />
      {dye === 'solid' || hexes.length === 1
        ? null
        : bands(x, width, dye, hexes.length).map((band) => (
            <path
              key={band.from}
              fill={hexes[band.tone]}
              d={`M${round(Math.min(band.from + slant, band.to))} ${y}H${round(band.to)}L${round(Math.max(band.to - slant, x))} ${y + height}H${round(Math.max(band.from - slant / 2, x))}z`}
            />
          ))}
      <path d={layLines(x, y, width, height, 0)} stroke="#000" strokeOpacity=".28" fill="none" />
      <path d={layLines(x, y, width, height, 1)} stroke="#fff" strokeOpacity=".22" fill="none" />
      <path d={outline} fill="none" stroke="var(--ink)" strokeWidth="var(--pen-fine)" />
    </g>
  )
}

const round = (value: number) => Math.round(value * 10) / 10

type Band = { from: number; to: number; tone: number }

/** Overdyed: tones in uneven stretches. Blend: the threads turn about, each as wide as the next. The first tone is the ground. */
function bands(x: number, width: number, dye: Dye, tones: number): Band[] {
  const drawn: Band[] = []
  const stretches = dye === 'blend' ? [lay] : [6, 9, 5, 8]
  let from = x
  for (let index = 0; from < x + width; index++) {
    const to = Math.min(from + (stretches[index % stretches.length] ?? lay), x + width)
    const tone = index % tones
    if (tone > 0) drawn.push({ from, to, tone })
    from = to
  }
  return drawn
}

function layLines(x: number, y: number, width: number, height: number, offset: number): string {
  let path = ''
  for (let at = x + slant + offset; at < x + width; at += lay) path += `M${round(at)} ${y}l${-slant} ${height}`
  return path
}
