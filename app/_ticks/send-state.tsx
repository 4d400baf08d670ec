import { say } from '#language/say'
import s from './ticked-list.module.css'

/** Whether what was ticked has been sent. */
export function SendState({ waiting, isConnected }: { waiting: number; isConnected: boolean }) {
  const said =
    waiting > 0
      ? say('{waiting} {waiting, plural, one {tick} other {ticks}} waiting to be sent', { waiting })
      : isConnected
        ? say('All ticks are sent')
        : say('No connection')
  return (
    <p className={s.sent} role="status" data-waiting={waiting > 0 || !isConnected || undefined}>
      <svg viewBox="0 0 16 16" width="16" height="16" aria-hidden="true">
        {waiting > 0 && <path d="M8 14V3M3.5 7 8 2.5 12.5 7" />}
        {waiting === 0 && isConnected && <path d="m2 8.5 4 4 8-9" />}
        {waiting === 0 && !isConnected && <path d="m3 3 10 10M13 3 3 13" />}
      </svg>
      <span>
        {said}
        {!isConnected && waiting > 0 && say('; no connection, they are kept on this device')}
        {!isConnected && waiting === 0 && say(': what you tick is kept on this device')}
      </span>
    </p>
  )
}
