import type { Metadata } from 'next'
import { notFound } from 'next/navigation'
import { formatClothSize } from '#language/lengths'
import { say } from '#language/say'
import { listFinishings } from '#lib/cloth/margins'
import { listPlaceOptions } from '#lib/db/place/queries'
import { readFinishSheet } from '#lib/db/project/finish-sheet'
import { findProject } from '#lib/db/project/queries'
import { allowedFrom, transitions } from '#lib/project/life-cycle'
import { LinkButton } from '#ui/button'
import { ChoiceField, DateField, FieldRow, FileField, NumberField, TextArea, TextField } from '#ui/field'
import { Form } from '#ui/form'
import { Notice } from '#ui/notice'
import { PageHead } from '#ui/page-head'
import { Steps } from '#ui/steps'
import { getViewer } from '#viewer/viewer'
import { counted, listed } from '#words/amounts'
import { pieceName } from '#words/cloth'
import { calendarDay } from '#words/date'
import { hoursWords } from '#words/hours'
import { finishProjectAction } from '../../actions'
import { keptField } from '../../parse-used'
import { clothPlaceLabels, finishedPlaceLabels } from '../../place-suggestions'
import { photoHint } from '../photo-form'
import { AsItStands } from './as-it-stands'
import s from './finish.module.css'
import { UsedFields } from './used-fields'

export const generateMetadata = (): Metadata => ({ title: say('Finish') })

type FinishPageProps = { params: Promise<{ projectId: string }> }

export default async function FinishPage({ params }: FinishPageProps) {
  const { projectId } = await params
  const [{ settings }, project, sheet, places] = await Promise.all([
    getViewer(),
    findProject(projectId),
    readFinishSheet(projectId),
    listPlaceOptions(),
  ])
  if (!project || !sheet) notFound()
  const crumbs = [
    { label: say('Projects'), href: '/projects' },
    { label: project.design.title, href: `/projects/${projectId}` },
    { label: say('Finish') },
  ]
  if (!allowedFrom(project).includes('finished')) {
    return (
      <>
        <PageHead title={project.design.title} isWork crumbs={crumbs} />
        <Notice
          kind="refusal"
          title={
            transitions[project.status].length === 0
              ? say('This project is finished or given up already.')
              : say('It has not been started: say that you stitch it first, then finish it.')
          }
          actions={<LinkButton href={`/projects/${projectId}`}>{say('To the project')}</LinkButton>}
        />
      </>
    )
  }
  const { clothPiece: piece } = project
  const stitches = Math.max(project.stitchesDone, project.stitchesTotal ?? 0)
  const steps = [
    <div key="when" className={s.step}>
      <h2>{say('When, and how long')}</h2>
      <FieldRow>
        <DateField name="finishedOn" label={say('Finished on')} defaultValue={calendarDay(new Date())} isRequired />
        <NumberField
          name="hoursTenths"
          label={say('Hours, all together')}
          unit="h"
          defaultValue={project.hoursTenths > 0 ? project.hoursTenths / 10 : ''}
        />
        <NumberField name="stitchesDone" label={say('Stitches')} isWhole defaultValue={stitches > 0 ? stitches : ''} />
      </FieldRow>
    </div>,
    <div key="piece" className={s.step}>
      <h2>{say('The finished piece')}</h2>
      <Notice kind="caution" title={say('Dyes bleed, so do not wash it as a matter of course.')}>
        <p>
          {say(
            'Reds, dark blues, hand-dyed and old threads run the most, and cloth can too. Test every thread and the cloth wet on white first; even a pass is no promise. Leave what is old, fragile, beaded or never washed before to a conservator, and go by what is done where you are. Take out every needle and pin before it is pressed or put away: left in, they rust.',
          )}
        </p>
      </Notice>
      <FieldRow>
        <TextField
          name="finishing"
          label={say('Finishing')}
          hint={say('Framed, flat-fold, pillow; and by whom')}
          defaultValue={project.finishing ?? ''}
          suggestions={listFinishings(settings).map(({ name }) => name)}
          width="half"
          maxLength={60}
        />
        <TextField name="forWhom" label={say('Who has it')} defaultValue={project.forWhom ?? ''} width="half" maxLength={120} />
      </FieldRow>
      <FieldRow>
        <TextField
          name="placeLabel"
          label={say('Where it is now')}
          hint={say('The framer, a box, a wall; blank if it is gone from here')}
          suggestions={finishedPlaceLabels(places)}
          width="half"
          maxLength={60}
        />
        <FileField name="photo" label={say('Photo')} accept="image/jpeg,image/png,image/webp" hint={photoHint()} />
      </FieldRow>
      <TextArea
        name="note"
        label={say('Note')}
        hint={say('What you changed, what went wrong')}
        defaultValue={project.note ?? ''}
        rows={3}
      />
    </div>,
    <div key="thread" className={s.step}>
      <h2>{say('What was used, and what goes back')}</h2>
      {sheet.threads.length === 0 ? (
        <p>{say('No thread was promised to it or lies in its bag.')}</p>
      ) : (
        <>
          <p className="quiet">
            {say(
              'Each box says what the design needs. Change it where you know better; 0 is none. What is left goes back to the drawer beside it, in this order.',
            )}
          </p>
          <p className="quiet">
            {say(
              'Where you measure or weigh what is left of a thread, without its band, card or bobbin, that decides what was used, and Settings learns from it how much you allow for starts, ends and slack.',
            )}
          </p>
          <UsedFields threads={sheet.threads} unit={settings.threadUnit} />
        </>
      )}
    </div>,
    piece && !piece.isGone && (
      <div key="cloth" className={s.step}>
        <h2>{say('The cloth')}</h2>
        <ChoiceField
          name="cloth"
          label={`${pieceName(piece)}, ${formatClothSize(piece, settings.lengthUnit)}`}
          defaultValue="used"
          options={[
            { value: 'used', label: say('It was cut for this work') },
            { value: 'not-used', label: say('It was not used: it goes back as it is') },
          ]}
        />
        {[1, 2].map((number) => (
          <FieldRow key={number}>
            <TextField
              name={`offcut${number}`}
              label={number === 1 ? say('Offcut, measured') : say('Second offcut')}
              hint={number === 1 ? offcutHint(sheet.expectedOffcuts, settings.lengthUnit) : say('If there is one worth keeping')}
              width="short"
            />
            <TextField name={`offcut${number}Label`} label={say('Its label')} width="short" maxLength={60} />
            <TextField
              name={`offcut${number}Place`}
              label={say('Goes to')}
              hint={say('Blank: where the piece lived')}
              suggestions={clothPlaceLabels(places)}
              width="half"
              maxLength={60}
            />
          </FieldRow>
        ))}
      </div>
    ),
    sheet.keptCloth.length > 0 && (
      <div key="kept" className={s.step}>
        <h2>{say('Other cloth kept for it')}</h2>
        <p className="quiet">{say('Used up, a piece is gone. Not used, it is free for other work again.')}</p>
        {sheet.keptCloth.map((kept) => (
          <ChoiceField
            key={kept.id}
            name={keptField(kept.id)}
            label={`${pieceName(kept)}, ${formatClothSize(kept, settings.lengthUnit)}`}
            defaultValue={project.quantity > 1 ? 'used' : 'not-used'}
            options={[
              { value: 'used', label: say('It was used') },
              {
                value: 'not-used',
                label: say('It was not used{rest}', {
                  rest: kept.home ? say(': it goes back to {label}', { label: kept.home.label }) : '',
                }),
              },
            ]}
          />
        ))}
      </div>
    ),
    <div key="back" className={s.step}>
      <h2>{say('Putting it back')}</h2>
      {sheet.notions.length > 0 && (
        <p>
          {say('In use for it, and free again: {notions}. Count the needles.', {
            notions: listed(
              sheet.notions.map(({ name, size, count, home }) =>
                say('{count} × {what}{rest}', {
                  count,
                  what: [name, size].filter(Boolean).join(', '),
                  rest: home ? say(' (lives in {label})', { label: home.label }) : '',
                }),
              ),
            ),
          })}
        </p>
      )}
      <ChoiceField
        name="putBack"
        label={say('What is left over')}
        defaultValue="list"
        options={[
          {
            value: 'list',
            label: say('becomes a list to tick, in walking order'),
            note: say('The record has it in the bag until each thing is ticked home.'),
          },
          { value: 'now', label: say('lies in its places already'), note: say('The record follows at once.') },
        ]}
      />
    </div>,
  ].filter((step) => step !== null && step !== false)
  return (
    <>
      <PageHead title={project.design.title} isWork crumbs={crumbs} byline={finishByline(project.quantity)}>
        {say('Finish it')}
      </PageHead>
      <Form
        action={finishProjectAction}
        submit={say('Finish it')}
        pending={say('Writing it down')}
        hidden={{ projectId, version: String(project.version) }}
      >
        <AsItStands
          says={asItStandsWords({
            ...{ stitches, logged: project.stitchesDone },
            ...{ hoursTenths: project.hoursTenths, hasThreads: sheet.threads.length > 0 },
          })}
        />
        <Steps items={steps} label={say('Finishing')} />
      </Form>
    </>
  )
}

/** What the form says before anything in it is changed. */
function asItStandsWords(said: { stitches: number; logged: number; hoursTenths: number; hasThreads: boolean }): string {
  const figures = [
    said.stitches > 0 &&
      (said.logged < said.stitches
        ? say('{stitches, number} stitches, as the design has them, of which {logged, number} are logged', {
            stitches: said.stitches,
            logged: said.logged,
          })
        : counted(said.stitches, 'stitch')),
    said.hoursTenths > 0 && hoursWords(said.hoursTenths),
  ].filter(Boolean)
  const done = [say('Finished today'), ...figures].join(', ')
  return said.hasThreads
    ? say('{done}. Of each thread what the design needs was used; what is left becomes a list to put back.', { done })
    : `${done}.`
}

const finishByline = (quantity: number) =>
  say(
    '{rest}Everything is written at once, and nothing before a button is pressed. It cannot be undone afterwards: stock that turns out otherwise is set right by counting it.',
    {
      rest: quantity > 1 ? say('All {quantity} of them. ', { quantity }) : '',
    },
  )

const offcutHint = (expected: readonly { widthUm: number; heightUm: number }[], unit: 'in' | 'cm') =>
  expected.length > 0
    ? say('Width x height. By the sum there should be {expected} left', {
        expected: listed(expected.map((size) => formatClothSize(size, unit))),
      })
    : say('Width x height; blank if nothing is worth keeping')
