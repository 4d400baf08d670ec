import { numberText, plainFigure } from '#language/figures'
import { say } from '#language/say'
import type { Kit } from '#lib/db/kit/read-kit'
import type { LineCost } from '#lib/project/kit/cost'
import { chartsWanted } from '#lib/project/kit/reckoning'
import { formatPrice } from '#lib/quantity/money'
import { NumberField } from '#ui/field'
import { Form } from '#ui/form'
import { Ledger } from '#ui/ledger'
import { Section } from '#ui/section'
import { Sum, Sums } from '#ui/sum'
import { UnfoldButton } from '#ui/unfold'
import { counted, listed, threadLength } from '#words/amounts'
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
  const atLeast = names.length > 0 ? say('at least ') : ''
  return (
    <Section
      title={say('What a kit costs')}
      id="cost"
      note={say('Thread by the length cut; {atLeast}{money} a kit', { atLeast, money: money(cost.perKitMinor) })}
    >
      <div className={s.sums}>
        <Ledger
          caption={say('What goes into one kit, in money')}
          rows={cost.lines}
          rowKey={({ key }) => key}
          columns={[
            { key: 'line', head: say('What'), phone: 'lead', cell: ({ key }) => nameOf(key).name },
            {
              key: 'one',
              head: say('In one kit'),
              isNumeric: true,
              phone: 'side',
              cell: ({ perKitMinor }) =>
                perKitMinor === null ? (
                  <span className="quiet">{say('price unknown')}</span>
                ) : (
                  <UnfoldButton label={say('{money} in one kit: how it is reckoned', { money: money(perKitMinor) })}>
                    {money(perKitMinor)}
                  </UnfoldButton>
                ),
            },
            {
              key: 'all',
              head: say('In all {copies}', { copies: reckoning.copies }),
              isNumeric: true,
              phone: 'labelled',
              cell: ({ forAllMinor }) =>
                forAllMinor === null ? <span className="quiet">{say('unknown')}</span> : money(forAllMinor),
            },
            {
              key: 'left',
              head: say('Left over'),
              isNumeric: true,
              phone: 'labelled',
              cell: ({ leftOverMinor }) =>
                leftOverMinor === 0 ? <span className="quiet">{say('none')}</span> : money(leftOverMinor),
            },
          ]}
          under={(line) => line.perKitMinor !== null && <LineSum line={line} kit={kit} />}
          foot={say('{atLeast}{money} in one kit', { atLeast, money: money(cost.perKitMinor) })}
        />
        <Sum
          title={say('One kit')}
          rows={[
            ...(cost.priceMinor === null ? [] : [{ label: say('Price of a kit'), figure: money(cost.priceMinor) }]),
            {
              label: say('Goes into it'),
              how: say('the lines together'),
              figure: `${cost.priceMinor === null ? '' : '− '}${atLeast}${money(cost.perKitMinor)}`,
              kind: cost.priceMinor === null ? ('end' as const) : undefined,
            },
            ...(cost.marginMinor === null
              ? []
              : [
                  {
                    label: names.length > 0 ? say('Remains, at most') : say('Remains'),
                    figure: `${money(cost.marginMinor)}${cost.marginPerMille === null ? '' : `, ${plainFigure(Number((cost.marginPerMille / 10).toFixed(1)))} %`}`,
                    kind: 'end' as const,
                  },
                ]),
          ]}
          note={
            cost.leftOverMinor > 0 &&
            say(
              'Bought in whole put-ups, all the kits cost {money} more: thread left over, too short for another cut or for the shelf.',
              { money: money(cost.leftOverMinor) },
            )
          }
        />
      </div>
      {names.length > 0 && (
        <p className={s.notes}>
          {say(
            'No price is known of {names}, so {names2, plural, one {it is} other {they are}} not in the sum. {hasIncludes, select, yes {To have the cloth counted, add it above as something else in each kit, with what it costs.} other {}}',
            { names: listed(names), names2: names.length, hasIncludes: Boolean(cost.unknown.includes('cloth')) },
          )}
        </p>
      )}
      {isOpen && (
        <div className={s.next}>
          <Form
            action={setKitPriceAction}
            hidden={{ projectId: project.id, version: String(project.version) }}
            submit={say('Keep the price')}
            submitKind="plain"
            isInline
            label={say('What one kit is sold for')}
          >
            <NumberField
              name="price"
              label={say('Price of one kit')}
              unit={currency}
              defaultValue={cost.priceMinor === null ? undefined : formatPrice(cost.priceMinor, null)}
            />
          </Form>
        </div>
      )}
    </Section>
  )
}

/** What one line costs in a kit and in all of them, and what is left over of whole put-ups. */
function LineSum({ line: { from, perKitMinor, forAllMinor, leftOverMinor }, kit }: { line: LineCost; kit: Kit }) {
  const { reckoning, settings, threads } = kit
  const money = (minor: number) => priceWords(minor, settings.currency)
  const one = money(perKitMinor ?? 0)
  const all = money(forAllMinor ?? 0)
  switch (from.kind) {
    case 'thread': {
      const { perKitStrandTenths, putUpStrandTenths, putUpPriceMinor, putUpsForAll } = from
      const line = threads.get(from.key.slice('thread:'.length))?.line
      if (!line || putUpPriceMinor === null) return null
      const length = (strandTenths: number) => threadLength(strandTenths, line.strands, settings.threadUnit)
      const price = say('{money} ÷ {putUp} to the {putUpWord}, rounded to the nearest', {
        money: money(putUpPriceMinor),
        putUp: length(putUpStrandTenths),
        putUpWord: line.putUpWord,
      })
      return (
        <Sums>
          <Sum
            title={say('By the length cut')}
            rows={[
              { label: say('One kit'), how: `${length(perKitStrandTenths)} × ${price}`, figure: one },
              {
                label: say('All kits'),
                how: `${numberText(reckoning.copies)} × ${length(perKitStrandTenths)} × ${price}`,
                figure: all,
                kind: 'end',
              },
            ]}
          />
          <Sum
            title={say('Left over')}
            rows={[
              {
                label: say('Bought whole'),
                how: `${counted(putUpsForAll, line.putUpWord)} × ${money(putUpPriceMinor)}`,
                figure: money(putUpsForAll * putUpPriceMinor),
              },
              { label: say('Goes into the kits'), figure: `− ${all}` },
              { label: say('Left over'), figure: leftOverMinor === 0 ? say('none') : money(leftOverMinor), kind: 'end' },
            ]}
          />
        </Sums>
      )
    }
    case 'cloth':
      return null
    case 'chart':
      return (
        <Sums>
          <Sum
            title={say('Charts')}
            rows={[
              { label: say('One kit'), how: say('one bought chart'), figure: one },
              {
                label: say('All kits'),
                how: say('{chartsWanted, plural, one {# chart} other {# charts}}, none to a spare until it is sold', {
                  chartsWanted: chartsWanted(reckoning),
                }),
                figure: all,
                kind: 'end',
              },
            ]}
          />
        </Sums>
      )
    case 'item':
      return (
        <Sums>
          <Sum
            title={say('By the piece')}
            rows={[
              { label: say('One kit'), how: `${numberText(from.perKit)} × ${money(from.priceMinor ?? 0)}`, figure: one },
              { label: say('All kits'), how: `${numberText(reckoning.copies)} × ${one}`, figure: all, kind: 'end' },
            ]}
          />
        </Sums>
      )
  }
}
