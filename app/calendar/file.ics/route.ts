import { calendarDay } from '#lib/quantity/day'
import { getViewer } from '#viewer/viewer'
import { calendarText } from '../../_planning/calendar-text'

/** What stands in By when, as a file for any calendar. */
export async function GET(): Promise<Response> {
  const { ownerIds, ownerName } = await getViewer()
  return new Response(await calendarText(ownerIds, ownerName, calendarDay(new Date())), {
    headers: {
      'x-content-type-options': 'nosniff',
      'cache-control': 'private, no-store',
      'content-type': 'text/calendar; charset=utf-8',
      'content-disposition': 'attachment; filename="by-when.ics"',
    },
  })
}
