export type PlaceKind =
  | 'room'
  | 'cabinet'
  | 'drawer'
  | 'compartment'
  | 'rack'
  | 'shelf'
  | 'box'
  | 'bag'
  | 'ring'
  | 'bin'
  | 'folder'
  | 'person'
  | 'framer'
  | 'finisher'
  | 'model stitcher'
  | 'not found'

const outlines: Record<PlaceKind, string> = {
  room: 'M4 25V5h32v20zM15 25V12h8v13M20.5 19v1.5',
  cabinet: 'M8 3h24v22H8zM8 10.3h24M8 17.600h24M18 6.700h4M18 14h4M18 21.300h4',
  drawer: 'M3 9h34M6 9c1 9 7 13 14 13s13-4 14-13',
  compartment: 'M4 6v17h32V6M14.7 6v17M25.3 6v17',
  rack: 'M4 25h32M7 25V6M12.5 25V6M18 25V6M23.5 25V6M28 24.5 34 6',
  shelf: 'M2 24h36M8 24v-6h24v6M10 18v-5h20v5M12 13V8h16v5',
  box: 'M6 11h28v14H6zM4 6h32v5H4zM16 16h8',
  bag: 'M10 25 7 10h26l-3 15zM13.5 10c0-9 13-9 13 0',
  ring: 'M20 3a7 7 0 1 0 .01 0M15 16l-3 9h6l2-8M25 16l3 9h-6l-2-8',
  bin: 'M9 8l2.5 17h17L31 8M6 8h28M13 8c0-6 14-6 14 0',
  folder: 'M5 24V6h11l3 4h16v14zM5 14h30',
  person: 'M20 4a5 5 0 1 0 .01 0M9 25c0-13 22-13 22 0z',
  framer: 'M5 4h30v21H5zM10 9h20v11H10zM5 4l5 5M35 4l-5 5M5 25l5-5M35 25l-5-5',
  finisher: 'M9 8h22l3 17H6zM20 8c-6-7-9-2-5 0M20 8c6-7 9-2 5 0M20 8v17',
  'model stitcher': 'M14 4a5 5 0 1 0 .01 0M4 25c0-13 20-13 20 0zM36 4 26 20M36 4l-3 1M26 20c3 4 8 2 10-2',
  'not found': 'M8 5h24v20H8zM17 12c0-5 7-4 6 0-.5 2-3 2-3 4.500M20 20.500v.5',
}

/** What sort of place it is, as a drawing in ink; put words beside it. */
export function PlaceMark({ kind, width = 40 }: { kind: PlaceKind; width?: number }) {
  return (
    <svg viewBox="0 0 40 28" width={width} height={width * 0.7} aria-hidden="true">
      <path d={outlines[kind]} fill="none" stroke="currentColor" strokeWidth="var(--pen-bold)" strokeLinejoin="round" />
    </svg>
  )
}
