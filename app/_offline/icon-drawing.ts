/** What is drawn on an icon: the whole drawer front, or the mark of one errand. */
export type IconMark = 'drawer' | 'find' | 'pull' | 'stitchable'

export type IconKind = {
  mark: IconMark
  widthPx: number
  /** Whether a system may cut it to its own shape: drawn on paper to the edges, the mark within the middle four fifths. */
  isMaskable: boolean
}

const paper = '#fbf7ee'
const ink = '#211c18'
const madder = '#9b2a24'

/** On 32 by 32, as app/icon.svg has it. */
const marks: Record<IconMark, string> = {
  drawer: `<path d="M2 5h28v22H2z" fill="${paper}" stroke="${ink}" stroke-width="2.5"/>
    <path d="M9 9.5h14v6.5H9z" fill="${paper}" stroke="${ink}" stroke-width="2"/>
    <path d="M11.5 12.8h9" stroke="${madder}" stroke-width="2"/>
    <path d="M10 19.5h12c0 5-2.5 5.5-6 5.5s-6-.5-6-5.5z" fill="${ink}"/>`,
  find: `<circle cx="13.5" cy="13.5" r="8.5" fill="none" stroke="${ink}" stroke-width="3"/>
    <path d="m20 20 8.5 8.5" stroke="${ink}" stroke-width="3.5"/>`,
  pull: `<path d="M2 4h28v10H2zM2 18h28v10H2z" fill="none" stroke="${ink}" stroke-width="2.5"/>
    <path d="m9 9 4 4 9-10" fill="none" stroke="${madder}" stroke-width="3.5"/>
    <path d="M12 23h8" stroke="${ink}" stroke-width="3"/>`,
  stitchable: `<circle cx="16" cy="16" r="12.5" fill="none" stroke="${ink}" stroke-width="2.5"/>
    <path d="m9.5 9.5 6.5 6.5m0-6.5-6.5 6.5m6.5 0 6.5 6.5m0-6.5-6.5 6.5" stroke="${madder}" stroke-width="2.5"/>`,
}

/** An icon as SVG, drawn for its size. */
export function drawIcon({ mark, widthPx, isMaskable }: IconKind): string {
  // A circle of four fifths of the width is kept of any shape (W3C, Web Application Manifest, "Icon masks and safe zone").
  const share = isMaskable ? 0.62 : mark === 'drawer' ? 0.86 : 0.7
  const edge = (32 * (1 / share - 1)) / 2
  const side = 32 + 2 * edge
  return `<svg xmlns="http://www.w3.org/2000/svg" width="${widthPx}" height="${widthPx}" viewBox="${-edge} ${-edge} ${side} ${side}">
    <path d="M${-edge} ${-edge}h${side}v${side}h${-side}z" fill="${paper}"/>
    ${marks[mark]}
  </svg>`
}

/** The icons there are, by the names of their files. */
export const iconKinds: Record<string, IconKind> = {
  'larder-192.png': { mark: 'drawer', widthPx: 192, isMaskable: false },
  'larder-512.png': { mark: 'drawer', widthPx: 512, isMaskable: false },
  'larder-maskable-192.png': { mark: 'drawer', widthPx: 192, isMaskable: true },
  'larder-maskable-512.png': { mark: 'drawer', widthPx: 512, isMaskable: true },
  // Rounded by the system, on a ground of its own.
  'larder-180.png': { mark: 'drawer', widthPx: 180, isMaskable: true },
  'find-96.png': { mark: 'find', widthPx: 96, isMaskable: false },
  'pull-96.png': { mark: 'pull', widthPx: 96, isMaskable: false },
  'stitchable-96.png': { mark: 'stitchable', widthPx: 96, isMaskable: false },
}
