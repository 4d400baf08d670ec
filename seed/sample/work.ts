import type { SampleRow } from './csv'
import { hanne, shop } from './places'

export const workColumns = ['What', 'Design', 'Owner', 'Day', 'Until', 'Stitches', 'Hours', 'Note'] as const
type WorkRow = SampleRow<(typeof workColumns)[number]>

/** What was logged, by design: day, stitches, hours, note. It is part of what the projects' totals say, never more. */
const logged: [design: string, owner: string, days: [string, number, number, string?][]][] = [
  [
    'Geese over Tarnbeck',
    hanne,
    [
      ['2026-11-03', 620, 6.5],
      ['2026-11-05', 540, 5.5],
      ['2026-11-07', 790, 8, 'The whole of the near bank'],
      ['2026-11-08', 500, 5],
      ['2026-11-10', 480, 5],
      ['2026-11-12', 640, 6.5],
      ['2026-11-14', 1000, 10],
      ['2026-11-24', 710, 7, 'Back from the sea'],
      ['2026-11-26', 620, 6.5],
      ['2026-11-28', 1000, 10],
    ],
  ],
  [
    'Larch in October',
    hanne,
    [
      ['2026-10-11', 260, 2.5],
      ['2026-10-18', 220, 2.5],
      ['2026-11-01', 250, 3],
      ['2026-11-15', 150, 1.5],
    ],
  ],
  [
    'Map of Upper Quennow',
    hanne,
    [
      ['2024-11-10', 400, 4],
      ['2025-02-16', 350, 3.5],
      ['2025-03-30', 300, 3, 'The last before it was put by'],
    ],
  ],
  [
    'Nine Wrens',
    shop,
    [
      ['2026-11-09', 420, 4],
      ['2026-11-17', 380, 4],
      ['2026-11-25', 350, 3.5],
    ],
  ],
  [
    'The Tallow House',
    shop,
    [
      ['2026-11-11', 0, 0, 'Petra: the roof is on'],
      ['2026-11-23', 600, 6],
    ],
  ],
]

/** Taken in turn, in this order. */
const inTurn = ['Geese over Tarnbeck', 'Larch in October', 'Map of Upper Quennow']

/** The log of the open projects, the rotation and a week away. */
export const listWorkRows = (): WorkRow[] => [
  ...logged.flatMap(([Design, Owner, days]) =>
    days.map(([Day, Stitches, Hours, Note]) => ({ What: 'log', Design, Owner, Day, Stitches, Hours, Note })),
  ),
  ...inTurn.map((Design) => ({ What: 'turn', Design, Owner: hanne })),
  { What: 'away', Owner: hanne, Day: '2026-11-16', Until: '2026-11-22', Note: 'At the sea' },
]
