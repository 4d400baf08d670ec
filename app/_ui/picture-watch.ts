import { accepts, whichField } from './which-field'

type Watched = { input: HTMLInputElement; onRefused: (name: string) => void }

const watched = new Set<Watched>()

/**
 * From now on pictures pasted on the page, or dropped on `around`, come into the field as if they had been chosen: its `change` tells of
 * them. One listener serves every field of a page.
 *
 * @param onRefused  of a file that the field does not take, by its name
 * @returns          ends it
 */
export function watchPictures(input: HTMLInputElement, around: HTMLElement, onRefused: (name: string) => void): () => void {
  const own: Watched = { input, onRefused }
  if (watched.size === 0) document.addEventListener('paste', onPaste)
  watched.add(own)
  const onDragOver = (event: DragEvent) => {
    if (!event.dataTransfer?.types.includes('Files')) return
    event.preventDefault()
    around.dataset.over = 'true'
  }
  const onLeave = (event: DragEvent) => {
    if (!(event.relatedTarget instanceof Node && around.contains(event.relatedTarget))) delete around.dataset.over
  }
  const onDrop = (event: DragEvent) => {
    delete around.dataset.over
    const files = [...(event.dataTransfer?.files ?? [])]
    if (files.length === 0) return
    event.preventDefault()
    put(own, files)
  }
  around.addEventListener('dragover', onDragOver)
  around.addEventListener('dragleave', onLeave)
  around.addEventListener('drop', onDrop)
  return () => {
    watched.delete(own)
    if (watched.size === 0) document.removeEventListener('paste', onPaste)
    around.removeEventListener('dragover', onDragOver)
    around.removeEventListener('dragleave', onLeave)
    around.removeEventListener('drop', onDrop)
  }
}

function onPaste(event: ClipboardEvent) {
  const data = event.clipboardData
  const pictures = [...(data?.files ?? [])].filter(({ type }) => type.startsWith('image/'))
  if (!data || pictures.length === 0) return
  // Words copied from a page bring a picture of themselves: into a field of text they go as words.
  const isIntoText = event.target instanceof HTMLElement && event.target.matches('input:not([type=file]), textarea')
  if (isIntoText && data.types.includes('text/plain')) return
  const dialog = document.querySelector('dialog[open]')
  const open = [...watched].filter(({ input }) => !input.disabled && (dialog === null || dialog.contains(input)))
  const seen = open.filter(({ input }) => isSeen(input))
  // A fold that is shut is looked into only where no field is in the open.
  const fields = seen.length > 0 ? seen : open
  const middle = window.innerHeight / 2
  const at = whichField(
    fields.map(({ input }) => {
      const { top, bottom } = seenAround(input).getBoundingClientRect()
      return { hasCaret: (input.form ?? input).contains(document.activeElement), distance: (top + bottom) / 2 - middle }
    }),
  )
  const field = fields[at]
  if (!field) return
  event.preventDefault()
  unfold(field.input)
  put(field, pictures)
}

const isSeen = (element: Element): boolean => element.getClientRects().length > 0

/** The element itself, or the nearest around it that is in the open. */
const seenAround = (element: Element): Element =>
  isSeen(element) || !element.parentElement ? element : seenAround(element.parentElement)

/** Open what it is folded away in, from the outermost in, by the buttons that do so. */
function unfold(input: Element) {
  const folds: Element[] = []
  for (let around = input.parentElement; around; around = around.parentElement) folds.unshift(around)
  for (const fold of folds) {
    if (fold instanceof HTMLDetailsElement) fold.open = true
    if (fold.id === '') continue
    document.querySelector<HTMLElement>(`[aria-controls="${CSS.escape(fold.id)}"][aria-expanded="false"]`)?.click()
  }
}

/** Where a field holds one file, the new one takes its place; where it holds several, they come beside those there. */
function put({ input, onRefused }: Watched, files: readonly File[]) {
  const refused = files.find((file) => !accepts(input.accept, file))
  if (refused) return onRefused(refused.name)
  const held = new DataTransfer()
  for (const file of input.multiple ? [...(input.files ?? []), ...files] : files.slice(0, 1)) held.items.add(file)
  input.files = held.files
  input.dispatchEvent(new Event('change', { bubbles: true }))
  // Once what it was folded away in is drawn open.
  requestAnimationFrame(() => input.scrollIntoView({ block: 'nearest' }))
}
