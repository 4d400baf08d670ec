import type { Metadata } from 'next'
import { formatDate } from '#language/day'
import { say } from '#language/say'
import { listPullChoices, type PullChoice } from '#lib/db/walk/queries'
import type { ProjectStatus } from '#lib/project/life-cycle'
import { HoopWord } from '#trade/hoop'
import { LinkButton } from '#ui/button'
import { Empty } from '#ui/empty'
import { TextField } from '#ui/field'
import { Form } from '#ui/form'
import { Link } from '#ui/link'
import { PageHead } from '#ui/page-head'
import { getViewer } from '#viewer/viewer'
import { calendarDay } from '#words/date'
import { startWalkAction } from '../actions'
import { chosenSchema } from '../schema'
import s from './new.module.css'

export const generateMetadata = (): Metadata => ({ title: say('Pull for projects') })

type PageProps = { searchParams: Promise<Record<string, string | string[] | undefined>> }

export default async function NewWalkPage({ searchParams }: PageProps) {
  const [{ ownerIds }, { project: chosen }] = await Promise.all([
    getViewer(),
    searchParams.then((params) => chosenSchema.parse(params)),
  ])
  const choices = await listPullChoices(ownerIds)
  const today = calendarDay(new Date())
  const free = choices.filter(({ walk }) => walk === null)
  const isChosen = ({ id, plannedOn }: PullChoice) => (chosen.length > 0 ? chosen.includes(id) : plannedOn === today)
  return (
    <>
      <PageHead
        title={say('Pull for projects')}
        crumbs={[
          { label: say('Projects'), href: '/projects' },
          { label: say('Pulls and put-backs'), href: '/walks' },
          { label: say('Pull for projects') },
        ]}
        byline={say(
          'One walk for all that are ticked, in walking order: thread that is promised and not in the bag yet, cloth, charts and notions. What is planned for today is ticked already.',
        )}
      />
      {choices.length === 0 ? (
        <Empty title={say('Nothing to pull for')} actions={<LinkButton href="/projects">{say('Projects')}</LinkButton>}>
          {say('A project can be pulled for once thread is promised to it: start one, or promise what is free on its page.')}
        </Empty>
      ) : (
        <Form action={startWalkAction} submit={say('Make the list')} label={say('Pull for projects')}>
          <fieldset className={s.choices}>
            <legend>{say('Pull for')}</legend>
            <ul>
              {free.map((choice) => (
                <li key={choice.id}>
                  <label className={s.choice}>
                    <input type="checkbox" name="project" value={choice.id} defaultChecked={isChosen(choice)} />
                    <span className={s.words}>
                      <span className="title">{choice.title}</span>
                      {choice.quantity > 1 && <> × {choice.quantity}</>}
                      <small>{aboutWords(choice, today)}</small>
                    </span>
                    <HoopWord status={choice.status as ProjectStatus} />
                  </label>
                </li>
              ))}
            </ul>
            {free.length === 0 && <p>{say('All that could be pulled for is on an open walk.')}</p>}
          </fieldset>
          <TextField name="who" label={say('Who is pulling?')} autoComplete="name" width="half" />
          <TextField
            name="title"
            label={say('What to call the list')}
            hint={say('Left empty: after the projects')}
            width="half"
          />
        </Form>
      )}
      {choices.length > free.length && (
        <p className={s.walked}>
          {say('On an open walk already:')}{' '}
          {choices
            .flatMap(({ id, title, walk }) => (walk ? [{ id, title, walk }] : []))
            .map(({ id, title, walk }, at) => (
              <span key={id}>
                {at > 0 && ', '}
                <Link href={`/walks/${walk.id}`}>{title}</Link>
              </span>
            ))}
          .
        </p>
      )}
    </>
  )
}

const aboutWords = ({ place, plannedOn, dueOn }: PullChoice, today: string): string =>
  [
    place ? say('into {label}', { label: place.label }) : say('no bag yet'),
    plannedOn &&
      (plannedOn === today ? say('planned for today') : say('planned for {plannedOn}', { plannedOn: formatDate(plannedOn) })),
    dueOn && say('due {dueOn}', { dueOn: formatDate(dueOn) }),
  ]
    .filter(Boolean)
    .join(' · ')
