const free = -1
const gone = -2

/** FNV-1a over UTF-16 units (Fowler, Noll and Vo; offset and prime are the published ones), mixed once more: its low bits are used. */
function hashOf(text: string): number {
  let hash = 0x811c9dc5
  for (let at = 0; at < text.length; at++) hash = Math.imul(hash ^ text.charCodeAt(at), 0x01000193)
  return hash ^ (hash >>> 15)
}

/**
 * Row numbers by a text that the row itself has, so that only the number is kept: 4 bytes a place, and two to four places an entry,
 * where a Map takes 36 bytes. Places are tried one after another from the one the text's hash says.
 */
export class RowsByText {
  readonly #textAt: (row: number) => string
  #places: Int32Array
  #usedPlaces = 0

  constructor(textAt: (row: number) => string, expected: number) {
    this.#textAt = textAt
    this.#places = new Int32Array(2 ** Math.max(4, 33 - Math.clz32(expected))).fill(free)
  }

  /** @returns −1 when there is none. */
  get(text: string): number {
    return this.#places[this.#placeOf(text)] as number
  }

  /** @param row  One whose text it is. */
  set(text: string, row: number): void {
    const place = this.#placeOf(text)
    if (this.#places[place] === free) this.#usedPlaces++
    this.#places[place] = row
    if (this.#usedPlaces * 2 > this.#places.length) this.#grow()
  }

  delete(text: string): void {
    const place = this.#placeOf(text)
    if (this.#places[place] !== free) this.#places[place] = gone
  }

  /** Where the text is, else the free place it would have. */
  #placeOf(text: string): number {
    const last = this.#places.length - 1
    for (let place = hashOf(text) & last; ; place = (place + 1) & last) {
      const row = this.#places[place] as number
      if (row === free || (row !== gone && this.#textAt(row) === text)) return place
    }
  }

  #grow(): void {
    const rows = this.#places.filter((row) => row >= 0)
    this.#places = new Int32Array(this.#places.length * 2).fill(free)
    this.#usedPlaces = 0
    for (const row of rows) this.set(this.#textAt(row), row)
  }
}
