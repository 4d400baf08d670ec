import type { DesignCoverage } from '#lib/db/coverage/design-coverage'
import { TrayWord } from '#trade/tray'
import { Ledger } from '#ui/ledger'
import { Link } from '#ui/link'
import { Section } from '#ui/section'
import { counted } from '#words/amounts'
import { listStateWords } from '#words/cover'

type ListsSectionProps = { coverage: DesignCoverage; designId: string; shownListId: string; hrefOf: (listId: string) => string }

/** The thread lists of a design side by side, the nearest to stitching first. */
export function ListsSection({ coverage, designId, shownListId, hrefOf }: ListsSectionProps) {
  const nearest = coverage.comparison[0]
  return (
    <Section
      title={`${coverage.comparison.length === 2 ? 'Two' : coverage.comparison.length} thread lists compared`}
      id="lists"
      note={nearest && `${nearest.name} is nearest.`}
    >
      <Ledger
        caption="Thread lists, nearest first"
        rows={coverage.comparison}
        rowKey={({ listId }) => listId}
        columns={[
          {
            key: 'name',
            head: 'List',
            phone: 'lead',
            cell: ({ listId, name }) =>
              listId === shownListId ? <b>{name}, shown above</b> : <Link href={hrefOf(listId)}>{name}</Link>,
          },
          {
            key: 'state',
            head: 'Cover',
            phone: 'line',
            cell: ({ cover }) => {
              const { state, word, note } = listStateWords(cover)
              return <TrayWord state={state} word={word} note={note} />
            },
          },
          { key: 'threads', head: 'Threads', isNumeric: true, phone: 'side', cell: ({ cover }) => cover.threadCount },
          {
            key: 'merged',
            head: 'Colours kept apart',
            phone: 'labelled',
            cell: ({ symbolCount, colourCount, mergedCount }) =>
              symbolCount === 0
                ? 'no symbols in this list'
                : mergedCount > 0
                  ? `${counted(symbolCount, 'symbol')} in ${counted(colourCount, 'colour')}: ${mergedCount} share another's thread`
                  : `all ${symbolCount} symbols`,
          },
          {
            key: 'edit',
            head: 'Change',
            headIsHidden: true,
            isAtEnd: true,
            isOffPaper: true,
            phone: 'side',
            cell: ({ listId, name }) => (
              <Link href={`/designs/${designId}/lists/${listId}`} aria-label={`Change ${name}`}>
                Change
              </Link>
            ),
          },
        ]}
      />
    </Section>
  )
}
