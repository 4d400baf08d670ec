import { formatClothSize } from '#language/lengths'
import { say } from '#language/say'
import { sayParts } from '#language/say-parts'
import { listFinishings } from '#lib/cloth/margins'
import { cutPriorities } from '#lib/coverage/asked-cut'
import type { CutChoices, StuckWish } from '#lib/db/cut-plan/read-cut-choices'
import type { CutSources } from '#lib/db/cut-plan/read-cut-sources'
import type { Settings } from '#lib/settings/settings'
import { Button } from '#ui/button'
import { CheckField, NumberField, SelectField, TextField } from '#ui/field'
import { Link } from '#ui/link'
import { marginWords } from '#words/cloth-size'
import { givenName } from '#words/given'
import type { CutProblems, Row, Usual } from '../choices'
import s from '../cut.module.css'
import { priorityWords } from '../words'

type WishRowProps = {
  row: Row
  usual: Usual
  problems: CutProblems
  sources: CutSources
  settings: Settings
  choices: CutChoices | null
  /** What was asked for by this row, when it reads. */
  wishId: string | null
}

/** One thing to cut: how many, how it is finished, and what else may be said of it. */
export function WishRow({ row, usual, problems, sources, settings, choices, wishId }: WishRowProps) {
  const { at, for: of } = row
  const unit = settings.lengthUnit
  const project = of.kind === 'project' ? sources.projects.get(of.id) : undefined
  const design = sources.designs.get(project?.designId ?? (of.kind === 'design' ? of.id : ''))
  const isSize = of.kind === 'size'
  const title = isSize ? say('A plain size') : (design?.title ?? say('Something that is gone'))
  const key = isSize ? 'size' : `${of.kind}-${of.id}`
  const name = (letter: string) => `${letter}${at}`
  const stuck = choices?.stuck.find((one) => one.wishId === wishId)
  const isMore = row.margin !== '' || row.over !== '' || row.priority !== 'wanted' || row.worth !== ''
  return (
    <fieldset className={s.wish}>
      <legend className="vh">{title}</legend>
      <input type="hidden" name={name('w')} value={key} />
      <div className={s.wishHead}>
        <div>
          <p className={s.wishTitle}>
            {isSize ? (
              title
            ) : (
              <Link className="title" href={project ? `/projects/${project.id}` : `/designs/${design?.id ?? ''}`}>
                {title}
              </Link>
            )}
          </p>
          <p className={s.wishNote}>{[projectWords(project), cutWords(wishId, choices, settings)].filter(Boolean).join(' · ')}</p>
          {stuck && <p className={s.do}>{stuckWords(stuck, row, usual, design?.advised !== null)}</p>}
          {problems.get(name('w')) && <p className={s.do}>{problems.get(name('w'))}</p>}
        </div>
        <Button type="submit" kind="quiet" name="drop" value={String(at)}>
          {sayParts('Take off{title}', { title: <span className="vh"> {title}</span> })}
        </Button>
      </div>
      <div className={s.wishFields}>
        {isSize && (
          <TextField
            name={name('z')}
            label={say('Size, weft × warp')}
            defaultValue={row.size}
            placeholder={unit === 'in' ? say('11 x 11 in') : say('28 x 28 cm')}
            error={problems.get(name('z'))}
            maxLength={60}
          />
        )}
        <NumberField
          name={name('n')}
          label={say('Copies')}
          defaultValue={row.copies === '' ? usual.copies : row.copies}
          error={problems.get(name('n'))}
          isWhole
        />
        {!isSize && (
          <SelectField
            name={name('f')}
            label={say('Finished as')}
            defaultValue={row.finishing === '' ? usual.finishing : row.finishing}
            options={listFinishings(settings).map((each) => ({
              value: each.name,
              label: `${givenName(each.name)}, ${marginWords(each.margins, unit)}`,
            }))}
          />
        )}
        {!isSize && (
          <SelectField
            name={name('c')}
            label={say('Cut from')}
            defaultValue={row.cloth === '' ? usual.cloth : row.cloth}
            options={[
              { value: 'advised', label: say('the cloth it advises') },
              { value: 'any', label: say('any cloth that takes it') },
            ]}
          />
        )}
      </div>
      {isSize && (
        <>
          <input type="hidden" name={name('g')} value="1" />
          <CheckField
            name={name('t')}
            label={say('It may be turned')}
            hint={say('Taken off, its width always lies along the weft')}
            value="1"
            defaultChecked={row.mayTurn}
          />
        </>
      )}
      <details className={s.more} open={isMore || undefined}>
        <summary>{isSize ? say('What goes first') : say('Margins, threads and what goes first')}</summary>
        <div className={s.wishFields}>
          {!isSize && (
            <TextField
              name={name('m')}
              label={say('Own margins')}
              hint={say('{isIn, select, yes {2 in} other {5 cm}}, or left, right, top, bottom', { isIn: unit === 'in' })}
              defaultValue={row.margin}
              error={problems.get(name('m'))}
              maxLength={80}
            />
          )}
          {!isSize && (
            <SelectField
              name={name('o')}
              label={say('Worked over')}
              hint={say('Threads of the cloth to a stitch')}
              none={say('as the chart says')}
              defaultValue={row.over === '' ? usual.over : row.over}
              options={[
                { value: '1', label: say('one thread') },
                { value: '2', label: say('two threads') },
              ]}
            />
          )}
          <SelectField
            name={name('p')}
            label={say('If not all can be cut')}
            hint={say('What must be had goes before all else')}
            defaultValue={row.priority}
            options={cutPriorities.map((value) => ({ value, label: priorityWords[value] }))}
          />
          <NumberField
            name={name('v')}
            label={say('Worth, each')}
            hint={say('Beside others that are as much wanted')}
            defaultValue={row.worth === '' ? 1 : row.worth}
            error={problems.get(name('v'))}
            isWhole
          />
        </div>
      </details>
    </fieldset>
  )
}

const projectWords = (project: { status: string; quantity: number; forWhom: string | null } | undefined): string =>
  project
    ? [
        say('project {status}', { status: givenName(project.status) }),
        project.quantity > 1 && say('{quantity} kits and spares', { quantity: project.quantity }),
        project.forWhom && say('for {forWhom}', { forWhom: project.forWhom }),
      ]
        .filter(Boolean)
        .join(', ')
    : ''

/** How large it is cut, on the first piece that takes it, and how many do. */
function cutWords(wishId: string | null, choices: CutChoices | null, { lengthUnit }: Settings): string {
  const wish = choices?.wishes.find(({ id }) => id === wishId)
  if (!wish || !choices) return ''
  const fitting = choices.candidates.filter(({ fits }) => fits.some((fit) => fit.wishId === wishId))
  const [first] = fitting
  if (!first) return ''
  const onPieces = say('fits {fitting, plural, one {# free piece} other {# free pieces}}', { fitting: fitting.length })
  if (wish.kind === 'size') return onPieces
  const ways = choices.request.wishes.find(({ id }) => id === wishId)?.ways ?? {}
  const sizes = new Set(Object.values(ways).flatMap((some) => (some[0] ? [formatClothSize(upright(some[0]), lengthUnit)] : [])))
  const [size] = sizes
  return [
    size && (sizes.size === 1 ? say('cut {size}', { size }) : say('cut {size} and other sizes, by the count', { size })),
    onPieces,
  ]
    .filter(Boolean)
    .join(' · ')
}

const upright = ({ widthUm, heightUm, isTurned }: { widthUm: number; heightUm: number; isTurned: boolean }) =>
  isTurned ? { widthUm: heightUm, heightUm: widthUm } : { widthUm, heightUm }

function stuckWords({ why }: StuckWish, row: Row, usual: Usual, isAdvising: boolean): string {
  switch (why) {
    case 'gone':
      return say('It is not there any more. Take it off.')
    case 'no-size':
      return say('Nobody has said how large it is. Write its size down on its own page first, or take it off.')
    case 'no-piece':
      return row.for.kind !== 'size' && isAdvising && (row.cloth === '' ? usual.cloth : row.cloth) === 'advised'
        ? say('No free piece of the cloth it advises takes it. Smaller margins may help, or any cloth that takes it.')
        : say('No free piece takes it.')
  }
}
