import { say } from '#language/say'

type KeySymbolProps = {
  /** The symbol as the key prints it: a sign, a letter, two of them. */
  symbol: string
  width?: number
}

/** The key's own symbol in a cell, drawn as text. A longer one is drawn smaller, and past four characters cut short. */
export function KeySymbol({ symbol, width = 24 }: KeySymbolProps) {
  const characters = [...symbol]
  const drawn = characters.length > 4 ? `${characters.slice(0, 3).join('')}…` : symbol
  const fontSize = [19, 19, 13, 10, 8][[...drawn].length] ?? 8
  return (
    <svg
      viewBox="0 0 24 24"
      width={width}
      height={width}
      role="img"
      aria-label={symbol === '' ? say('no symbol') : say('symbol {symbol}', { symbol })}
    >
      <path d="M.5.5h23v23H.5z" fill="var(--paper)" stroke="var(--edge)" />
      <text
        x="12"
        y="12"
        fontSize={fontSize}
        fontWeight="650"
        textAnchor="middle"
        dominantBaseline="central"
        fill="var(--ink)"
        style={{ fontFamily: 'var(--sans)' }}
      >
        {drawn}
      </text>
    </svg>
  )
}
