'use client'

import { useEffect, useId, useRef, useState } from 'react'
import { formatClothLength } from '#language/lengths'
import { say, sayings } from '#language/say'
import { sayParts } from '#language/say-parts'
import type { OneWayReason, Weave } from '#lib/cloth/cloth-piece'
import { countByRuler, isReading, mostReadings, type RulerReading, readingsText } from '#lib/cloth/ruler-count'
import { type LengthUnit, parseClothLength, UM_PER_INCH } from '#lib/quantity/cloth-length'
import type { Count } from '#lib/quantity/count'
import { parseNumber } from '#lib/quantity/number'
import { Button, ButtonRow, LinkButton } from '#ui/button'
import { ChoiceField, TextField } from '#ui/field'
import { Form } from '#ui/form'
import { Section } from '#ui/section'
import { countClothAction } from '../actions'
import { describeRulerRefusal } from '../words'
import s from './count-desk.module.css'
import { CountResult } from './count-result'

export type CountedPiece = {
  id: string
  version: number
  title: string
  weave: Weave
  ends: Count
  picks: Count
  isTurnable: boolean
  oneWayBecause: OneWayReason | null
}

type CountDeskProps = {
  unit: LengthUnit
  /** The piece that is counted; null when nobody knows yet what it is. */
  piece: CountedPiece | null
  /** There is an owner to add a piece for. */
  canAdd: boolean
}

type Row = { key: number; threads: string; length: string }
type Way = 'across' | 'up'
const ways: readonly Way[] = ['across', 'up']
const wayHeads = sayings({ across: 'Across, along the weft', up: 'Up, along the warp' })
const wayNotes = sayings({ across: 'The ruler lies from selvedge to selvedge.', up: 'The ruler lies along the selvedge.' })

/** A reading as typed; null while it is empty, a sentence when it is none. */
function readRow({ threads, length }: Row, unit: LengthUnit): RulerReading | string | null {
  if (threads.trim() === '') return null
  const lengthUm = parseClothLength(length, unit)
  const reading = { threads: parseNumber(threads) ?? Number.NaN, lengthUm: lengthUm ?? Number.NaN }
  if (isReading(reading)) return reading
  return isReading({ ...reading, lengthUm: UM_PER_INCH })
    ? say('Give the ruled length, from 5 mm to 50 cm.')
    : say('Give whole threads, or halves: 64, 63½.')
}

/** Readings along a ruler, and at once what they make. */
export function CountDesk({ unit, piece, canAdd }: CountDeskProps) {
  const usual = formatClothLength(unit === 'in' ? 2 * UM_PER_INCH : 50_000, unit).replace(/ .*$/, '')
  const [weave, setWeave] = useState<Weave>(piece?.weave ?? 'single')
  const [rows, setRows] = useState<Record<Way, Row[]>>({
    across: [1, 2, 3].map((key) => ({ key, threads: '', length: usual })),
    up: [4, 5, 6].map((key) => ({ key, threads: '', length: usual })),
  })
  const nextKey = useRef(7)
  const [focusOn, setFocusOn] = useState<string | null>(null)
  const box = useRef<HTMLDivElement>(null)

  useEffect(() => {
    if (focusOn === null) return
    box.current?.querySelector<HTMLElement>(`[name="${focusOn}"]`)?.focus()
    setFocusOn(null)
  }, [focusOn])

  const change = (way: Way, key: number, part: Partial<Row>) =>
    setRows({ ...rows, [way]: rows[way].map((row) => (row.key === key ? { ...row, ...part } : row)) })
  const add = (way: Way) => {
    const key = nextKey.current++
    setRows({ ...rows, [way]: [...rows[way], { key, threads: '', length: rows[way].at(-1)?.length ?? usual }] })
    setFocusOn(`threads-${key}`)
  }

  const read = {
    across: rows.across.map((row) => readRow(row, unit)),
    up: rows.up.map((row) => readRow(row, unit)),
  }
  const readings = { across: read.across.filter(isRead), up: read.up.filter(isRead) }
  const isWrong = [...read.across, ...read.up].some((each) => typeof each === 'string')
  const result = countByRuler(readings, { weave, unit })
  const things = weave === 'block' ? 'blocks' : 'threads'
  const sent = { across: readingsText(readings.across), up: readingsText(readings.up), ruler: unit }
  const hasBegun = readings.across.length + readings.up.length > 0

  return (
    <div className={s.desk}>
      <div className={s.readings} ref={box}>
        {!piece && <WeaveChoice weave={weave} onChoose={setWeave} />}
        {ways.map((way) => {
          const counted = result.ok ? (way === 'across' ? result.value.ends : result.value.picks) : null
          let turn = -1
          return (
            <fieldset key={way} className={s.way}>
              <legend>{wayHeads[way]}</legend>
              <p className={s.note}>{wayNotes[way]}</p>
              {rows[way].map((row, index) => {
                const was = read[way][index] ?? null
                if (isRead(was)) turn++
                const isOutlier = isRead(was) && counted?.readings[turn]?.isOutlier === true
                return (
                  <ReadingRow
                    key={row.key}
                    row={row}
                    place={say('{wayHeads}, place {index}', { wayHeads: wayHeads[way], index: index + 1 })}
                    things={things}
                    unit={unit}
                    wrong={typeof was === 'string' ? was : isOutlier ? say('Far from the others: count again here.') : null}
                    onChange={(part) => change(way, row.key, part)}
                  />
                )
              })}
              {rows[way].length < mostReadings && (
                <Button kind="quiet" onClick={() => add(way)}>
                  {sayParts('Another place{wayHeads}', { wayHeads: <span className="vh">, {wayHeads[way]}</span> })}
                </Button>
              )}
            </fieldset>
          )
        })}
      </div>
      <Section title={say('It counts')}>
        <div role="status">
          {result.ok ? (
            <CountResult counted={result.value} held={piece} unit={unit} />
          ) : (
            <p>
              {hasBegun
                ? describeRulerRefusal(result.error)
                : say('Count the {things} along a ruler, across and up. What it counts stands here at once.', { things })}
            </p>
          )}
        </div>
        {result.ok && !isWrong && !piece && canAdd && (
          <ButtonRow>
            <LinkButton kind="first" href={`/cloth/new?${new URLSearchParams({ ...sent, weave })}`}>
              {say('Keep it as a new piece')}
            </LinkButton>
          </ButtonRow>
        )}
        {result.ok && piece && (
          <Form
            key={String(result.value.squareness === 'uneven')}
            action={countClothAction}
            hidden={{ id: piece.id, version: String(piece.version), ...sent }}
            submit={say('Write it on the piece')}
            label={say('Write the count on {title}', { title: piece.title })}
          >
            <TurningChoice isUneven={result.value.squareness === 'uneven'} piece={piece} />
            <TextField
              name="note"
              label={say('Note')}
              hint={say('The readings themselves are kept in its history')}
              maxLength={300}
            />
          </Form>
        )}
      </Section>
    </div>
  )
}

const isRead = (reading: RulerReading | string | null): reading is RulerReading => reading !== null && typeof reading !== 'string'

/** Asked where the count makes it a question; otherwise the piece lies as it did. */
function TurningChoice({ isUneven, piece }: { isUneven: boolean; piece: CountedPiece }) {
  const isAsked = isUneven ? piece.isTurnable : piece.oneWayBecause === 'count'
  if (!isAsked) return <input type="hidden" name="turning" value="as-it-was" />
  return isUneven ? (
    <ChoiceField
      name="turning"
      label={say('It is not square. May it still be turned?')}
      isRequired
      options={[
        { value: 'count', label: say('Upright only'), note: say('A design keeps the shape it has on this cloth.') },
        { value: 'either', label: say('Either way round'), note: say('A design changes its size when the piece is turned.') },
      ]}
    />
  ) : (
    <ChoiceField
      name="turning"
      label={say('It was not to be turned, for its count was not square')}
      options={[
        { value: 'as-it-was', label: say('Upright only, as before') },
        { value: 'either', label: say('It may be turned now') },
      ]}
      defaultValue="as-it-was"
    />
  )
}

function WeaveChoice({ weave, onChoose }: { weave: Weave; onChoose: (weave: Weave) => void }) {
  return (
    <div
      onChange={(event) => {
        const { target } = event
        if (target instanceof HTMLInputElement && target.checked) onChoose(target.value as Weave)
      }}
    >
      <ChoiceField
        name="weave"
        label={say('Woven')}
        options={[
          { value: 'single', label: say('in single threads: evenweave, linen') },
          { value: 'block', label: say('in blocks: count the blocks') },
        ]}
        defaultValue={weave}
      />
    </div>
  )
}

type ReadingRowProps = {
  row: Row
  place: string
  things: string
  unit: LengthUnit
  wrong: string | null
  onChange: (part: Partial<Row>) => void
}

/** One reading: so many threads in such a length. */
function ReadingRow({ row, place, things, unit, wrong, onChange }: ReadingRowProps) {
  const id = useId()
  const field = (part: 'threads' | 'length') => ({
    id: `${id}${part}`,
    name: `${part}-${row.key}`,
    className: s.box,
    type: 'text',
    inputMode: 'decimal' as const,
    autoComplete: 'off',
    maxLength: 20,
    value: row[part],
    'aria-invalid': wrong !== null || undefined,
    'aria-describedby': wrong === null ? undefined : `${id}wrong`,
    onChange: (event: React.ChangeEvent<HTMLInputElement>) => onChange({ [part]: event.target.value }),
  })
  return (
    <div className={s.reading}>
      <span className={s.figures}>
        <input {...field('threads')} aria-label={say('{place}: {things} counted', { place, things })} />
        <span>{sayParts('{things} in', { things })}</span>
        <input
          {...field('length')}
          aria-label={say('{place}: ruled length in {isIn, select, yes {inches} other {centimetres}}', {
            place,
            isIn: unit === 'in',
          })}
        />
        <span>{unit}</span>
      </span>
      {wrong && (
        <p id={`${id}wrong`} className={s.wrong}>
          {wrong}
        </p>
      )}
    </div>
  )
}
