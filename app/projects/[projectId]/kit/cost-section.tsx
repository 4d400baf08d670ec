import type { Kit } from '#lib/db/kit/read-kit'
import { formatPrice } from '#lib/quantity/money'
import { NumberField } from '#ui/field'
import { Form } from '#ui/form'
import { Ledger } from '#ui/ledger'
import { Section } from '#ui/section'
import { Sum } from '#ui/sum'
import { listed } from '#words/amounts'
import { priceWords } from '#words/price'
import { setKitPriceAction } from './actions'
import s from './kit.module.css'
import type { LineNames } from './kit-words'

/** What goes into one kit in money, what is left over on whole put-ups, and what remains of the price. */
export function CostSection({ kit, nameOf, isOpen }: { kit: Kit; nameOf: LineNames; isOpen: boolean }) {
  const { cost, project, reckoning, settings } = kit
  const { currency } = settings
  const money = (minor: number) => priceWords(minor, currency)
  const names = cost.unknown.map((key) => nameOf(key).name)
  const atLeast = names.length > 0 ? 'at least ' : ''
  return (
    <Section title="What a kit costs" id="cost" note={`Thread by the length cut; ${atLeast}${money(cost.perKitMinor)} a kit`}>
      <div className={s.sums}>
        <Ledger
          caption="What goes into one kit, in money"
          rows={cost.lines}
          rowKey={({ key }) => key}
          columns={[
            { key: 'line', head: 'What', phone: 'lead', cell: ({ key }) => nameOf(key).name },
            {
              key: 'one',
              head: 'In one kit',
              isNumeric: true,
              phone: 'side',
              cell: ({ perKitMinor }) =>
                perKitMinor === null ? <span className="quiet">price unknown</span> : money(perKitMinor),
            },
            {
              key: 'all',
              head: `In all ${reckoning.copies}`,
              isNumeric: true,
              phone: 'labelled',
              cell: ({ forAllMinor }) => (forAllMinor === null ? <span className="quiet">unknown</span> : money(forAllMinor)),
            },
            {
              key: 'left',
              head: 'Left over',
              isNumeric: true,
              phone: 'labelled',
              cell: ({ leftOverMinor }) => (leftOverMinor === 0 ? <span className="quiet">none</span> : money(leftOverMinor)),
            },
          ]}
        />
        <Sum
          title="One kit"
          rows={[
            ...(cost.priceMinor === null ? [] : [{ label: 'Price of a kit', figure: money(cost.priceMinor) }]),
            { label: 'Goes into it', figure: `${atLeast}${money(cost.perKitMinor)}`, kind: 'rule' as const },
            ...(cost.marginMinor === null
              ? []
              : [
                  {
                    label: names.length > 0 ? 'Remains, at most' : 'Remains',
                    figure: `${money(cost.marginMinor)}${cost.marginPerMille === null ? '' : `, ${Number((cost.marginPerMille / 10).toFixed(1))} %`}`,
                    kind: 'end' as const,
                  },
                ]),
          ]}
          note={
            cost.leftOverMinor > 0 &&
            `Bought in whole put-ups, all the kits cost ${money(cost.leftOverMinor)} more: thread left over, too short for another cut or for the shelf.`
          }
        />
      </div>
      {names.length > 0 && (
        <p className={s.notes}>
          No price is known of {listed(names)}, so {names.length === 1 ? 'it is' : 'they are'} not in the sum.{' '}
          {cost.unknown.includes('cloth') &&
            'To have the cloth counted, add it above as something else in each kit, with what it costs.'}
        </p>
      )}
      {isOpen && (
        <div className={s.next}>
          <Form
            action={setKitPriceAction}
            hidden={{ projectId: project.id, version: String(project.version) }}
            submit="Keep the price"
            submitKind="plain"
            isInline
            label="What one kit is sold for"
          >
            <NumberField
              name="price"
              label="Price of one kit"
              unit={currency}
              defaultValue={cost.priceMinor === null ? undefined : formatPrice(cost.priceMinor, null)}
            />
          </Form>
        </div>
      )}
    </Section>
  )
}
