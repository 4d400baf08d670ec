import type { ReactNode } from 'react'
import { say } from '#language/say'
import { sayParts } from '#language/say-parts'
import type { Wanted } from '#lib/db/order/read-wants'
import { Button, ButtonRow, LinkButton } from '#ui/button'
import { TextField } from '#ui/field'
import { Link } from '#ui/link'
import { Section } from '#ui/section'
import { givenName } from '#words/given'
import s from './buy.module.css'
import { type BuyChoices, buyHref } from './filter'

export type FoundDesign = { id: string; title: string; chartTitle: string }
export type OpenProject = { id: string; title: string; status: string; quantity: number; forWhom: string | null }

type DesignPickerProps = {
  choices: BuyChoices
  wanted: readonly Wanted[]
  found: readonly FoundDesign[]
  projects: readonly OpenProject[]
}

const forWords = ({ quantity, forWhom }: { quantity: number; forWhom: string | null }) =>
  [quantity > 1 && say('{quantity} of it', { quantity }), forWhom && say('for {forWhom}', { forWhom })].filter(Boolean).join(', ')

/** What the list is for: what is chosen, and what can be added. All of it lives in the address. */
export function DesignPicker({ choices, wanted, found, projects }: DesignPickerProps) {
  const without = (ids: readonly string[], id: string) => ids.filter((one) => one !== id)
  const rest = projects.filter(({ id }) => !choices.project.includes(id))
  const added = found.filter(({ id }) => !choices.design.includes(id))
  return (
    <div className="no-print">
      <Section title={say('What it is for')} id="chosen">
        {wanted.length > 0 && (
          <ul className={s.chosen} aria-label={say('Chosen')}>
            {wanted.map((one) => (
              <li key={one.want.key}>
                <span>
                  <Link className="title" href={one.project ? `/projects/${one.project.id}` : `/designs/${one.designId}`}>
                    {one.title}
                  </Link>
                  <small>
                    {one.project
                      ? [givenName(one.project.status), forWords(one.project)].filter(Boolean).join(', ')
                      : say('design')}
                    {one.listId === null && say(' · no thread list yet, so nothing is reckoned')}
                    {one.isIncomplete && say(' · part of its key is not in')}
                    {one.project === null && one.lists.length > 1 && (
                      <>
                        {' '}
                        {say('· by')}{' '}
                        {one.lists.map(({ id, name }, at) => (
                          <span key={id}>
                            {at > 0 && ', '}
                            {id === one.listId ? (
                              <b>{name || say('its first list')}</b>
                            ) : (
                              <Link
                                href={buyHref({
                                  ...choices,
                                  list: [...choices.list.filter((list) => !one.lists.some((other) => other.id === list)), id],
                                })}
                              >
                                {name || say('its first list')}
                              </Link>
                            )}
                          </span>
                        ))}
                        {listReason(one)}
                      </>
                    )}
                  </small>
                </span>
                <LinkButton
                  kind="quiet"
                  href={buyHref(
                    one.project
                      ? { ...choices, project: without(choices.project, one.project.id) }
                      : { ...choices, design: without(choices.design, one.designId) },
                  )}
                >
                  {sayParts('Take off{title}', { title: <span className="vh"> {one.title}</span> })}
                </LinkButton>
              </li>
            ))}
          </ul>
        )}
        <Chooser isFolded={wanted.length > 0 && choices.q === ''}>
          <div>
            <form className={s.picker} action="/buy" aria-label={say('Find a design')}>
              {(['design', 'list', 'project'] as const).flatMap((name) =>
                choices[name].map((id) => <input key={`${name} ${id}`} type="hidden" name={name} value={id} />),
              )}
              <TextField
                name="q"
                label={say('Add a design')}
                type="search"
                defaultValue={choices.q}
                placeholder={say('title, designer, theme')}
              />
              <Button type="submit">{say('Find')}</Button>
            </form>
            {choices.q !== '' && added.length === 0 && (
              <p className="quiet">{say('No other design of your charts is like that.')}</p>
            )}
            {choices.q !== '' && added.length > 0 && (
              <ul className={s.chosen} aria-label={say('Found')}>
                {added.map(({ id, title, chartTitle }) => (
                  <li key={id}>
                    <span>
                      <Link className="title" href={`/designs/${id}`}>
                        {title}
                      </Link>
                      {chartTitle !== title && <small>{sayParts('in {chartTitle}', { chartTitle })}</small>}
                    </span>
                    <LinkButton href={buyHref({ ...choices, design: [...choices.design, id] })}>
                      {sayParts('Add{title}', { title: <span className="vh"> {title}</span> })}
                    </LinkButton>
                  </li>
                ))}
              </ul>
            )}
          </div>
          {rest.length > 0 && (
            <div>
              <h3>{say('Projects wanted and under way')}</h3>
              <ul className={s.chosen} aria-label={say('Projects')}>
                {rest.map((project) => (
                  <li key={project.id}>
                    <span>
                      <Link className="title" href={`/projects/${project.id}`}>
                        {project.title}
                      </Link>
                      <small>{[givenName(project.status), forWords(project)].filter(Boolean).join(', ')}</small>
                    </span>
                    <LinkButton href={buyHref({ ...choices, project: [...choices.project, project.id] })}>
                      {sayParts('Add{title}', { title: <span className="vh"> {project.title}</span> })}
                    </LinkButton>
                  </li>
                ))}
              </ul>
              {rest.length > 1 && (
                <ButtonRow>
                  <LinkButton
                    kind="quiet"
                    href={buyHref({ ...choices, project: [...choices.project, ...rest.map(({ id }) => id)].slice(0, 50) })}
                  >
                    {say('Add all of these')}
                  </LinkButton>
                </ButtonRow>
              )}
            </div>
          )}
        </Chooser>
      </Section>
    </div>
  )
}

/** Why a design is taken by the list it is: "the least to buy for all of them together; 3 symbols share another's thread". */
function listReason({ by, lists, listId }: Wanted): string {
  const merged = lists.find(({ id }) => id === listId)?.mergedCount ?? 0
  const reason = {
    only: '',
    project: '',
    asked: say(', as you chose'),
    least: say(', the least to buy for all of them together'),
    'least found': say(', the least to buy that was found: there are too many ways to weigh them all'),
  }[by]
  return `${reason}${merged > 0 ? say('; {merged, plural, one {# symbol} other {# symbols}} {merged, plural, one {shares} other {share}} another’s thread', { merged }) : ''}`
}

/** Folded away once something is chosen, so that the list itself comes first. */
function Chooser({ isFolded, children }: { isFolded: boolean; children: ReactNode }) {
  const columns = <div className={s.columns}>{children}</div>
  if (!isFolded) return columns
  return (
    <details className={s.chooser}>
      <summary>{say('Add a design or a project')}</summary>
      {columns}
    </details>
  )
}
