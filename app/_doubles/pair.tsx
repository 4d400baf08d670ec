import type { ReactNode } from 'react'
import { say } from '#language/say'
import { sayParts } from '#language/say-parts'
import type { ToldApartPair } from '#lib/db/merging/tell-apart'
import { ConfirmDialog } from '#ui/confirm-dialog'
import { ChoiceField } from '#ui/field'
import { Form } from '#ui/form'
import { Ledger } from '#ui/ledger'
import { Section } from '#ui/section'
import { dayOf } from '#words/date'
import { lookAgainAction, mergeNamedAction, tellApartAction } from './actions'
import s from './pairs.module.css'

/** Pairs that may be one thing twice, one below the other. */
export function Pairs({ children }: { children: ReactNode }) {
  return <ul className={s.pairs}>{children}</ul>
}

type PairProps = {
  first: ReactNode
  second: ReactNode
  reasons: readonly string[]
  doubts?: readonly string[]
  actions: ReactNode
}

/** Two things beside one another, and why they may be one. */
export function Pair({ first, second, reasons, doubts = [], actions }: PairProps) {
  return (
    <li className={s.pair}>
      <div className={s.one}>{first}</div>
      <div className={s.one}>{second}</div>
      <div>
        <ul className={s.why} aria-label={say('Why they may be one')}>
          {reasons.map((reason) => (
            <li key={reason}>{reason}</li>
          ))}
          {doubts.map((doubt) => (
            <li key={doubt} className={s.doubt}>
              {sayParts('but {doubt}', { doubt })}
            </li>
          ))}
        </ul>
        <div className={s.acts}>{actions}</div>
      </div>
    </li>
  )
}

export const Name = ({ children }: { children: ReactNode }) => <span className={s.name}>{children}</span>
export const Said = ({ children }: { children: ReactNode }) => <span className={s.fact}>{children}</span>

type ApartProps = { noun: 'chart' | 'designer' | 'thread' | 'maker'; firstId: string; secondId: string }

/** Says that two are two. */
export function NotTheSame(props: ApartProps & { names: string }) {
  const { names, ...hidden } = props
  return (
    <Form
      action={tellApartAction}
      hidden={hidden}
      submit={say('Not the same')}
      submitKind="plain"
      label={say('{names}: not the same', { names })}
      isInline
    />
  )
}

/** What was said to be two, each with a way to think again. */
export function ToldApart({ pairs }: { pairs: readonly ToldApartPair[] }) {
  if (pairs.length === 0) return null
  return (
    <Section title={say('Said to be two')} id="apart" note={say('not suggested any more')}>
      <Ledger
        caption={say('Pairs said to be two')}
        rows={pairs}
        rowKey={({ firstId, secondId }) => `${firstId} ${secondId}`}
        isTight
        columns={[
          {
            key: 'pair',
            head: say('Pair'),
            cell: ({ firstName, secondName }) => say('{firstName} and {secondName}', { firstName, secondName }),
            phone: 'lead',
          },
          { key: 'day', head: say('Day'), cell: ({ at }) => <span className="nb">{dayOf(at)}</span> },
          {
            key: 'again',
            head: say('Think again'),
            headIsHidden: true,
            isAtEnd: true,
            isOffPaper: true,
            cell: ({ firstId, secondId, firstName, secondName }) => (
              <Form
                action={lookAgainAction}
                hidden={{ firstId, secondId }}
                submit={say('Suggest them again')}
                submitKind="quiet"
                label={say('{firstName} and {secondName}: suggest them again', { firstName, secondName })}
                isInline
              />
            ),
          },
        ]}
      />
    </Section>
  )
}

type MergeNamedProps = {
  noun: 'designer' | 'thread' | 'line' | 'maker'
  first: { id: string; name: string; note: string }
  second: { id: string; name: string; note: string }
  /** What will happen. */
  children: ReactNode
}

/** Asks which of two is kept, and merges them. */
export function MergeNamed({ noun, first, second, children }: MergeNamedProps) {
  return (
    <ConfirmDialog
      opener={say('Make them one')}
      openerKind="first"
      title={say('Make one of {name} and {name2}?', { name: first.name, name2: second.name })}
      confirm={say('Merge')}
      action={mergeNamedAction}
      hidden={{ noun, firstId: first.id, secondId: second.id }}
    >
      <ChoiceField
        name="keptId"
        label={say('Which one is kept?')}
        isRequired
        options={[first, second].map(({ id, name, note }) => ({ value: id, label: name, note }))}
      />
      {children}
    </ConfirmDialog>
  )
}
