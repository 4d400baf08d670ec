import type { ReactNode } from 'react'
import { say } from '#language/say'
import { Ledger } from '#ui/ledger'
import { Unfold } from '#ui/unfold'
import s from './reference.module.css'
import type { SchemaRow } from './schema-rows'

export type OperationView = {
  method: string
  path: string
  description: string | null
  parameters: SchemaRow[]
  bodyFields: SchemaRow[]
  bodyKinds: string[]
  bodyExample: string | null
  answerStatus: string
  answerMeans: string
  answerFields: SchemaRow[]
  answerExample: string
  /** Short enough to be shown without being asked for. */
  isAnswerShort: boolean
  problems: { kind: string; status: number; title: string }[]
}

const base = '/api/v1'

export function OperationEntry({ operation }: { operation: OperationView }) {
  const { method, path } = operation
  const takesJson = operation.bodyExample !== null
  return (
    <div className={s.entry}>
      <p className={s.address}>
        <code>
          <b>{method}</b> {base}
          {path}
        </code>
      </p>
      {operation.description && <p className={s.words}>{operation.description}</p>}
      {operation.parameters.length > 0 && (
        <Fields caption={say('Parameters of {method} {path}', { method, path })} rows={operation.parameters} />
      )}
      {operation.bodyKinds.length > 0 && !takesJson && (
        <p className={s.words}>{say('Send a file as {bodyKinds}.', { bodyKinds: operation.bodyKinds.join(' or ') })}</p>
      )}
      {takesJson && <Sample title={say('Example of the body')}>{operation.bodyExample}</Sample>}
      <Unfold
        label={say('Answer {answerStatus}: {answerMeans}', {
          answerStatus: operation.answerStatus,
          answerMeans: operation.answerMeans,
        })}
        isOpenAtFirst={operation.isAnswerShort}
      >
        <Sample title={say('Example of the answer')}>{operation.answerExample}</Sample>
      </Unfold>
      {operation.bodyFields.length > 0 && (
        <Unfold label={say('Fields of the body')}>
          <Fields caption={say('Fields of the body of {method} {path}', { method, path })} rows={operation.bodyFields} />
        </Unfold>
      )}
      {operation.answerFields.length > 0 && (
        <Unfold label={say('Fields of the answer')}>
          <Fields caption={say('Fields of the answer of {method} {path}', { method, path })} rows={operation.answerFields} />
        </Unfold>
      )}
      <p className={s.problems}>
        {say('Problems:')}{' '}
        {operation.problems.map(({ kind, status, title }, index) => (
          <span key={kind}>
            {index > 0 && ', '}
            <a href={`/reference#problem-${kind}`} title={title}>
              {status} {kind}
            </a>
          </span>
        ))}
      </p>
    </div>
  )
}

function Sample({ title, children }: { title: string; children: ReactNode }) {
  return (
    <figure className={s.sample}>
      <figcaption>{title}</figcaption>
      <pre>{children}</pre>
    </figure>
  )
}

function Fields({ caption, rows }: { caption: string; rows: readonly SchemaRow[] }) {
  return (
    <Ledger
      caption={caption}
      isTight
      rows={rows}
      rowKey={(row) => row.name}
      columns={[
        { key: 'name', head: say('Name'), cell: (row) => <code>{row.name}</code>, phone: 'lead', width: '26%' },
        { key: 'type', head: say('What it is'), cell: (row) => row.type, width: '22%' },
        {
          key: 'need',
          head: say('Needed'),
          cell: (row) => (row.isRequired ? say('always') : say('if wanted')),
          phone: 'side',
          width: '9%',
        },
        { key: 'words', head: say('Meaning'), cell: (row) => row.words },
      ]}
    />
  )
}
