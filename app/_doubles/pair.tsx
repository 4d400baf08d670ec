import type { ReactNode } from 'react'
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
        <ul className={s.why} aria-label="Why they may be one">
          {reasons.map((reason) => (
            <li key={reason}>{reason}</li>
          ))}
          {doubts.map((doubt) => (
            <li key={doubt} className={s.doubt}>
              but {doubt}
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
      submit="Not the same"
      submitKind="plain"
      label={`${names}: not the same`}
      isInline
    />
  )
}

/** What was said to be two, each with a way to think again. */
export function ToldApart({ pairs }: { pairs: readonly ToldApartPair[] }) {
  if (pairs.length === 0) return null
  return (
    <Section title="Said to be two" id="apart" note="not suggested any more">
      <Ledger
        caption="Pairs said to be two"
        rows={pairs}
        rowKey={({ firstId, secondId }) => `${firstId} ${secondId}`}
        isTight
        columns={[
          { key: 'pair', head: 'Pair', cell: ({ firstName, secondName }) => `${firstName} and ${secondName}`, phone: 'lead' },
          { key: 'day', head: 'Day', cell: ({ at }) => <span className="nb">{dayOf(at)}</span> },
          {
            key: 'again',
            head: 'Think again',
            headIsHidden: true,
            isAtEnd: true,
            isOffPaper: true,
            cell: ({ firstId, secondId, firstName, secondName }) => (
              <Form
                action={lookAgainAction}
                hidden={{ firstId, secondId }}
                submit="Suggest them again"
                submitKind="quiet"
                label={`${firstName} and ${secondName}: suggest them again`}
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
      opener="Make them one"
      openerKind="first"
      title={`Make one of ${first.name} and ${second.name}?`}
      confirm="Merge"
      action={mergeNamedAction}
      hidden={{ noun, firstId: first.id, secondId: second.id }}
    >
      <ChoiceField
        name="keptId"
        label="Which one is kept?"
        isRequired
        options={[first, second].map(({ id, name, note }) => ({ value: id, label: name, note }))}
      />
      {children}
    </ConfirmDialog>
  )
}
