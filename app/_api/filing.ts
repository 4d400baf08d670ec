import { z } from 'zod'
import type { FilingRefused } from '#lib/db/filing/carry-out-filing'
import type { Filing } from '#lib/db/filing/read-filing'
import { filingMoves, filingWays, frontsChanged } from '#lib/place/filing-moves'
import { planFiling } from '#lib/place/filing-plan'
import { filingOrders } from '#lib/thread/filing-order'
import { operation } from './operation'
import { Problem } from './problem'
import { idText, shortText } from './quantities'

const requestFields = {
  lineId: idText,
  ownerIds: z.array(idText).min(1).max(20).meta({ description: 'Whose batches are filed.' }),
  order: z.enum(filingOrders).default('number').meta({
    description: 'By code; by name without a leading “The”; by colour family.',
  }),
  capacity: z.int().min(1).max(400).default(40).meta({
    description: 'How many a drawer holds that does not say so itself and has no compartments that are places.',
  }),
  percent: z.int().min(1).max(100).default(75).meta({ description: 'How full drawers are kept when all is dealt out afresh.' }),
  codes: z.array(shortText).max(1_000).default([]).meta({ description: 'Codes to find room for, on record or not.' }),
  takesUnplaced: z.boolean().default(false).meta({ description: 'Find room for what is held and has no home, too.' }),
}

const wayField = z.enum(filingWays).meta({
  description:
    'Push on to later drawers only; shift both ways; put in one more drawer; or deal all out afresh, each drawer to a share.',
})

const moveSchema = z
  .strictObject({
    from: z.string().nullable().meta({
      description: 'Label of the drawer they leave; null for what comes in; the same as `to` for what shifts inside a drawer.',
    }),
    to: z.string(),
    codes: z.array(z.string()),
    compartments: z
      .array(z.strictObject({ code: z.string(), from: z.string().nullable(), to: z.string() }))
      .nullable()
      .meta({ description: 'Of each code, by label; null where drawers have no compartments that are places.' }),
  })
  .meta({ id: 'FilingMove' })

const choiceSchema = z
  .strictObject({
    way: wayField,
    changeDrawer: z.int().meta({
      description:
        'How many end in another drawer than the one they are in or, when they come in, fall in. No plan of this way has fewer.',
    }),
    shiftInside: z.int().meta({
      description: 'How many of the others end in another compartment of their drawer. No plan with as few changes has fewer.',
    }),
    moves: z.array(moveSchema).meta({
      description:
        'In walking order. What shifts inside a drawer is listed so that each compartment is free when its turn comes, once what leaves is lifted out.',
    }),
    labelsToPrint: z.array(z.string()).meta({ description: 'Drawers whose first or last code is another than before.' }),
  })
  .meta({ id: 'FilingChoice' })

const exampleBody = { lineId: 'l1', ownerIds: ['o1'], codes: ['0017'] }

export const planFilingOperation = operation({
  method: 'post',
  path: '/filing/plan',
  id: 'planFiling',
  right: 'read',
  group: 'Places',
  summary: 'Where the threads of a line go when it grows',
  description:
    'Nothing is written. The drawers are found from where batches of the line live; codes stay in order. Hand the `fingerprint` over to carry a way out.',
  body: z
    .strictObject({
      ...requestFields,
    })
    .meta({ id: 'FilingPlanRequest' }),
  answer: z
    .strictObject({
      fingerprint: z.string(),
      drawers: z.array(
        z.strictObject({
          placeId: z.string(),
          label: z.string(),
          capacity: z.int(),
          filed: z.int(),
          others: z.int().meta({ description: 'What else takes room in it.' }),
        }),
      ),
      addedLabel: z.string().nullable().meta({ description: 'What a drawer put in would be called.' }),
      addedCompartments: z
        .array(z.string())
        .meta({ description: 'What its compartments would be called; empty where it gets none.' }),
      recommended: wayField.nullable(),
      choices: z.array(choiceSchema),
      afresh: z.strictObject({
        perDrawer: z.int(),
        drawersPacked: z.int(),
        drawers: z.array(z.array(z.strictObject({ compartment: z.int(), code: z.string() }))),
      }),
    })
    .meta({ id: 'FilingPlan' }),
  answerMeans: 'The drawers, the ways to make room with the fewest changes of each, and all laid out afresh.',
  example: {
    body: exampleBody,
    answer: {
      fingerprint: 'Yq3…',
      drawers: [{ placeId: 'p1', label: 'T2.1', capacity: 40, filed: 1, others: 0 }],
      addedLabel: null,
      addedCompartments: [],
      recommended: 'forward' as const,
      choices: [
        {
          way: 'forward' as const,
          changeDrawer: 0,
          shiftInside: 0,
          moves: [{ from: null, to: 'T2.1', codes: ['0017'], compartments: [{ code: '0017', from: null, to: 'T2.1-09' }] }],
          labelsToPrint: ['T2.1'],
        },
      ],
      afresh: { perDrawer: 30, drawersPacked: 1, drawers: [[{ compartment: 1, code: '0009' }]] },
    },
  },
})

export const carryOutFilingOperation = operation({
  method: 'post',
  path: '/filing',
  id: 'carryOutFiling',
  group: 'Places',
  summary: 'Carry a filing plan out',
  description:
    'All in one write, with a line of the journal for each batch; what is out stays out. `undoBulkEdit` takes it back; a drawer put in stays then, with its compartments, empty.',
  body: z
    .strictObject({
      ...requestFields,
      way: wayField,
      fingerprint: z.string().min(1).max(100).meta({ description: 'Of the plan, asked with the same choices.' }),
      what: shortText.meta({ description: 'In a few words, for the journal and the list of changes.' }),
      who: shortText.nullable().default(null),
    })
    .meta({ id: 'FilingRequest' }),
  answerStatus: 201,
  answer: z
    .strictObject({ bulkEditId: z.string(), moved: z.int(), addedPlaceId: z.string().nullable() })
    .meta({ id: 'FilingDone' }),
  answerMeans: 'Done; how many batches have a new home.',
  problems: ['refused'],
  takesIdempotencyKey: true,
  example: {
    body: { ...exampleBody, way: 'forward' as const, fingerprint: 'Yq3…', what: 'Room for 0017' },
    answer: { bulkEditId: 'e1', moved: 1, addedPlaceId: null },
  },
})

export function describeFiling(filing: Filing, { capacity, percent }: { capacity: number; percent: number }) {
  const { drawers, lines, growth, added, compartments, placeLabels, fingerprint } = filing
  const filed = lines.map(({ drawer }) => drawer)
  const afresh = planFiling(lines, { compartments: compartments?.added.length ?? capacity, percent })
  return {
    fingerprint,
    drawers: drawers.map(({ id, label, capacity, others }, turn) => ({
      ...{ placeId: id, label, capacity, others },
      filed: filed.filter((drawer) => drawer === turn).length,
    })),
    addedLabel: added?.label ?? null,
    addedCompartments: added?.compartments ?? [],
    recommended: growth.recommended,
    choices: growth.choices.map((choice) => {
      const labelOf = (at: number) => {
        const before = choice.drawers[at]?.before ?? null
        return (before === null ? added?.label : drawers[before]?.label) ?? ''
      }
      return {
        way: choice.way,
        changeDrawer: choice.moved,
        shiftInside: choice.shifted,
        moves: filingMoves(choice, filed, compartments).map(({ from, to, items }) => ({
          from: from === null ? null : labelOf(from),
          to: labelOf(to),
          codes: items.map((item) => lines[item]?.code ?? ''),
          compartments:
            compartments &&
            items.map((item) => ({
              code: lines[item]?.code ?? '',
              from: placeLabels.get(compartments.at[item] ?? '') ?? null,
              to: placeLabels.get(choice.placeOf?.[item] ?? '') ?? '',
            })),
        })),
        labelsToPrint: frontsChanged(choice, filed).map(labelOf),
      }
    }),
    afresh: {
      perDrawer: afresh.perDrawer,
      drawersPacked: afresh.drawersPacked,
      drawers: afresh.drawers.map((slots) => slots.map(({ compartment, item }) => ({ compartment, code: item.code }))),
    },
  }
}

export function describeFilingRefusal(refusal: FilingRefused): Problem {
  switch (refusal.kind) {
    case 'changed-meanwhile':
      return new Problem('refused', 'Something the plan rests on is otherwise now. Ask for a new plan.')
    case 'no-such-choice':
      return new Problem('refused', 'That cannot be done: there is not enough room.')
    case 'nothing-moves':
      return new Problem('refused', 'No batch would change its home.')
  }
}
