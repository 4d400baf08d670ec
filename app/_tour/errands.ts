import { say } from '#language/say'

/** Where somebody is: the path, and what the address asks. */
type Address = { path: string; query: URLSearchParams }

export type Step = {
  /** What is to be done now, said beside the screen. */
  says: string
  /** Where the step can be begun from, for somebody who went astray. */
  from: { href: string; label: string }
  /** Done once somebody is there; a step that is known by what is on record is done once there is one more finished piece. */
  isDone: ((address: Address) => boolean) | 'finished'
}

type Errand = {
  key: 'where' | 'tonight' | 'finish'
  /** The question it answers. */
  title: string
  steps: readonly Step[]
  /** Said when the last step is done. */
  done: string
}

const find = () => ({ href: '/', label: say('To Find') }) as const
const charts = () => ({ href: '/charts', label: say('To Charts') }) as const
const projects = () => ({ href: '/projects', label: say('To Projects') }) as const

/** One thing's own screen, below the list of its kind. */
const isOne = (path: string, list: string): boolean =>
  new RegExp(`^/${list}/[^/]+$`).test(path) &&
  path !== `/${list}/new` &&
  path !== `/${list}/together` &&
  path !== `/${list}/rotation`

/** Three things somebody comes here for, each done on the screens themselves. */
export const errands = (): readonly Errand[] => [
  {
    key: 'where',
    title: say('Which box is the winter chart in?'),
    steps: [
      {
        says: say('Type “winter” into the box on Find. A word of any chart you own does as well, and slips are forgiven.'),
        from: find(),
        isDone: ({ path, query }) => path === '/' && (query.get('q') ?? '').trim() !== '',
      },
      {
        says: say(
          'What is called just that comes first, large; each chart found has the label of its box, rack or bag beside it. Press the label of the one you mean.',
        ),
        from: find(),
        isDone: ({ path }) => isOne(path, 'places'),
      },
    ],
    done: say('That is where it lives, and what else is in there. From any screen, / leads back to Find.'),
  },
  {
    key: 'tonight',
    title: say('What can I stitch tonight?'),
    steps: [
      {
        says: say('Press “What can I stitch now?” at the head of Find. On Charts it is the switch “Stitchable now”.'),
        from: find(),
        isDone: ({ path, query }) => path === '/charts' && query.has('stitchableNow'),
      },
      {
        says: say('Every design listed has all of its threads, free and enough. Open one you would like.'),
        from: { ...charts(), href: '/charts?stitchableNow=1' },
        isDone: ({ path }) => isOne(path, 'designs'),
      },
    ],
    done: say(
      'Its table says for each thread what is needed, what is free and where it lies; every figure unfolds to its sum. “Start this” sets the threads aside for it.',
    ),
  },
  {
    key: 'finish',
    title: say('Log a finish'),
    steps: [
      {
        says: say('Go to Projects: what is under way stands there, nearest the needle first.'),
        from: find(),
        isDone: ({ path }) => path === '/projects',
      },
      {
        says: say('Open a piece that is being stitched.'),
        from: projects(),
        isDone: ({ path }) => isOne(path, 'projects'),
      },
      {
        says: say('Press “Finish it”, at the head of the piece.'),
        from: projects(),
        isDone: ({ path }) => /^\/projects\/[^/]+\/finish$/.test(path),
      },
      {
        says: say('Say the day, and what was left over if you like; then keep it. On the sample nothing is lost by it.'),
        from: projects(),
        isDone: 'finished',
      },
    ],
    done: say('It stands under Finishes now, with its day and its stitches.'),
  },
]
