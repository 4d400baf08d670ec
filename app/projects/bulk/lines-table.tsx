import { say } from '#language/say'
import { factsOf, type ProjectBulkChange, type ProjectFacts } from '#lib/project/plan-project-bulk'
import { Ledger } from '#ui/ledger'
import { Link } from '#ui/link'
import { factWords, kindWords } from './words'

/** More lines than these are counted and not shown. */
export const linesShown = 300

export type ProjectTableLine = { id: string; before: Partial<ProjectFacts> }

type LinesTableProps = {
  caption: string
  change: ProjectBulkChange
  lines: readonly ProjectTableLine[]
  /** Titles by id. */
  names: ReadonlyMap<string, string>
}

/** Before and after, project by project. */
export const LinesTable = ({ caption, change, lines, names }: LinesTableProps) => (
  <Ledger
    caption={caption}
    rows={lines.slice(0, linesShown)}
    rowKey={({ id }) => id}
    isTight
    columns={[
      {
        key: 'project',
        head: say('Project'),
        cell: ({ id }) => (
          <Link href={`/projects/${id}`}>
            <span className="title">{names.get(id) ?? say('a project that is not there any more')}</span>
          </Link>
        ),
        phone: 'lead',
      },
      { key: 'before', head: kindWords[change.kind], cell: ({ before }) => factWords(change.kind, before), phone: 'labelled' },
      {
        key: 'after',
        head: say('After'),
        cell: () => <b>{factWords(change.kind, factsOf(change))}</b>,
        phone: 'labelled',
      },
    ]}
  />
)

export const shownNote = (count: number): string | undefined =>
  count > linesShown ? say('The first {linesShown} of {count, number}.', { linesShown, count }) : undefined
