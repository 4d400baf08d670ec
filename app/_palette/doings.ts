import type { Entry } from './entries'

/** Who is at the screen, as far as it decides what is offered. */
export type Reach = { mayChange: boolean; mayKeep: boolean }

const looks: readonly Entry[] = [
  { href: '/charts?stitchableNow=1', title: 'What can I stitch now', kind: 'To do', also: 'stitchable stash tonight start' },
  { href: '/charts?shortByAtMost=2#wanting', title: 'What wants one or two put-ups', kind: 'To do', also: 'nearly short skeins' },
  { href: '/places#out', title: 'What is out, and where', kind: 'To do', also: 'away bag' },
  { href: '/loans', title: 'Who has what', kind: 'To do', also: 'lent loans borrowed due back' },
  { href: '/charts/had', title: 'Have I bought this before', kind: 'To do', also: 'had doubles' },
  { href: '/scan', title: 'Scan a label', kind: 'To do', also: 'code camera' },
  { href: '/threads/which', title: 'Which thread is this', kind: 'To do', also: 'loose skein colour' },
  { href: '/cloth/count', title: 'Count a piece of cloth', kind: 'To do', also: 'ruler unmarked' },
  { href: '/walks', title: 'Pulls and put-backs', kind: 'To do', also: 'list walk bag unpack' },
  { href: '/projects/rotation', title: 'What is next in the rotation', kind: 'To do', also: 'turn' },
  { href: '/week', title: 'The week', kind: 'To do', also: 'today due' },
  { href: '/labels', title: 'Print labels', kind: 'To do' },
  { href: '/insurance', title: 'What it would cost to replace', kind: 'To do', also: 'insurance total worth' },
  { href: '/lists', title: 'Lists to share', kind: 'To do', also: 'wants doubles stash guild family' },
]

const changes: readonly Entry[] = [
  { href: '/count#begin', title: 'Start a count', kind: 'To do', also: 'begin stocktake sheet' },
  { href: '/walks/new', title: 'Pull for several projects', kind: 'To do', also: 'walk list' },
  { href: '/threads/delivery', title: 'Enter a delivery', kind: 'To do', also: 'receive invoice parcel' },
  { href: '/charts/read', title: 'Read a key', kind: 'To do', also: 'pdf photo paste' },
  { href: '/charts/new', title: 'Add a chart', kind: 'To do', also: 'new' },
  { href: '/threads/new', title: 'Add a thread', kind: 'To do', also: 'new' },
  { href: '/cloth/new', title: 'Add a piece of cloth', kind: 'To do', also: 'new' },
  { href: '/places/new', title: 'Add a place', kind: 'To do', also: 'new drawer box bag' },
]

const keeping: readonly Entry[] = [
  { href: '/settings/backups', title: 'Make a backup', kind: 'To do', also: 'copy restore' },
  { href: '/settings/people', title: 'People and accounts', kind: 'To do' },
]

/** Every thing to do that wants nothing chosen first, and every screen. */
export function doingsFor(screens: readonly { href: string; label: string }[], { mayChange, mayKeep }: Reach): Entry[] {
  return [
    ...looks,
    ...(mayChange ? changes : []),
    ...(mayKeep ? keeping : []),
    ...screens.map(({ href, label }) => ({ href, title: label, kind: 'Screen' })),
  ]
}

/** What is done to a work that is under the needle. */
export function doingsAtWork(projects: readonly { id: string; title: string; status: string }[], mayChange: boolean): Entry[] {
  if (!mayChange) return []
  return projects.flatMap(({ id, title, status }) =>
    status === 'stitching' || status === 'resting' || status === 'stitched'
      ? [
          ...(status === 'stitched'
            ? []
            : [{ href: `/projects/${id}#log`, title: `Log work on ${title}`, kind: 'To do', also: 'time hours timer' }]),
          { href: `/projects/${id}/finish`, title: `Finish ${title}`, kind: 'To do', also: 'done' },
        ]
      : [],
  )
}
