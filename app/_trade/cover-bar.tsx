import { say } from '#language/say'
import { type CoverScale, coverBarBox, listScaleMarks } from './cover-scale'
import { type Dye, type Hex, Winding } from './winding'

type CoverBarProps = {
  need: number
  /** Null when how much there is has not been judged. */
  free: number | null
  scale: CoverScale
  hexes: readonly Hex[]
  dye?: Dye
  /** Whether what is missing is to be bought; not so where a swap is held or it lies elsewhere. Usually: where less is free than needed. */
  isWanting?: boolean
  /** The whole of it in words: "need 7.2 m, free 16 m". */
  label: string
  width?: number
}

/**
 * Free against need: the card is the need, the winding what is free, the dashed part what is wanting; an upright line is where the
 * need ends, a break says it runs on beyond the scale.
 */
export function CoverBar({ need, free, scale, hexes, dye = 'solid', isWanting = true, label, width = 212 }: CoverBarProps) {
  const box = coverBarBox({ need, free: free ?? 0 }, scale, width - 2)
  return (
    <svg viewBox={`0 0 ${width} 21`} width={width} height="21" role="img" aria-label={label}>
      {listScaleMarks(scale)
        .slice(1)
        .map((mark) => {
          const x = 1 + (mark / scale.full) * (width - 2)
          return <path key={mark} d={`M${x.toFixed(1)} 0v21`} stroke="var(--hair)" />
        })}
      <rect
        x="1"
        y="6"
        width={Math.max(box.need, 1)}
        height="9"
        fill="var(--paper)"
        stroke="var(--ink)"
        strokeWidth="var(--pen-hair)"
      />
      {free === null ? (
        <rect
          x="1"
          y="2.5"
          width={Math.max(box.need, 8)}
          height="16"
          fill="none"
          stroke="var(--ink)"
          strokeWidth="var(--pen-fine)"
          strokeDasharray="var(--dash)"
        />
      ) : (
        <>
          {box.free > 0 && <Winding x={1} y={2.5} width={Math.max(box.free, 1.5)} height={16} hexes={hexes} dye={dye} />}
          {box.wanting && isWanting && (
            <rect
              x={1 + box.wanting.from}
              y="6"
              width={Math.max(box.wanting.to - box.wanting.from, 2)}
              height="9"
              fill="var(--paper)"
              stroke="var(--madder)"
              strokeWidth="var(--pen-line)"
              strokeDasharray="var(--dash-long)"
            />
          )}
        </>
      )}
      {free !== null && !box.wanting && (
        <>
          <path d={`M${(1 + box.need).toFixed(1)} 0v21`} stroke="var(--paper)" strokeWidth="4" />
          <path d={`M${(1 + box.need).toFixed(1)} 0v21`} stroke="var(--ink)" strokeWidth="var(--pen-line)" />
        </>
      )}
      {box.runsOn && (
        <>
          <path d={`M${width - 13} 21l5-21h5l-5 21z`} fill="var(--paper)" />
          <path d={`M${width - 13} 21l5-21M${width - 8} 21l5-21`} stroke="var(--ink)" strokeWidth="var(--pen-fine)" />
        </>
      )}
    </svg>
  )
}

type CoverScaleHeadProps = { scale: CoverScale; unit: string; width?: number }

/** The scale itself, for the head of the column. */
export function CoverScaleHead({ scale, unit, width = 212 }: CoverScaleHeadProps) {
  const marks = listScaleMarks(scale)
  const last = marks.length - 1
  return (
    <svg
      viewBox={`0 0 ${width} 22`}
      width={width}
      height="22"
      role="img"
      aria-label={say('Scale from 0 to {full} {unit}', { full: scale.full, unit })}
    >
      {marks.map((mark, index) => {
        const x = 1 + (mark / scale.full) * (width - 2)
        return (
          <g key={mark}>
            <path d={`M${x.toFixed(1)} 22v-6`} stroke="var(--edge)" />
            <text
              x={x.toFixed(1)}
              y="11"
              fontSize="var(--t-drawing)"
              fill="var(--ink-3)"
              textAnchor={index === 0 ? 'start' : index === last ? 'end' : 'middle'}
            >
              {index === last ? `${mark} ${unit}` : mark}
            </text>
          </g>
        )
      })}
    </svg>
  )
}
