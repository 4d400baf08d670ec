'use client'

import { useRef, useState } from 'react'
import { say } from '#language/say'
import { sayParts } from '#language/say-parts'
import { PlaceLabel } from '#trade/place-label'
import { Button } from '#ui/button'
import s from './order-list.module.css'

type Standing = { id: string; label: string; name: string | null }

/** Places that are moved up and down by buttons; what they are told goes along in the form. */
export function OrderList({ places }: { places: readonly Standing[] }) {
  const [order, setOrder] = useState<readonly Standing[]>(places)
  const [said, setSaid] = useState('')
  const list = useRef<HTMLOListElement>(null)

  const move = (at: number, to: number) => {
    const moving = order[at]
    if (!moving || to < 0 || to >= order.length) return
    setOrder(order.toSpliced(at, 1).toSpliced(to, 0, moving))
    setSaid(say('{label} is number {to} of {order} now.', { label: moving.label, to: to + 1, order: order.length }))
    // The button moves away with its row; focus goes along, to the other one where it is at an end.
    requestAnimationFrame(() => {
      const buttons = list.current?.children[to]?.querySelectorAll('button')
      const same = buttons?.[to < at ? 0 : 1]
      ;(same?.disabled ? buttons?.[to < at ? 1 : 0] : same)?.focus()
    })
  }

  return (
    <>
      <input type="hidden" name="order" value={order.map(({ id }) => id).join(' ')} />
      <p className="vh" role="status">
        {said}
      </p>
      <ol ref={list} className={s.list} aria-label={say('In walking order')}>
        {order.map(({ id, label, name }, at) => (
          <li key={id}>
            <span className={s.turn}>{at + 1}</span>
            <PlaceLabel label={label} note={name} />
            <span className={s.buttons}>
              <Button onClick={() => move(at, at - 1)} disabled={at === 0}>
                {sayParts('Up{label}', { label: <span className="vh"> {label}</span> })}
              </Button>
              <Button onClick={() => move(at, at + 1)} disabled={at === order.length - 1}>
                {sayParts('Down{label}', { label: <span className="vh"> {label}</span> })}
              </Button>
            </span>
          </li>
        ))}
      </ol>
    </>
  )
}
