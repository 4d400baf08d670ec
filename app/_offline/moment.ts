/** "14:05", with its day where that is not today. */
export function momentOf(atMs: number, nowMs: number, locale: string): string {
  const at = new Date(atMs)
  const isToday = at.toDateString() === new Date(nowMs).toDateString()
  return new Intl.DateTimeFormat(locale, {
    ...(isToday ? {} : { day: 'numeric', month: 'long' }),
    ...{ hour: '2-digit', minute: '2-digit' },
  }).format(at)
}
