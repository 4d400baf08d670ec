import type { ComponentProps, ReactNode } from 'react'
import s from './button.module.css'
import { Link } from './link'

/** `first` is the one thing to do here; `quiet` looks like a link. */
export type ButtonKind = 'first' | 'plain' | 'quiet'

type ButtonProps = Omit<ComponentProps<'button'>, 'className'> & { kind?: ButtonKind }

export function Button({ kind = 'plain', type = 'button', ...rest }: ButtonProps) {
  return <button {...rest} type={type} className={s.button} data-kind={kind} />
}

type LinkButtonProps = Omit<ComponentProps<typeof Link>, 'className'> & { kind?: ButtonKind }

export function LinkButton({ kind = 'plain', ...rest }: LinkButtonProps) {
  return <Link {...rest} className={s.button} data-kind={kind} />
}

export function ButtonRow({ children }: { children: ReactNode }) {
  return <div className={s.row}>{children}</div>
}
