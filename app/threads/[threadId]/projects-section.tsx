import { say } from '#language/say'
import { sayParts } from '#language/say-parts'
import type { HoldingProject, ThreadPage } from '#lib/db/thread/find-thread'
import type { ThreadLengthUnit } from '#lib/quantity/thread-length'
import { Hoop, hoopWords } from '#trade/hoop'
import { PlaceLabel } from '#trade/place-label'
import { ConfirmDialog } from '#ui/confirm-dialog'
import { type Column, Ledger } from '#ui/ledger'
import { Link } from '#ui/link'
import { Section } from '#ui/section'
import { threadLength } from '#words/amounts'
import { dayOf } from '#words/date'
import { threadTitle } from '#words/thread'
import { releaseAction } from '../batch-actions'
import s from '../threads.module.css'

type ProjectsProps = { thread: ThreadPage; unit: ThreadLengthUnit }

/** Which of the projects under way hold some: in their bag, or promised and still in the drawer. */
export function ProjectsSection({ thread, unit }: ProjectsProps) {
  const { projects, line } = thread
  if (projects.length === 0) return null
  const length = (strandTenths: number) => (strandTenths > 0 ? threadLength(strandTenths, line.strands, unit) : say('none'))
  const columns: Column<HoldingProject>[] = [
    {
      key: 'project',
      head: say('Project'),
      cell: ({ id, title, status }) => (
        <span className={s.head}>
          <Hoop status={status} width={24} />
          <span>
            <Link href={`/projects/${id}`} className="title">
              {title}
            </Link>
            <span className={s.under}>{hoopWords[status]}</span>
          </span>
        </span>
      ),
      phone: 'lead',
    },
    {
      key: 'bag',
      head: say('In its bag'),
      cell: ({ inBagStrandTenths, outSince }) => (
        <>
          {outSince && inBagStrandTenths === 0 ? say('some, length unknown') : length(inBagStrandTenths)}
          {outSince && <span className={s.under}>{say('since {outSince}', { outSince: dayOf(outSince) })}</span>}
        </>
      ),
      isNumeric: true,
      phone: 'labelled',
    },
    {
      key: 'promised',
      head: say('Promised'),
      cell: ({ promisedStrandTenths }) => length(promisedStrandTenths),
      isNumeric: true,
      phone: 'labelled',
    },
    {
      key: 'place',
      head: say('Bag'),
      cell: ({ bag }) => bag && <PlaceLabel label={bag.label} href={`/places/${bag.id}`} />,
      isAtEnd: true,
      phone: 'side',
    },
    {
      key: 'release',
      head: say('Release'),
      headIsHidden: true,
      cell: ({ id, title }) => <Release thread={thread} project={{ id, title }} />,
      isAtEnd: true,
      phone: 'wide',
      isOffPaper: true,
    },
  ]
  return (
    <Section
      title={say('Projects that hold it')}
      id="projects"
      note={say('What is promised is set aside and not free to others.')}
    >
      <Ledger
        caption={say('Projects that hold {threadTitle}', { threadTitle: threadTitle(thread) })}
        columns={columns}
        rows={projects}
        rowKey={({ id }) => id}
      />
    </Section>
  )
}

/** One button for each batch a project was promised some of. */
function Release({ thread, project }: { thread: ThreadPage; project: { id: string; title: string } }) {
  const batches = thread.batches.filter(({ promises }) => promises.some(({ projectId }) => projectId === project.id))
  return batches.map(({ batch }) => (
    <ConfirmDialog
      key={batch.id}
      opener={sayParts('Release{rest}<span> what {title} was promised</span>', {
        rest: batches.length > 1 && batch.lot && say(' lot {lot}', { lot: batch.lot }),
        span: (words) => <span className="vh">{words}</span>,
        title: project.title,
      })}
      openerKind="quiet"
      title={say('Release what {title} was promised{rest}?', {
        title: project.title,
        rest: batch.lot ? say(' of lot {lot}', { lot: batch.lot }) : '',
      })}
      confirm={say('Release it')}
      action={releaseAction}
      hidden={{ projectId: project.id, batchId: batch.id, threadId: thread.id }}
    >
      <p>{say('It becomes free to every project. The project can be promised it again from its own page while it lasts.')}</p>
    </ConfirmDialog>
  ))
}
