import type { ReactNode } from 'react'
import { say } from '#language/say'
import { sayParts } from '#language/say-parts'
import { newId } from '#lib/db/new-id'
import type { BoughtThread } from '#lib/db/order/bought-threads'
import type { Owner } from '#lib/db/owner/owners'
import { DateField, NumberField, SelectField, TextField } from '#ui/field'
import { Form } from '#ui/form'
import { type Column, Ledger } from '#ui/ledger'
import { Section } from '#ui/section'
import { orderListAction } from './actions'
import s from './buy.module.css'
import { type HiddenItem, itemField, putUpsField } from './schema'
import { nameOf } from './words'

export type OrderItem = { thread: BoughtThread; putUps: number; putUpStrandTenths: number; lot: string | null }

type OrderGroupProps<Row> = {
  title: string
  note?: ReactNode
  rows: readonly Row[]
  columns: readonly Column<Row>[]
  itemOf: (row: Row) => OrderItem
  under?: (row: Row) => ReactNode
  foot?: ReactNode
  supplier: string
  /** Of whom the order may be; with one, nothing is asked. */
  owners: readonly Owner[]
  today: string
}

/** What to buy of one maker, and one press to put it down as ordered. */
export function OrderGroup<Row>(props: OrderGroupProps<Row>) {
  const { title, note, rows, columns, itemOf, under, foot, supplier, owners, today } = props
  const [owner] = owners
  const hidden: Record<string, string> = { orderedOn: today, ...(owner && owners.length === 1 && { ownerId: owner.id }) }
  for (const row of rows) {
    const { thread, putUpStrandTenths, lot } = itemOf(row)
    hidden[itemField(thread.id)] = JSON.stringify({ orderId: newId(), putUpStrandTenths, lot } satisfies HiddenItem)
  }
  const orderColumn: Column<Row> = {
    key: 'order',
    head: say('Order'),
    isNumeric: true,
    isOffPaper: true,
    width: '7rem',
    phone: 'side',
    cell: (row) => {
      const { thread, putUps } = itemOf(row)
      return (
        <div className={s.box}>
          <NumberField
            name={putUpsField(thread.id)}
            label={<span className="vh">{sayParts('Order of {nameOf}', { nameOf: nameOf(thread) })}</span>}
            isWhole
            defaultValue={putUps > 0 ? putUps : ''}
            placeholder={say('none')}
          />
        </div>
      )
    },
  }
  return (
    <Section title={title} note={note}>
      <div className={s.group}>
        <Form
          label={say('Order from {supplier}', { supplier })}
          action={orderListAction}
          submit={say('Put down as ordered')}
          hidden={hidden}
          isInline
          clearsWhenDone
        >
          <div className={s.table}>
            <Ledger
              caption={say('To buy: {title}', { title })}
              columns={[...columns, orderColumn]}
              rows={rows}
              rowKey={(row) => itemOf(row).thread.id}
              under={under}
              foot={foot}
            />
          </div>
          <div className={`no-print ${s.foot}`}>
            <TextField name="supplier" label={say('Ordered from')} defaultValue={supplier} maxLength={200} />
            <DateField name="expectedOn" label={say('Expected on')} />
            {owners.length > 1 && (
              <SelectField
                name="ownerId"
                label={say('For')}
                none={say('choose')}
                isRequired
                options={owners.map(({ id, name }) => ({ value: id, label: name }))}
              />
            )}
          </div>
        </Form>
      </div>
    </Section>
  )
}
