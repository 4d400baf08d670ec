import type { ScannedNoun } from '#lib/label/read-scanned'

type ScanFound = {
  things: { noun: ScannedNoun; id: string; title: string; label: string | null; path: string }[]
  meant: { placeId: string; label: string }[]
}

const patienceMs = 15_000

/** What a scanned text means; null when no answer comes. */
export async function askScanned(text: string): Promise<ScanFound | null> {
  try {
    const response = await fetch(`/api/v1/scan?text=${encodeURIComponent(text.slice(0, 400))}`, {
      cache: 'no-store',
      signal: AbortSignal.timeout(patienceMs),
    })
    return response.ok ? await response.json() : null
  } catch {
    return null
  }
}
