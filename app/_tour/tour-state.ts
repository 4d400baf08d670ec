import { errands } from './errands'

/** The cookie that keeps how far somebody is with the errands, on this device. Without it nobody asked for them. */
export const tourCookie = 'larder-tour'

const yearSeconds = 365 * 24 * 3600

export type TourState = {
  /** Which errand, from 0. */
  errand: number
  /** Which of its steps is to be done, from 0; as many as there are steps: it is done. */
  step: number
  /** Finished pieces on record when the step that waits for one more began; null before. */
  finishedBefore: number | null
  /** Left for now: kept, and not shown. */
  isLeft: boolean
}

export const tourBegun: TourState = { errand: 0, step: 0, finishedBefore: null, isLeft: false }

/** What the cookie says; null where it says nothing that can be gone on with. */
export function readTour(cookie: string | undefined): TourState | null {
  const [, key, step, before, standing] = /^([a-z]+)\.(\d)\.(\d{0,7})\.(on|left)$/.exec(cookie ?? '') ?? []
  const errand = errands().findIndex((known) => known.key === key)
  const steps = errands()[errand]?.steps.length ?? 0
  if (errand < 0 || Number(step) > steps) return null
  return { errand, step: Number(step), finishedBefore: before ? Number(before) : null, isLeft: standing === 'left' }
}

/** As the cookie keeps it. */
export const tourValue = ({ errand, step, finishedBefore, isLeft }: TourState): string =>
  `${errands()[errand]?.key}.${step}.${finishedBefore ?? ''}.${isLeft ? 'left' : 'on'}`

/** The tour's value among a page's cookies. */
export const findTourCookie = (cookies: string): string | undefined =>
  cookies
    .split('; ')
    .find((one) => one.startsWith(`${tourCookie}=`))
    ?.slice(tourCookie.length + 1)

/** What a page writes into `document.cookie`. */
export const tourCookieLine = (state: TourState | null): string =>
  `${tourCookie}=${state ? tourValue(state) : ''}; path=/; max-age=${state ? yearSeconds : 0}; samesite=lax`

export const tourCookieOptions = { path: '/', maxAge: yearSeconds, sameSite: 'lax' } as const
