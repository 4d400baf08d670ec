import type { Metadata } from 'next'
import { formatClothLength } from '#language/lengths'
import { say } from '#language/say'
import { sayParts } from '#language/say-parts'
import { designQuerySchema } from '#lib/chart/design-query'
import { cutObjectives } from '#lib/cloth/cut-plan'
import { findDesigns } from '#lib/db/answers/find-designs'
import { getAnswers } from '#lib/db/answers/get-answers'
import { mostCutJobs } from '#lib/db/cut-plan/cut-jobs'
import { wishIdAt } from '#lib/db/cut-plan/read-cut-choices'
import { listProjectsUnderWay } from '#lib/db/project/queries'
import { Button } from '#ui/button'
import { Empty } from '#ui/empty'
import { ChoiceField, FieldRow, NumberField, SelectField, TextField } from '#ui/field'
import { Link } from '#ui/link'
import { Notice } from '#ui/notice'
import { PageHead } from '#ui/page-head'
import { Section } from '#ui/section'
import { getViewer } from '#viewer/viewer'
import { counted, limitWords } from '#words/amounts'
import { givenName } from '#words/given'
import { beginAction } from '../actions'
import { type Fields, limits, usualFor } from '../choices'
import s from '../cut.module.css'
import { type ReadForm, readForm } from '../read-form'
import { objectiveWords } from '../words'
import { LiveForm } from './live-form'
import { PieceChoices } from './piece-choices'
import { WishRow } from './wish-row'

export const generateMetadata = (): Metadata => ({ title: say('Plan a cut') })

const designsFound = 8
const projectsShown = 30

type PageProps = { searchParams: Promise<Fields> }

export default async function NewCutPage({ searchParams }: PageProps) {
  const read = await readForm(await searchParams)
  const { form, problems, asked, choices } = read
  const canBegin = asked !== null && (choices?.request.pieces.length ?? 0) > 0
  return (
    <>
      <PageHead
        title={say('Plan a cut')}
        crumbs={[
          { label: say('Cloth'), href: '/cloth' },
          { label: say('Plans of cuts'), href: '/cloth/cut' },
          { label: say('Plan a cut') },
        ]}
        byline={say(
          'Several things onto one piece or more, by straight cuts from edge to edge; what is left stays as large as can be.',
        )}
      />
      {form.wasBusy && (
        <Notice kind="refusal" title={say('Too many searches run just now')}>
          {sayParts('{mostCutJobs} may run at a time. Wait for one to end, or stop it, then begin this one again.', {
            mostCutJobs,
          })}
        </Notice>
      )}
      {form.wasTried && !canBegin && (
        <Notice kind="refusal" title={say('It cannot begin yet')}>
          {problems.size > 0 ? say('Put right what is marked below.') : say('Add something to cut that fits at least one piece.')}
        </Notice>
      )}
      <LiveForm label={say('What to cut, and from what')}>
        <Wishes read={read} />
        {form.rows.length > 0 && (
          <>
            <Section title={say('Cut from')} id="pieces">
              {choices ? (
                <PieceChoices read={read} choices={choices} />
              ) : (
                <p className="quiet">{say('Put right what is marked above first.')}</p>
              )}
            </Section>
            <Section title={say('What matters most')} id="matters">
              <Matters read={read} />
            </Section>
            <div className={s.begin}>
              <Button kind="first" type="submit" data-begin formAction={beginAction}>
                {say('Find the best way to cut it')}
              </Button>
            </div>
          </>
        )}
      </LiveForm>
    </>
  )
}

async function Wishes({ read }: { read: ReadForm }) {
  const { form, viewer, sources, problems, choices, asked } = read
  // While a row does not read, nothing is asked for at all.
  const idOf = (index: number) => (asked ? wishIdAt(index) : null)
  return (
    <Section title={say('What to cut')} id="wishes">
      {form.rows.length === 0 && (
        <Empty title={say('Nothing to cut yet')}>
          {say(
            'Add designs by searching, projects with their number of kits, or plain sizes. {hasPieceIds, select, yes {The piece is chosen already.} other {}}',
            { hasPieceIds: Boolean(form.pieceIds) },
          )}
        </Empty>
      )}
      {form.rows.length === 0 && form.pieceIds?.map((id) => <input key={id} type="hidden" name="piece" value={id} />)}
      {form.rows.map((row, index) => (
        <WishRow
          key={row.at}
          row={row}
          usual={usualFor(row, form, sources, viewer.settings)}
          problems={problems}
          sources={sources}
          settings={viewer.settings}
          choices={choices}
          wishId={idOf(index)}
        />
      ))}
      <AddSomething read={read} />
    </Section>
  )
}

async function AddSomething({ read }: { read: ReadForm }) {
  const { form } = read
  const { settings, ownerIds } = await getViewer()
  const [answers, underWay] = await Promise.all([
    getAnswers(),
    listProjectsUnderWay({ ownerIds, page: 1, perPage: projectsShown }),
  ])
  const isThere = (kind: 'design' | 'project', id: string) => form.rows.some(({ for: of }) => of.kind === kind && of.id === id)
  const alike =
    form.q === ''
      ? []
      : findDesigns(answers, designQuerySchema.parse({ q: form.q, order: 'title' }), ownerIds, designsFound).records
  const found = alike.filter(({ designId }) => !isThere('design', designId))
  const projects = underWay.rows.filter(({ id }) => !isThere('project', id))
  const inches = settings.lengthUnit === 'in'
  return (
    <div className={s.adding}>
      <div>
        <div className={s.picker}>
          <TextField
            name="q"
            label={say('Add a design')}
            type="search"
            defaultValue={form.q}
            placeholder={say('title, designer, theme')}
          />
          <Button type="submit">{say('Find')}</Button>
        </div>
        {form.q !== '' && alike.length === 0 && <p className="quiet">{say('No design of your charts is like that.')}</p>}
        {found.length > 0 && (
          <ul className={s.choices} aria-label={say('Designs found')}>
            {found.map(({ designId, title, chartTitle }) => (
              <li key={designId}>
                <span>
                  <Link className="title" href={`/designs/${designId}`}>
                    {title}
                  </Link>
                  {chartTitle !== title && <small>{sayParts('in {chartTitle}', { chartTitle })}</small>}
                </span>
                <Button type="submit" name="design" value={designId}>
                  {sayParts('Add{title}', { title: <span className="vh"> {title}</span> })}
                </Button>
              </li>
            ))}
          </ul>
        )}
      </div>
      <div className={s.picker}>
        <TextField
          key={form.rows.length}
          name="size"
          label={say('Add a plain size')}
          hint={say('Weft × warp')}
          defaultValue={form.sizeNotRead}
          placeholder={inches ? say('11 x 11 in') : say('28 x 28 cm')}
          error={
            form.sizeNotRead === ''
              ? undefined
              : say('Give both sides, width first: {hasInches, select, yes {11 x 11 in} other {28 x 28 cm}}.', {
                  hasInches: Boolean(inches),
                })
          }
          maxLength={60}
        />
        <Button type="submit">{say('Add')}</Button>
      </div>
      {projects.length > 0 && (
        <details className={s.more} open={form.rows.length === 0 || undefined}>
          <summary>{say('Add a project')}</summary>
          <ul className={s.choices} aria-label={say('Projects')}>
            {projects.map(({ id, design, status, quantity, forWhom }) => (
              <li key={id}>
                <span>
                  <Link className="title" href={`/projects/${id}`}>
                    {design.title}
                  </Link>
                  <small>
                    {[givenName(status), quantity > 1 && counted(quantity, 'kit'), forWhom && say('for {forWhom}', { forWhom })]
                      .filter(Boolean)
                      .join(', ')}
                  </small>
                </span>
                <Button type="submit" name="project" value={id}>
                  {sayParts('Add{title}', { title: <span className="vh"> {design.title}</span> })}
                </Button>
              </li>
            ))}
          </ul>
        </details>
      )}
    </div>
  )
}

function Matters({ read }: { read: ReadForm }) {
  const { form, problems, viewer } = read
  const { settings } = viewer
  const unit = settings.lengthUnit
  return (
    <div className={s.matters}>
      <ChoiceField
        name="objective"
        label={say('As much as can be is cut. Of the ways to cut as much:')}
        defaultValue={form.objective}
        options={cutObjectives.map((value) => ({ value, ...objectiveWords[value] }))}
      />
      <div>
        <FieldRow>
          <TextField
            name="gap"
            label={say('Lost along each cut')}
            hint={say('Where edges are pinked or torn; 0 for shears')}
            defaultValue={form.gap === '' ? formatClothLength(settings.cutGapUm, unit) : form.gap}
            error={problems.get('gap')}
            maxLength={30}
          />
          <TextField
            name="least"
            label={say('Smallest useful offcut')}
            hint={say('At least so long both ways; less is waste')}
            defaultValue={form.least === '' ? formatClothLength(settings.leastOffcutUm, unit) : form.least}
            error={problems.get('least')}
            maxLength={30}
          />
        </FieldRow>
        <FieldRow>
          <SelectField
            name="limit"
            label={say('Search for at most')}
            hint={say('It ends sooner when nothing better exists')}
            defaultValue={String(form.seconds)}
            options={limits.map((seconds) => ({ value: String(seconds), label: limitWords(seconds) }))}
          />
          <NumberField
            name="seed"
            label={say('Start from')}
            hint={say('The same number searches in the same order; another may find another way')}
            defaultValue={form.seed === '' ? 1 : form.seed}
            error={problems.get('seed')}
            isWhole
          />
        </FieldRow>
      </div>
    </div>
  )
}
