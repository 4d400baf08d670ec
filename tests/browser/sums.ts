import type { Page } from 'playwright-core'

/**
 * What sums that unfold on a page end in, and nobody says beside them. Slips that stand together may lead from one to the next: at least one
 * of them ends in a figure that is shown outside, and every other in one that is shown there or in another of them. Nought need not be said.
 */
export const findUnsaidSums = (page: Page): Promise<string[]> =>
  page.evaluate(() => {
    /** What an element says, with a space where one piece of text ends: figures of two cells are not one. */
    const plain = (element: Element | null | undefined) => {
      const said: string[] = []
      if (element) {
        const walker = document.createTreeWalker(element, NodeFilter.SHOW_TEXT)
        while (walker.nextNode()) said.push(walker.currentNode.nodeValue ?? '')
      }
      return said.join(' ').replace(/\s+/g, ' ').trim()
    }
    /** A figure stands in a text whole, not as a part of a longer one. */
    const says = (text: string, figure: string) => {
      for (let at = text.indexOf(figure); at >= 0; at = text.indexOf(figure, at + 1)) {
        const isTail = /\d/.test(figure[0] ?? '') && /\d[.,]?$/.test(text.slice(0, at))
        const isHead = /\d$/.test(figure) && /^[.,]?\d/.test(text.slice(at + figure.length))
        if (!isTail && !isHead) return true
      }
      return false
    }
    /** A width or a height stands in a size, whose unit comes last. */
    const saysSide = (text: string, figure: string) => says(text, figure) || says(text, figure.replace(/ (?:in|cm|m|yd)$/, ' ×'))
    const slipsOf = (element: Element) => [...element.querySelectorAll('table[data-sum]')]
    // One that stands there outright is itself what shows its figure.
    const folded = slipsOf(document.body).filter((slip) => slip.closest('[data-unfolded]'))
    const groups = new Set(folded.map((slip) => slip.closest('[data-sums]') ?? (slip.parentElement as Element)))
    return [...groups].flatMap((group) => {
      const slips = slipsOf(group)
      const row = group.closest('tr[data-unfolded]')?.previousElementSibling
      const around = row ?? group.closest('section') ?? group.closest('main') ?? document.body
      const copy = around.cloneNode(true) as Element
      const all = slipsOf(around)
      for (const [at, slip] of slipsOf(copy).entries()) if (slips.includes(all[at] as Element)) slip.remove()
      const shown = `${plain(copy)} ${row ? '' : plain(document.querySelector('main')?.firstElementChild)}`
      const ends = slips.flatMap((slip) => {
        const end = slip.querySelector('tr[data-kind="end"]')
        return end && /[1-9]/.test(plain(end.lastElementChild))
          ? [{ slip, figure: plain(end.lastElementChild).replace(/^[−+] /, '') }]
          : []
      })
      const unsaid = ends.filter(({ figure }) => !saysSide(shown, figure))
      const isUnsaidBeside = ({ slip, figure }: (typeof ends)[number]) =>
        unsaid.length === ends.length || !slips.some((other) => other !== slip && says(plain(other), figure))
      return unsaid
        .filter(isUnsaidBeside)
        .map(({ slip, figure }) => `${location.pathname}: “${plain(slip.querySelector('caption'))}” ends in ${figure}`)
    })
  })
