const shownValues = 3
const longestShown = 24

/** Under each header the first few different values, for telling what a column holds. */
export const sampleValues = (headers: readonly string[], rows: readonly (readonly string[])[]): string[] =>
  headers.map((_, index) => {
    const values = new Set(rows.map((cells) => (cells[index] ?? '').trim()).filter((value) => value !== ''))
    return [...values]
      .slice(0, shownValues)
      .map((value) => (value.length > longestShown ? `${value.slice(0, longestShown)}…` : value))
      .join(' · ')
  })
