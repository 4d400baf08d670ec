import { say } from '#language/say'
import { sayParts } from '#language/say-parts'
import type { DesignCoverage } from '#lib/db/coverage/design-coverage'
import { TrayWord } from '#trade/tray'
import { Ledger } from '#ui/ledger'
import { Link } from '#ui/link'
import { Section } from '#ui/section'
import { listStateWords } from '#words/cover'

type ListsSectionProps = { coverage: DesignCoverage; designId: string; shownListId: string; hrefOf: (listId: string) => string }

/** The thread lists of a design side by side, the nearest to stitching first. */
export function ListsSection({ coverage, designId, shownListId, hrefOf }: ListsSectionProps) {
  const nearest = coverage.comparison[0]
  return (
    <Section
      title={say('{rest} thread lists compared', {
        rest: coverage.comparison.length === 2 ? say('Two') : coverage.comparison.length,
      })}
      id="lists"
      note={nearest && say('{name} is nearest.', { name: nearest.name })}
    >
      <Ledger
        caption={say('Thread lists, nearest first')}
        rows={coverage.comparison}
        rowKey={({ listId }) => listId}
        columns={[
          {
            key: 'name',
            head: say('List'),
            phone: 'lead',
            cell: ({ listId, name }) =>
              listId === shownListId ? (
                <b>{sayParts('{name}, shown above', { name })}</b>
              ) : (
                <Link href={hrefOf(listId)}>{name}</Link>
              ),
          },
          {
            key: 'state',
            head: say('Cover'),
            phone: 'line',
            cell: ({ cover }) => {
              const { state, word, note } = listStateWords(cover)
              return <TrayWord state={state} word={word} note={note} />
            },
          },
          { key: 'threads', head: say('Threads'), isNumeric: true, phone: 'side', cell: ({ cover }) => cover.threadCount },
          {
            key: 'merged',
            head: say('Colours kept apart'),
            phone: 'labelled',
            cell: ({ symbolCount, colourCount, mergedCount }) =>
              symbolCount === 0
                ? say('no symbols in this list')
                : mergedCount > 0
                  ? say(
                      "{symbolCount, plural, one {# symbol} other {# symbols}} in {colourCount, plural, one {# colour} other {# colours}}: {mergedCount} share another's thread",
                      { symbolCount, colourCount, mergedCount },
                    )
                  : say('all {symbolCount} symbols', { symbolCount }),
          },
          {
            key: 'edit',
            head: say('Change'),
            headIsHidden: true,
            isAtEnd: true,
            isOffPaper: true,
            phone: 'side',
            cell: ({ listId, name }) => (
              <Link href={`/designs/${designId}/lists/${listId}`} aria-label={say('Change {name}', { name })}>
                {say('Change')}
              </Link>
            ),
          },
        ]}
      />
    </Section>
  )
}
