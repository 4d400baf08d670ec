import { say } from '#language/say'
import type { Entry } from './entries'

/** Who is at the screen, as far as it decides what is offered. */
export type Reach = { mayChange: boolean; mayKeep: boolean }

const looks = (): readonly Entry[] => [
  {
    href: '/charts?stitchableNow=1',
    title: say('What can I stitch now'),
    kind: 'To do',
    also: say('stitchable stash tonight start'),
  },
  {
    href: '/charts?shortByAtMost=2#wanting',
    title: say('What wants one or two put-ups'),
    kind: 'To do',
    also: say('nearly short skeins'),
  },
  { href: '/places#out', title: say('What is out, and where'), kind: 'To do', also: say('away bag') },
  { href: '/loans', title: say('Who has what'), kind: 'To do', also: say('lent loans borrowed due back') },
  { href: '/charts/had', title: say('Have I bought this before'), kind: 'To do', also: say('had doubles') },
  { href: '/scan', title: say('Scan a label'), kind: 'To do', also: say('code camera') },
  { href: '/threads/which', title: say('Which thread is this'), kind: 'To do', also: say('loose skein colour') },
  { href: '/cloth/count', title: say('Count a piece of cloth'), kind: 'To do', also: say('ruler unmarked') },
  { href: '/walks', title: say('Pulls and put-backs'), kind: 'To do', also: say('list walk bag unpack') },
  { href: '/projects/rotation', title: say('What is next in the rotation'), kind: 'To do', also: 'turn' },
  { href: '/week', title: say('The week'), kind: 'To do', also: say('today due') },
  { href: '/labels', title: say('Print labels'), kind: 'To do' },
  { href: '/insurance', title: say('What it would cost to replace'), kind: 'To do', also: say('insurance total worth') },
  { href: '/lists', title: say('Lists to share'), kind: 'To do', also: say('wants doubles stash guild family') },
]

const changes = (): readonly Entry[] => [
  { href: '/count#begin', title: say('Start a count'), kind: 'To do', also: say('begin stocktake sheet') },
  { href: '/walks/new', title: say('Pull for several projects'), kind: 'To do', also: say('walk list') },
  { href: '/threads/delivery', title: say('Enter a delivery'), kind: 'To do', also: say('receive invoice parcel') },
  { href: '/charts/read', title: say('Read a key'), kind: 'To do', also: say('pdf photo paste') },
  { href: '/charts/new', title: say('Add a chart'), kind: 'To do', also: 'new' },
  { href: '/threads/new', title: say('Add a thread'), kind: 'To do', also: 'new' },
  { href: '/cloth/new', title: say('Add a piece of cloth'), kind: 'To do', also: 'new' },
  { href: '/places/new', title: say('Add a place'), kind: 'To do', also: say('new drawer box bag') },
]

const keeping = (): readonly Entry[] => [
  { href: '/settings/backups', title: say('Make a backup'), kind: 'To do', also: say('copy restore') },
  { href: '/settings/people', title: say('People and accounts'), kind: 'To do' },
]

/** Every thing to do that wants nothing chosen first, and every screen. */
export function doingsFor(screens: readonly { href: string; label: string }[], { mayChange, mayKeep }: Reach): Entry[] {
  return [
    ...looks(),
    ...(mayChange ? changes() : []),
    ...(mayKeep ? keeping() : []),
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
            : [
                {
                  href: `/projects/${id}#log`,
                  title: say('Log work on {title}', { title }),
                  kind: 'To do',
                  also: say('time hours timer'),
                },
              ]),
          { href: `/projects/${id}/finish`, title: say('Finish {title}', { title }), kind: 'To do', also: 'done' },
        ]
      : [],
  )
}
