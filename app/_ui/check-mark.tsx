import s from './check-mark.module.css'

/** A box: ticked when it was found whole, crossed when it was not, empty while nobody knows. The words beside it say which. */
export const CheckMark = ({ state }: { state: 'good' | 'bad' | 'unknown' }) => (
  <svg className={s.mark} viewBox="0 0 20 20" width="18" height="18" aria-hidden="true">
    <path d="M2 2h16v16H2z" strokeDasharray={state === 'unknown' ? 'var(--dash)' : undefined} />
    {state === 'good' && <path d="M5.5 10.2l3.2 3.3 6-7" />}
    {state === 'bad' && <path d="M6 6l8 8M14 6l-8 8" />}
  </svg>
)
