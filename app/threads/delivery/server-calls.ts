import { say } from '#language/say'
import { labToHex } from '#lib/colour/convert'
import type { Lab } from '#lib/colour/lab'
import type { Answer, DeskThread, Entry } from './queue'

const api = '/api/v1'
const patienceMs = 15_000

type Heard = { kind: 'lost' } | { kind: 'heard'; ok: boolean; body: unknown }

/** Ask the server; a fault on its side counts as no answer, for it may be over the next time. */
async function ask(path: string, body?: unknown): Promise<Heard> {
  try {
    const response = await fetch(`${api}${path}`, {
      ...(body !== undefined && {
        method: 'POST',
        headers: { 'content-type': 'application/json' },
        body: JSON.stringify(body),
      }),
      cache: 'no-store',
      signal: AbortSignal.timeout(patienceMs),
    })
    if (response.status >= 500) return { kind: 'lost' }
    return { kind: 'heard', ok: response.ok, body: await response.json() }
  } catch {
    return { kind: 'lost' }
  }
}

const detailOf = (body: unknown): string =>
  typeof body === 'object' && body !== null && 'detail' in body ? String(body.detail) : say('It was refused.')

function toAnswer(heard: Heard): Answer {
  if (heard.kind === 'lost') return heard
  return heard.ok ? { kind: 'done' } : { kind: 'refused', said: detailOf(heard.body) }
}

export const sendEntry = async (entry: Entry): Promise<Answer> =>
  toAnswer(
    await ask('/deliveries', {
      entryId: entry.entryId,
      threadId: entry.threadId,
      ownerId: entry.ownerId,
      wholePutUps: entry.wholePutUps,
      lot: entry.lot,
      putUpWord: entry.putUpWord,
      putUpStrandTenths: entry.putUpStrandTenths,
      homePlaceId: entry.homePlaceId,
      homePlaceLabel: entry.homePlaceId === null && entry.homeLabel !== '' ? entry.homeLabel : null,
      orderId: entry.orderId,
    }),
  )

export const sendUndo = async (entry: Entry): Promise<Answer> =>
  toAnswer(await ask(`/deliveries/${entry.entryId}/undo`, { orderId: entry.orderId }))

export const sendBarcode = async (code: string, threadId: string): Promise<Answer> =>
  toAnswer(await ask('/barcodes', { code, threadId }))

export type Found = { how: 'barcode' | 'code' | 'name' | 'none'; isBarcode: boolean; threads: DeskThread[] }

type ApiThread = Omit<DeskThread, 'threadId' | 'title' | 'hex'> & {
  thread: { threadId: string; maker: string; line: string; code: string; name: string | null }
  lab: Lab | null
}

/** The threads a text means; null when no answer comes. */
export async function lookUp(text: string, ownerId: string, lineId: string | null): Promise<Found | null> {
  const query = new URLSearchParams({ text, owner: ownerId, ...(lineId !== null && { line: lineId }) })
  const heard = await ask(`/deliveries/look-up?${query}`)
  if (heard.kind === 'lost' || !heard.ok) return null
  const { threads, ...rest } = heard.body as Omit<Found, 'threads'> & { threads: ApiThread[] }
  return {
    ...rest,
    threads: threads.map(({ thread, lab, ...found }) => ({
      ...found,
      threadId: thread.threadId,
      title: [thread.maker, thread.line, thread.code, thread.name].filter(Boolean).join(' '),
      hex: lab && labToHex(lab),
    })),
  }
}
