'use client'

import { useSyncExternalStore } from 'react'
import { nothingChosen, readSelection, type Selection, selectionText } from '#lib/listing/selection'

/** What is chosen of each list, by the list's key: as long as this window is open, whatever page of the list is on show. */
const kept = new Map<string, Selection>()
const listeners = new Set<() => void>()

const storeKey = (list: string) => `larder-chosen:${list}`

export function chosenIn(list: string): Selection {
  let selection = kept.get(list)
  if (!selection) {
    let text: string | null = null
    try {
      text = sessionStorage.getItem(storeKey(list))
    } catch {
      // A browser that keeps nothing: what is chosen lasts as long as the page.
    }
    selection = (text === null ? null : readSelection(text)) ?? nothingChosen
    kept.set(list, selection)
  }
  return selection
}

export function choose(list: string, change: (selection: Selection) => Selection): void {
  const selection = change(chosenIn(list))
  kept.set(list, selection)
  try {
    sessionStorage.setItem(storeKey(list), selectionText(selection))
  } catch {
    // As above.
  }
  for (const listener of listeners) listener()
}

function subscribe(listener: () => void): () => void {
  listeners.add(listener)
  return () => listeners.delete(listener)
}

/** What is chosen of a list. On the server, and while its page is taken over by scripts, nothing is. */
export const useChosen = (list: string): Selection =>
  useSyncExternalStore(
    subscribe,
    () => chosenIn(list),
    () => nothingChosen,
  )
