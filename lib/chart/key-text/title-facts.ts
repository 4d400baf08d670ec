import type { FoundFact } from './reading'

/** Nor does a title or a name come in a longer one. */
const longestHead = 130

const titleLabel =
  /^\s*(?:the |its |this )?(?:(?:chart|design|pattern|project|sampler|model|picture)(?:'s)? (?:title|name)|(?:title|name)(?: of (?:the |this )?(?:chart|design|pattern|project|piece|sampler|model|picture|work))?|design|chart|pattern|project|model|picture)\s*(?:no\.?\s*)?(?:\d{1,2})?\s*(?:[:=–—]|\s-\s)\s*(.+)$/iu
/** "Design: …" is the title of one sheet and the designer's place on another, whose title stands above. */
export const isDesignLabel = (text: string): boolean => /^\s*(?:the )?design\s*[:=–—]/iu.test(text)
const numberedTitle = /^\s*(?:design|chart|no\.?|number)\s*\d{1,2}\s*[:.–—-]\s*(.+)$/iu
const designerLabel =
  /^\s*(?:the |its |our )?(?:designer|chart designer|design(?:er)?'s name|name of (?:the )?designer|artist|author|maker of the chart|(?:design|chart)(?:ed)? (?:and (?:charted|stitched|drawn) )?by|charted by|drawn by|copyright(?: holder)?)\s*[:=–—-]\s*(?:by\s+)?(.+)$/iu
/** Words before "by", "from" or © that say no more than that a designer comes. */
const makingWords =
  /^(?:a|an|the|its|our|this|new|original|exclusive|counted|cross|stitch|thread|design|designs|designed|chart|charts|charted|pattern|sampler|drawn|created|devised|presented|artwork|work|copyright|and|stitched|worked|for|you|model|picture|needlework|piece|project)$/iu
const presents = /^(\p{Lu}[^.:;,]{2,50}?)\s+(?:(?:proudly )?presents?|brings? you|offers?(?: you)?)\b[:.…]*\s*(.*)$/u
const copyright =
  /^\s*(?:(?:[Cc]hart|[Dd]esign|[Pp]attern|[Ll]eaflet) )?(?:©|\([cC]\)|[Cc]opyright)\s*(?:©\s*)?(?:\d{4}\s*)?(?:by\s+)?([\p{Lu}][^.]{2,50}?)(?:,?\s*\d{4})?\.?\s*$/u
const makingTail = String.raw`(?:,?\s+(?:(?:an?|the) )?(?:new |original |exclusive |counted )?(?:design|chart|pattern|sampler|designed|charted|drawn|picture|model)(?: and (?:designed|charted|stitched|drawn))?)?`
const titleBy = new RegExp(
  `^["“‘']?(\\p{Lu}[^:;]{2,60}?)["”’']?,?${makingTail},?\\s+(?:by|©)\\s+(?:©\\s*)?(?:\\d{4}\\s+)?(\\p{Lu}[^.:;]{2,50})$`,
  'u',
)
const titleFrom =
  /^["“‘']?(\p{Lu}[^:;]{2,60}?)["”’']?,\s+(?:(?:an?|the) )?(?:[a-z]+ )?(?:design|chart|pattern|sampler|picture|model) from\s+(\p{Lu}[^.:;]{2,50})$/u
/** Signs that set a title apart from who made it. */
const titleDash = /^["“‘']?(\p{Lu}[^:;|]{2,60}?)["”’']?\s+[–—\-·•|/~]\s+(\p{Lu}[^.:;|0-9]{2,50})$/u

const isName = (text: string): boolean =>
  /^\p{Lu}/u.test(text) && text.length <= 60 && text.split(' ').length <= 8 && !/\d{3,}/.test(text)
const bare = (text: string): string => text.replace(/^["“‘']+|["”’'.,:;]+$/gu, '').trim()

export function people(text: string, found: FoundFact[]): void {
  if (text.length > longestHead) return
  const note = (fact: 'title' | 'designer', value: string, confidence: number) => {
    const plain = bare(value)
    if (plain.length >= 2 && plain.length <= 80) found.push({ fact, value: plain, confidence, weight: confidence })
  }
  const designer = designerLabel.exec(text)
  if (designer && isName(designer[1] as string)) {
    note('designer', designer[1] as string, 0.95)
    return
  }
  const by = makerSaid(text)
  if (by) {
    note('designer', by.name, by.confidence)
    return
  }
  const shown = presents.exec(text)
  if (shown && isName(shown[1] as string)) {
    note('designer', shown[1] as string, 0.88)
    if (shown[2] && isName(shown[2])) note('title', shown[2], 0.85)
    return
  }
  const title = titleLabel.exec(text) ?? numberedTitle.exec(text)
  if (title && !/^\s*\d+\s*[x×]|\d{2,}\s*(?:x|×|by|sts|stitches|wide)|^\d+$/u.test(title[1] as string)) {
    const said = title[1] as string
    const both = titleBy.exec(said) ?? titleFrom.exec(said)
    if (both) note('designer', both[2] as string, 0.88)
    note('title', both ? (both[1] as string) : said, isDesignLabel(text) ? 0.88 : 0.95)
    return
  }
  const from = titleFrom.exec(text)
  if (from) {
    note('title', from[1] as string, 0.88)
    note('designer', from[2] as string, 0.88)
    return
  }
  const quoted = /^[^“"\d]{0,60}[“"](\p{Lu}[^”"\d]{2,60})[”"]([^\d]*)$/u.exec(text)
  if (quoted && text.split(' ').length >= 5 && /\p{Ll}{2} \p{Ll}{2}/u.test(text.replace(quoted[1] as string, ''))) {
    note('title', quoted[1] as string, 0.78)
    const who = /\b(?:by|from)\s+(\p{Lu}[\p{L}'’-]+(?: (?:of |the |and |& )?\p{Lu}[\p{L}'’-]+){1,3})/u.exec(quoted[2] as string)
    if (who) note('designer', who[1] as string, 0.78)
    return
  }
  const of = /^An? (\p{Lu}[^.:;,0-9]{2,40}?) (?:design|chart|pattern|sampler)\.?$/u.exec(text)
  if (of && !isAboutSheet(of[1] as string)) {
    note('designer', of[1] as string, 0.82)
    return
  }
  const forWhom = /^(?:designed|charted|drawn|made) for .{3,50} by (\p{Lu}[^.:;,0-9]{2,50})$/iu.exec(text)
  if (forWhom && isName(forWhom[1] as string)) {
    note('designer', forWhom[1] as string, 0.88)
    return
  }
  const right = copyright.exec(text)
  if (right) note('designer', right[1] as string, 0.7)
}

/** "A design by …", "Design © …", "from …": a name behind words that only lead to it. */
function makerSaid(text: string): { name: string; confidence: number } | null {
  const led =
    /^(.{0,60}?)(?:\bby\b|\bfrom\b|©|\(c\))\s*:?\s*(?:(?:19|20)\d\d,?\s+)?(?:by\s+)?(\p{Lu}[^:;]{2,50}?)(?:,?\s*(?:19|20)\d\d)?[.:]?$/iu.exec(
      text,
    )
  if (!led || !isName(led[2] as string)) return null
  const words = (led[1] as string).split(/[^\p{L}']+/u).filter((word) => word !== '')
  if (!words.every((word) => makingWords.test(word))) return null
  const isFrom = /\bfrom\b/iu.test(text) && !/\bby\b|©/iu.test(text)
  if (words.length === 0 && /©|\(c\)/iu.test(text)) return null
  if (words.every((word) => /^copyright$/iu.test(word)) && words.length > 0) return null
  return { name: led[2] as string, confidence: isFrom ? 0.82 : 0.93 }
}

/** Words of a line that says what the sheet is, and not what it is called. */
const sheetWords =
  /^(?:key|keys|chart|charts|colour|color|colours|colors|thread|threads|floss|list|materials?|instructions?|contents?|kit|leaflet|booklet|page|no|number|to|for|the|of|and|a|an|your|this|needed|supplies|notes?|symbols?|legend|working|stitching|cross|stitch|counted|design|designs|pattern|requirements|shopping|used|new|series|collection|\d+)$/iu

/** A line of such words alone. */
export const isAboutSheet = (text: string): boolean => {
  const words = text.split(/[^\p{L}\p{N}'’]+/u).filter((word) => word !== '')
  return words.length > 0 && words.every((word) => sheetWords.test(word))
}

/** "Colour key for The Last Lantern", "The Last Lantern – chart and key": the title within. */
export function titleWithin(text: string): string {
  const led =
    /^(?:[\p{L}]+ ){0,3}?(?:key|list|materials|threads|chart|instructions|legend|shopping list|supplies) (?:to|for|of)\s+["“‘']?(?=[\p{Lu}"“‘])/iu.exec(
      text,
    )
  const rest = led ? text.slice(led[0].length) : text
  const tail = /\s*(?:[–—:·•|,]|\s-\s|\()\s*([^–—:·•|,(]{2,40}?)\)?\s*$/u.exec(rest)
  const plain = tail && isAboutSheet(tail[1] as string) ? rest.slice(0, tail.index) : rest
  return plain.replace(/^["“‘']+|["”’']+$/gu, '').trim()
}

/** "Rook Hill in Snow by Corvin Ashdale", "Rook Hill in Snow – Corvin Ashdale": a heading that is both. */
export function titleAndDesigner(text: string): { title: string; designer: string; confidence: number } | null {
  if (text.length > 120) return null
  const by = titleBy.exec(text) ?? titleFrom.exec(text)
  if (by) return { title: bare(by[1] as string), designer: bare(by[2] as string), confidence: 0.88 }
  const comma = /^["“‘']?(\p{Lu}[^:;,(]{2,60}?)["”’']?(?:,\s+|\s+\()(\p{Lu}[\p{L}'’-]+(?: \p{Lu}[\p{L}'’-]+){1,2})\)?$/u.exec(
    text,
  )
  if (comma) return { title: bare(comma[1] as string), designer: comma[2] as string, confidence: 0.75 }
  const dash = titleDash.exec(text)
  return dash ? { title: bare(dash[1] as string), designer: bare(dash[2] as string), confidence: 0.8 } : null
}
