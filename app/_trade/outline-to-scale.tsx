import { say } from '#language/say'

type OutlineToScaleProps = {
  widthStitches: number
  heightStitches: number
  /** The longest side of any outline in the list: the scale all of them share. */
  longestStitches: number
  /** Side of the square each outline stands in, in px. */
  box?: number
}

/** A design's outline on the scale its list shares, with a hairline every 20 stitches. The figures stand beside it in words. */
export function OutlineToScale({ widthStitches, heightStitches, longestStitches, box = 52 }: OutlineToScaleProps) {
  const pxPerStitch = (box - 2) / Math.max(longestStitches, widthStitches, heightStitches, 1)
  // A very small design still shows as something.
  const width = Math.max(widthStitches * pxPerStitch, 3)
  const height = Math.max(heightStitches * pxPerStitch, 3)
  const left = (box - width) / 2
  const top = 1
  let weave = ''
  const gap = 20 * pxPerStitch
  if (gap >= 3) {
    for (let x = gap; x < width - 1; x += gap) weave += `M${(left + x).toFixed(1)} ${top}v${height.toFixed(1)}`
    for (let y = gap; y < height - 1; y += gap) weave += `M${left.toFixed(1)} ${(top + y).toFixed(1)}h${width.toFixed(1)}`
  }
  return (
    <svg viewBox={`0 0 ${box} ${(height + 2).toFixed(1)}`} width={box} height={(height + 2).toFixed(1)} aria-hidden="true">
      <path d={weave} stroke="var(--hair)" fill="none" />
      <rect x={left} y={top} width={width} height={height} fill="none" stroke="currentColor" strokeWidth="var(--pen-fine)" />
    </svg>
  )
}

type OutlineScaleProps = { longestStitches: number; box?: number; stitches?: number }

/** The bar that says how long 100 stitches are, for the head of the column. */
export function OutlineScale({ longestStitches, box = 52, stitches = 100 }: OutlineScaleProps) {
  const length = (stitches * (box - 2)) / Math.max(longestStitches, 1)
  return (
    <svg
      viewBox={`0 0 ${(length + 34).toFixed(1)} 12`}
      width={(length + 34).toFixed(1)}
      height="12"
      role="img"
      aria-label={say('Scale: this bar is {stitches} stitches', { stitches })}
    >
      <path d={`M1 2v8M${(1 + length).toFixed(1)} 2v8M1 6h${length.toFixed(1)}`} stroke="var(--edge)" fill="none" />
      <text x={(length + 6).toFixed(1)} y="10" fontSize="var(--t-drawing)" fill="var(--ink-3)">
        {stitches}
      </text>
    </svg>
  )
}
