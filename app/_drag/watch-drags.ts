import { draggable, dropTargetForElements, monitorForElements } from '@atlaskit/pragmatic-drag-and-drop/element/adapter'
import type { Dragged } from '#lib/db/place/drop-thing'
import { draggedOf, placeIdOf } from './dragged'

type Watch = {
  onStart: () => void
  /** With the place it was let go on, or null. */
  onEnd: (dragged: Dragged, title: string, placeId: string | null) => void
}

const mark = '3px solid var(--ink)'

/**
 * Make rows that lead to a chart, a design or a thread draggable, and fronts of places take them, now and whenever the page draws others.
 *
 * @param root  where rows and fronts are looked for
 * @returns     ends it
 */
export function watchDrags(root: HTMLElement, { onStart, onEnd }: Watch): () => void {
  const held = new Map<Element, () => void>()

  const scan = () => {
    for (const [element, end] of held)
      if (!element.isConnected) {
        end()
        held.delete(element)
      }
    for (const row of root.querySelectorAll<HTMLElement>('[role=row]')) {
      if (held.has(row)) continue
      const links = [...row.querySelectorAll<HTMLAnchorElement>('a[href]')]
      const lead = links.find((link) => draggedOf(link.getAttribute('href') ?? '') !== null)
      const dragged = lead && draggedOf(lead.getAttribute('href') ?? '')
      if (!lead || !dragged) continue
      // A link or a picture is dragged by itself otherwise, as an address.
      for (const part of row.querySelectorAll<HTMLElement>('a, img')) part.draggable = false
      // biome-ignore lint/performance/useDomNodeTextContent: its first line as it is seen
      const title = lead.innerText.split('\n')[0]?.trim() ?? ''
      held.set(row, draggable({ element: row, getInitialData: () => ({ dragged, title }) }))
    }
    for (const front of root.querySelectorAll<HTMLElement>('a[data-size][href^="/places/"], [data-drop-place]')) {
      if (held.has(front)) continue
      const placeId = front.dataset.dropPlace ?? placeIdOf(front.getAttribute('href') ?? '')
      if (placeId === null) continue
      front.draggable = false
      const clear = () => {
        front.style.outline = ''
      }
      held.set(
        front,
        dropTargetForElements({
          element: front,
          getData: () => ({ placeId }),
          onDragEnter: () => {
            front.style.outline = mark
          },
          onDragLeave: clear,
          onDrop: clear,
        }),
      )
    }
  }

  const endMonitor = monitorForElements({
    onDragStart: onStart,
    onDrop: ({ source, location }) => {
      const placeId = location.current.dropTargets[0]?.data.placeId
      onEnd(source.data.dragged as Dragged, String(source.data.title), typeof placeId === 'string' ? placeId : null)
    },
  })
  scan()
  const observer = new MutationObserver(scan)
  observer.observe(root, { childList: true, subtree: true })
  return () => {
    observer.disconnect()
    endMonitor()
    for (const end of held.values()) end()
    held.clear()
  }
}
