import { say } from '#language/say'
import type { PullLine } from '#lib/db/project/pull-list'
import type { ProjectDetail } from '#lib/db/project/queries'
import { listWalksOf } from '#lib/db/walk/queries'
import type { ThreadLengthUnit } from '#lib/quantity/thread-length'
import { PlaceLabel } from '#trade/place-label'
import { LinkButton } from '#ui/button'
import { CheckField, FieldRow, TextField } from '#ui/field'
import { Form } from '#ui/form'
import { Ledger } from '#ui/ledger'
import { Section } from '#ui/section'
import { counted, threadLength } from '#words/amounts'
import { heldWords } from '#words/stock'
import { ThreadCell } from '../../_things/thread-cell'
import { OpenWalks } from '../../_walk/open-walks'
import { changeBagAction, kitProjectAction, startWalkAction } from '../actions'
import { pullWords } from '../words'
import s from './project.module.css'

type PullSectionProps = {
  project: ProjectDetail
  lines: readonly PullLine[]
  unit: ThreadLengthUnit
  bagSuggestions: readonly string[]
}

/** What it was promised, in the order one walks to it: to take, then what is in the bag. */
export function PullSection({ project, lines, unit, bagSuggestions }: PullSectionProps) {
  const toTake = lines.filter((line) => !line.isInBag)
  const inBag = lines.filter((line) => line.isInBag)
  const edit = { projectId: project.id, version: String(project.version) }
  const canKit = project.status !== 'stitched'
  const groups = [
    { key: 'take', title: say('Take these, in this order'), note: counted(toTake.length, 'thread'), rows: toTake },
    { key: 'bag', title: project.place ? say('In {label}', { label: project.place.label }) : say('In the bag'), rows: inBag },
  ].filter((group) => group.rows.length > 0)
  return (
    <Section title={say('Threads promised')} id="pull" note={toTake.length === 0 ? say('all in the bag') : undefined}>
      <Ledger
        caption={say('Thread promised to this project, in walking order')}
        groups={groups}
        rowKey={(line) => line.batch.id}
        columns={[
          {
            key: 'place',
            head: say('Where'),
            cell: ({ place, home }) =>
              place ? (
                <PlaceLabel
                  label={place.label}
                  href={`/places/${place.id}`}
                  livesIn={home && home.id !== place.id ? home.label : undefined}
                />
              ) : (
                say('no place')
              ),
            phone: 'line',
          },
          {
            key: 'thread',
            head: say('Thread'),
            cell: ({ thread, batch }) => <ThreadCell thread={thread} note={batch.lot && say('lot {lot}', { lot: batch.lot })} />,
            phone: 'lead',
          },
          {
            key: 'take',
            head: say('Take'),
            cell: (line) => <b>{line.isInBag ? heldWords(line.batch, line.thread, unit) : pullWords(line, unit)}</b>,
            phone: 'side',
          },
          {
            key: 'promised',
            head: say('Promised'),
            cell: (line) => (
              <>
                {threadLength(line.promisedStrandTenths, line.thread.strands, unit)}
                {line.broken && (
                  <>
                    <br />
                    <span className="do">{brokenWords(line, unit)}</span>
                  </>
                )}
              </>
            ),
            isNumeric: true,
            phone: 'labelled',
          },
        ]}
      />
      {canKit && toTake.length > 0 && <PullList projectId={project.id} />}
      {canKit && (toTake.length > 0 || project.place === null) && (
        <div className={s.kit}>
          <Form
            action={kitProjectAction}
            hidden={edit}
            submit={
              project.place
                ? say('Kit it: take these to {label}', { label: project.place.label })
                : say('Kit it: take these to the bag')
            }
            submitKind={project.status === 'planned' ? 'first' : 'plain'}
          >
            <FieldRow>
              <TextField
                name="bagLabel"
                label={say('Bag')}
                defaultValue={project.place?.label}
                suggestions={bagSuggestions}
                width="half"
                hint={say('A label that is new becomes a bag')}
                isRequired
              />
            </FieldRow>
            {isChartToHand(project) && (
              <CheckField name="takesChart" label={say('The chart goes into the bag too')} defaultChecked />
            )}
          </Form>
        </div>
      )}
      {inBag.length > 0 && (
        <div className={s.kit}>
          <Form action={changeBagAction} hidden={edit} submit={say('Change the bag')} submitKind="plain" isInline>
            <TextField name="bagLabel" label={say('Other bag')} suggestions={bagSuggestions} width="half" isRequired />
          </Form>
        </div>
      )}
    </Section>
  )
}

/** To walk past the drawers with and tick: the walk that is open for it, or one to begin. */
async function PullList({ projectId }: { projectId: string }) {
  const walks = await listWalksOf(projectId)
  if (walks.some(({ kind }) => kind === 'pull')) return <OpenWalks projectId={projectId} />
  return (
    <div className={s.kit}>
      <Form
        action={startWalkAction}
        hidden={{ projectId }}
        submit={say('Pull with a list')}
        submitKind="plain"
        isInline
        label={say('Pull with a list')}
        actions={<LinkButton href={`/walks/new?project=${projectId}`}>{say('Together with others')}</LinkButton>}
      />
    </div>
  )
}

/** A chart that lies at home can be carried along; a file, one of several copies, and one that is lent cannot. */
const isChartToHand = ({ chart }: ProjectDetail) =>
  chart.kind !== 'file' && chart.copies === 1 && chart.place?.id === chart.home?.id

function brokenWords({ broken, heldStrandTenths, thread }: PullLine, unit: ThreadLengthUnit): string {
  if (broken?.why === 'other-owner') return say('it belongs to another owner now')
  const supported = threadLength(broken?.supportedStrandTenths ?? 0, thread.strands, unit)
  return heldStrandTenths > (broken?.supportedStrandTenths ?? 0)
    ? say('promised to others before: {supported} is left for it', { supported })
    : say('only {supported} is there', { supported })
}
