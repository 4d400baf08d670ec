/** More codes than these in one run are a slip of the finger. */
const mostInRun = 1_000

/** Two numbers of as many figures with a dash between them, or null. */
function runOf(text: string): string[] | null {
  const [, first = '', last = ''] = /^(\d+)\s*[-‐‑–—]\s*(\d+)$/u.exec(text) ?? []
  const length = Number(last) - Number(first) + 1
  if (first === '' || first.length !== last.length || length < 1 || length > mostInRun) return null
  return Array.from({ length }, (_, index) => String(Number(first) + index).padStart(first.length, '0'))
}

/**
 * Codes as one writes them down: apart by commas, semicolons or lines, each once; `0481-0516` is all numbers of the run, when both ends
 * have as many figures.
 */
export const parseCodeList = (text: string): string[] => [
  ...new Set(
    text
      .split(/[,;\r\n]+/)
      .map((code) => code.trim())
      .filter((code) => code !== '')
      .flatMap((code) => runOf(code) ?? [code]),
  ),
]
