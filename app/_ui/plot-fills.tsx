/** Fills that are told apart without colour, on paper and in two colours only. */
export type PlotFill = 'solid' | 'hatched' | 'dotted' | 'open'

/** What the shapes of one drawing refer to; `id` keeps drawings on one page apart. */
export function PlotFills({ id }: { id: string }) {
  return (
    <defs>
      <pattern id={`${id}-hatched`} width="6" height="6" patternUnits="userSpaceOnUse" patternTransform="rotate(45)">
        <path d="M0 0h6v6H0z" fill="var(--paper)" />
        <path d="M0 0v6" stroke="var(--ink)" strokeWidth="4" />
      </pattern>
      <pattern id={`${id}-dotted`} width="6" height="6" patternUnits="userSpaceOnUse">
        <path d="M0 0h6v6H0z" fill="var(--paper)" />
        <circle cx="3" cy="3" r="1.3" fill="var(--ink)" />
      </pattern>
    </defs>
  )
}

export const paintOf = (id: string, fill: PlotFill): string =>
  fill === 'solid' ? 'var(--ink)' : fill === 'open' ? 'var(--paper)' : `url(#${id}-${fill})`
