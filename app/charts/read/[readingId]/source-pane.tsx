'use client'

import { useEffect, useRef, useState } from 'react'
import { say } from '#language/say'
import { sayParts } from '#language/say-parts'
import { linesOf } from '#lib/chart/reading-fields'
import type { SourceShown } from '../../../_reading/review-shown'
import { StateMark } from '../state-mark'
import { useDesk } from './desk-context'
import s from './source-pane.module.css'

type SourcePaneProps = { source: SourceShown; active: readonly number[] }

/** What it was read from: its lines as text, or its pages with a box round each line. What the person is at is marked. */
export function SourcePane({ source, active }: SourcePaneProps) {
  const hasPages = source.pages.length > 0
  const [isPage, setIsPage] = useState(hasPages)
  return (
    <section className={s.source} data-text={hasPages ? undefined : ''} aria-label={say('What it was read from')}>
      {hasPages && (
        <div className={s.sourceHead}>
          <button type="button" aria-pressed={isPage} onClick={() => setIsPage(true)}>
            {source.pages.length === 1 ? say('The page') : say('The pages')}
          </button>
          <button type="button" aria-pressed={!isPage} onClick={() => setIsPage(false)}>
            {say('Its lines')}
          </button>
        </div>
      )}
      {isPage ? <PageView source={source} active={active} /> : <LinesView source={source} active={active} />}
    </section>
  )
}

/** Lines that stand in the key, and those nobody could read. */
function useRoles() {
  const { shown } = useDesk()
  const dismissed = new Set(shown.dismissed)
  return {
    inKey: new Set(linesOf(shown.reading).flatMap(({ line }) => line.from)),
    unread: new Set(shown.reading.unread.filter((line) => !dismissed.has(line))),
  }
}

function LinesView({ source, active }: SourcePaneProps) {
  const { inKey, unread } = useRoles()
  const box = useRef<HTMLOListElement>(null)
  useScrollTo(box, active[0])
  return (
    // biome-ignore lint/a11y/noNoninteractiveTabindex: a part that scrolls is reached by the keyboard
    <ol className={s.sourceLines} ref={box} tabIndex={0} aria-label={say('The lines it was read from')}>
      {source.lines.map(({ text }, line) => (
        <li
          // biome-ignore lint/suspicious/noArrayIndexKey: the lines never change
          key={line}
          data-line={line}
          data-active={active.includes(line) || undefined}
          data-key={inKey.has(line) || undefined}
        >
          <span>{text || '\u00a0'}</span>
          {unread.has(line) && text.trim() !== '' && <StateMark mark="refused" word={say('not read')} />}
        </li>
      ))}
    </ol>
  )
}

function PageView({ source, active }: SourcePaneProps) {
  const { shown } = useDesk()
  const { inKey, unread } = useRoles()
  const first = active[0] === undefined ? undefined : source.lines[active[0]]?.page
  const [page, setPage] = useState(0)
  const [seen, setSeen] = useState(first)
  if (first !== seen) {
    setSeen(first)
    if (first !== undefined) setPage(first)
  }
  const box = useRef<HTMLDivElement>(null)
  useScrollTo(box, active[0])
  const drawn = source.pages[page]
  if (!drawn) return null
  const { widthPt, heightPt, words } = drawn
  const hasPicture = page === 0 && source.hasCover
  return (
    <>
      {source.pages.length > 1 && (
        <div className={s.sourceHead}>
          <button type="button" disabled={page === 0} onClick={() => setPage(page - 1)}>
            {say('Page before')}
          </button>
          <span>{sayParts('Page {page} of {pages}', { page: page + 1, pages: source.pages.length })}</span>
          <button type="button" disabled={page === source.pages.length - 1} onClick={() => setPage(page + 1)}>
            {say('Next page')}
          </button>
        </div>
      )}
      {/* biome-ignore lint/a11y/noNoninteractiveTabindex: a part that scrolls is reached by the keyboard */}
      <section className={s.page} ref={box} tabIndex={0} aria-label={say('Page {page}, as it was read', { page: page + 1 })}>
        <svg viewBox={`0 0 ${widthPt} ${heightPt}`} role="img" aria-label={say('Page {page}', { page: page + 1 })}>
          {hasPicture ? (
            <image href={`/charts/read/${shown.id}/page-picture`} width={widthPt} height={heightPt} preserveAspectRatio="none" />
          ) : (
            words.map(({ text, box: at }, index) => (
              <text
                // biome-ignore lint/suspicious/noArrayIndexKey: the words never change
                key={index}
                x={at.left}
                y={at.bottom - (at.bottom - at.top) * 0.2}
                fontSize={Math.max(4, at.bottom - at.top)}
                textLength={at.right - at.left > 2 ? at.right - at.left : undefined}
                lengthAdjust="spacingAndGlyphs"
              >
                {text}
              </text>
            ))
          )}
          {source.lines.map(
            (line, index) =>
              line.box &&
              line.page === page && (
                <rect
                  // biome-ignore lint/suspicious/noArrayIndexKey: the lines never change
                  key={index}
                  data-line={index}
                  className={s.box}
                  data-active={active.includes(index) || undefined}
                  data-key={inKey.has(index) || undefined}
                  data-unread={unread.has(index) || undefined}
                  x={line.box.left - 2}
                  y={line.box.top - 2}
                  width={line.box.right - line.box.left + 4}
                  height={line.box.bottom - line.box.top + 4}
                />
              ),
          )}
        </svg>
      </section>
      <p className={s.legend}>{say('Thin: read into a line. Dashed: not read. Thick: where you are.')}</p>
    </>
  )
}

/** Keeps the line the person is at in sight, within its own part of the screen. */
function useScrollTo(box: React.RefObject<HTMLElement | null>, line: number | undefined) {
  useEffect(() => {
    const target = line === undefined ? null : box.current?.querySelector(`[data-line="${line}"]`)
    if (!target || !box.current) return
    const [inner, outer] = [target.getBoundingClientRect(), box.current.getBoundingClientRect()]
    if (inner.top >= outer.top && inner.bottom <= outer.bottom) return
    box.current.scrollTop += inner.top - outer.top - outer.height / 3
  }, [box, line])
}
