import { say } from '#language/say'
import type { NotionListed } from '#lib/db/notion/queries'
import { advisedStitchesPerInch, adviseNeedle, type NeedleSizes } from '#lib/notion/needle-advice'
import { readSizeNumber } from '#lib/notion/size'
import { Ledger } from '#ui/ledger'
import { Section } from '#ui/section'
import s from './notions.module.css'

/** So fine a cloth is worked over one thread. */
const overOnePerInch = Math.max(...advisedStitchesPerInch)

type NeedleTableProps = { notions: readonly NotionListed[] }

const sizesWords = (sizes: NeedleSizes | null): string =>
  sizes === null
    ? say('not said')
    : sizes.coarsest === sizes.finest
      ? `${sizes.finest}`
      : say('{coarsest} to {finest}', { coarsest: sizes.coarsest, finest: sizes.finest })

/** Which blunt needle is usually taken for how many stitches to the inch, and how many of those sizes there are. */
export function NeedleTable({ notions }: NeedleTableProps) {
  const held = ({ coarsest, finest }: NeedleSizes) =>
    notions
      .filter(({ kind, usedBy }) => kind === 'needle' && usedBy === null)
      .filter(({ size }) => {
        const number = size === null ? null : readSizeNumber(size)
        return number !== null && number >= coarsest && number <= finest
      })
      .reduce((sum, { count }) => sum + count, 0)
  return (
    <Section title={say('Which needle')} id="which" note={say('Common practice for blunt needles; guides differ by one size.')}>
      <Ledger
        caption={say('Needle by stitches to the inch')}
        rows={advisedStitchesPerInch}
        rowKey={(perInch) => perInch}
        isTight
        columns={[
          {
            key: 'perInch',
            head: say('Stitches'),
            cell: (perInch) =>
              say('{perInch} to the inch{perInchCase, select, yes {, over one thread} other {}}', {
                perInch,
                perInchCase: perInch === overOnePerInch,
              }),
            phone: 'lead',
          },
          {
            key: 'size',
            head: say('Size of needle'),
            cell: (perInch) => (
              <span className="nb">
                {say('size {sizes}', { sizes: sizesWords(adviseNeedle(perInch, { isBackstitch: false })) })}
              </span>
            ),
            phone: 'side',
          },
          {
            key: 'backstitch',
            head: say('For backstitch'),
            cell: (perInch) => sizesWords(adviseNeedle(perInch, { isBackstitch: true })),
            phone: 'labelled',
          },
          {
            key: 'held',
            head: say('Put away of that size'),
            cell: (perInch) => {
              const sizes = adviseNeedle(perInch, { isBackstitch: false })
              return sizes && held(sizes)
            },
            isNumeric: true,
            isAtEnd: true,
            phone: 'labelled',
          },
        ]}
      />
      <p className={s.note}>
        {say('A larger number is a finer needle. A needle for beads has to pass the bead: try it through one before you begin.')}
      </p>
    </Section>
  )
}
