'use client'

import { type KeyboardEvent, type MouseEvent, useRef, useState } from 'react'
import { say } from '#language/say'
import { sayParts } from '#language/say-parts'
import { labToHex } from '#lib/colour/convert'
import { familyOf } from '#lib/colour/family'
import { type Lab, type LabCertainty, labCertainties } from '#lib/colour/lab'
import {
  averageOf,
  type Balance,
  balanced,
  balanceTo,
  cautionsOfPatch,
  isBalanceable,
  lightToLab,
  type PatchKind,
} from '#lib/colour/photo-colour'
import { ThreadBar } from '#trade/thread-bar'
import type { Hex } from '#trade/winding'
import { Button, ButtonRow } from '#ui/button'
import { FieldRow, SelectField, TextField } from '#ui/field'
import { Notice } from '#ui/notice'
import { Unfold } from '#ui/unfold'
import s from './colour-picker.module.css'
import { formatColour, parseColour } from './colour-text'
import { certaintyWords, describePatchCaution, roughWords } from './colour-words'

type ColourFieldsProps = {
  /** The field's name. */
  name: string
  label: string
  /** As typed. */
  defaultText: string
  isRequired?: boolean
  /** What is wrong with it, outside a Form. */
  error?: string
  /** Asks how it is known as well, under the name `labCertainty`; what is there now, if anything. */
  certainty?: { known: LabCertainty | null }
}

/** A colour as figures, as hex, or picked from a photo that never leaves the browser. */
export function ColourFields({ name, label, defaultText, isRequired, error, certainty }: ColourFieldsProps) {
  const root = useRef<HTMLDivElement>(null)
  const [text, setText] = useState(defaultText)
  const lab = parseColour(text)

  const take = (picked: Lab) => {
    const field = (of: string) => root.current?.querySelector<HTMLInputElement | HTMLSelectElement>(`[name="${of}"]`)
    const [colour, known] = [field(name), field('labCertainty')]
    if (colour) colour.value = formatColour(picked)
    if (known) known.value = 'guess' satisfies LabCertainty
    setText(formatColour(picked))
  }

  const colourField = (
    <TextField
      name={name}
      label={label}
      isRequired={isRequired}
      error={error}
      defaultValue={defaultText}
      hint={say('As #8e2f2b, or as the three figures L a b: 36.2 41 27.5.')}
      maxLength={100}
    />
  )
  return (
    <div
      ref={root}
      className={s.colour}
      onInput={({ target }) => {
        if (target instanceof HTMLInputElement && target.name === name) setText(target.value)
      }}
    >
      {certainty ? (
        <FieldRow>
          {colourField}
          <SelectField
            name="labCertainty"
            label={say('How it is known')}
            none={say('nobody said')}
            defaultValue={defaultText === '' ? 'guess' : (certainty.known ?? '')}
            options={labCertainties.map((value) => ({ value, label: certaintyWords[value] }))}
          />
        </FieldRow>
      ) : (
        colourField
      )}
      <p className={s.reads} role="status">
        <ThreadBar hexes={lab ? [labToHex(lab) as Hex] : []} />
        {lab
          ? say('By its figures: {familyOf}.', { familyOf: familyOf(lab) })
          : text.trim() === ''
            ? say('No colour yet.')
            : say('That is no colour yet.')}
      </p>
      <Unfold label={say('Pick it from a photo')}>
        <PhotoPick onPick={take} />
      </Unfold>
    </div>
  )
}

/** Photos are drawn no larger than this: enough for a strand's width, little enough for a phone. */
const longestSide = 1_000

const reaches = { small: 4, middle: 10, large: 24 } as const
type Reach = keyof typeof reaches

type Photo = { pixels: ImageData; key: number }
type Point = { x: number; y: number }

function PhotoPick({ onPick }: { onPick: (lab: Lab) => void }) {
  const canvas = useRef<HTMLCanvasElement>(null)
  const [photo, setPhoto] = useState<Photo | null>(null)
  const [isUnreadable, setIsUnreadable] = useState(false)
  const [point, setPoint] = useState<Point>({ x: 0, y: 0 })
  const [reach, setReach] = useState<Reach>('middle')
  const [kind, setKind] = useState<PatchKind>('white')
  /** Null until a patch is given; `none` where there is none in the photo. */
  const [balance, setBalance] = useState<Balance | 'none' | null>(null)
  const [taken, setTaken] = useState<Lab | null>(null)

  const open = async (file: File | undefined) => {
    if (!file || !canvas.current) return
    setTaken(null)
    setBalance(null)
    try {
      const pixels = await draw(file, canvas.current)
      setPhoto({ pixels, key: Date.now() })
      setPoint({ x: Math.floor(pixels.width / 2), y: Math.floor(pixels.height / 2) })
      setIsUnreadable(false)
    } catch {
      setPhoto(null)
      setIsUnreadable(true)
    }
  }

  const here = photo && averageOf(photo.pixels, point, reaches[reach])
  const isPatch = balance === null
  const lab = here && lightToLab(balance === null || balance === 'none' ? here.light : balanced(here.light, balance))
  const cautions = here && isPatch ? cautionsOfPatch(here) : []

  const moveTo = ({ x, y }: Point) => {
    if (!photo) return
    const within = (value: number, size: number) => Math.min(size - 1, Math.max(0, Math.round(value)))
    setPoint({ x: within(x, photo.pixels.width), y: within(y, photo.pixels.height) })
    setTaken(null)
  }
  const tapped = (event: MouseEvent<HTMLButtonElement>) => {
    // Pressed by key it has no place of its own: the square stays.
    if (!photo || !canvas.current || event.detail === 0) return
    const box = canvas.current.getBoundingClientRect()
    const scale = photo.pixels.width / box.width
    moveTo({ x: (event.clientX - box.left) * scale, y: (event.clientY - box.top) * scale })
  }
  const pressed = (event: KeyboardEvent) => {
    const step = event.shiftKey ? 20 : 4
    const [dx, dy] = arrowSteps[event.key] ?? [0, 0]
    if (dx === 0 && dy === 0) return
    event.preventDefault()
    moveTo({ x: point.x + dx * step, y: point.y + dy * step })
  }

  return (
    <div className={s.photo}>
      <p>
        {sayParts(
          'Photograph the thread in daylight, without flash, beside something white or grey: a sheet of paper, a grey card. {roughWords} The photo stays on this device.',
          { roughWords: roughWords() },
        )}
      </p>
      <label className={s.file}>
        <span>{say('Photo')}</span>
        {/* It has no name, so that no form sends it. */}
        <input type="file" accept="image/*" onChange={(event) => void open(event.target.files?.[0])} />
      </label>
      {isUnreadable && (
        <Notice kind="refusal" title={say('This file does not open as a picture here.')}>
          {say('JPEG, PNG and WebP do. Some phones keep photos in another form; their settings can change it to JPEG.')}
        </Notice>
      )}
      <div className={s.stage} hidden={photo === null}>
        <p className={s.step}>
          {sayParts('{isPatch} Or move the square with the arrow keys, farther with Shift.', {
            isPatch: isPatch ? (
              <b>{say('First: tap the white or grey in the photo.')}</b>
            ) : (
              <b>{say('Now tap the thread, where it is neither shining nor in shadow.')}</b>
            ),
          })}
        </p>
        <button
          type="button"
          className={s.tap}
          aria-label={say(
            'The photo. Tap the {isPatch, select, yes {white or grey} other {thread}}, or move the square with the arrow keys.',
            { isPatch },
          )}
          onClick={tapped}
          onKeyDown={pressed}
        >
          <canvas ref={canvas} className={s.canvas} />
          {photo && <Mark photo={photo} point={point} reach={reaches[reach]} />}
        </button>
        {lab && photo && (
          <p className={s.reads} role="status">
            <ThreadBar hexes={[labToHex(lab) as Hex]} />
            {sayParts('In the square: {familyOf}, {lab}', { familyOf: familyOf(lab), lab: formatColour(lab) })}
          </p>
        )}
        <div className={s.choices}>
          <label>
            <span>{say('Square')}</span>
            <select value={reach} onChange={(event) => setReach(event.target.value as Reach)}>
              <option value="small">{say('small')}</option>
              <option value="middle">{say('middling')}</option>
              <option value="large">{say('large')}</option>
            </select>
          </label>
          {isPatch && (
            <label>
              <span>{say('It is')}</span>
              <select value={kind} onChange={(event) => setKind(event.target.value as PatchKind)}>
                <option value="white">{say('white paper or card')}</option>
                <option value="grey-card">{say('a photographer’s grey card')}</option>
                <option value="grey">{say('another grey')}</option>
              </select>
            </label>
          )}
        </div>
        {cautions.map((caution) => (
          <Notice key={caution} kind="caution" title={describePatchCaution(caution)} />
        ))}
        {here && !isPatch && here.clippedShare > 0.02 && (
          <Notice kind="caution" title={say('Part of the square is too bright for the photo: its colour is lost there.')} />
        )}
        <ButtonRow>
          {isPatch ? (
            <>
              <Button
                disabled={!here || !isBalanceable(here.light)}
                onClick={() => here && setBalance(balanceTo(here.light, kind))}
              >
                {say('This is the {isWhite, select, yes {white} other {grey}}', { isWhite: kind === 'white' })}
              </Button>
              <Button kind="quiet" onClick={() => setBalance('none')}>
                {say('There is none in it')}
              </Button>
            </>
          ) : (
            <>
              <Button
                onClick={() => {
                  if (!lab) return
                  onPick(lab)
                  setTaken(lab)
                }}
              >
                {say('Take this colour')}
              </Button>
              <Button kind="quiet" onClick={() => setBalance(null)}>
                {say('Another white or grey')}
              </Button>
            </>
          )}
        </ButtonRow>
        {balance === 'none' && (
          <Notice kind="caution" title={say('Without a white or grey the lamp’s colour stays in it: rougher still.')} />
        )}
        <p role="status">
          {taken && say('Taken into the field above: {taken}, a rough figure.', { taken: formatColour(taken) })}
        </p>
      </div>
    </div>
  )
}

const arrowSteps: Record<string, [number, number] | undefined> = {
  ArrowLeft: [-1, 0],
  ArrowRight: [1, 0],
  ArrowUp: [0, -1],
  ArrowDown: [0, 1],
}

/** Draws a photo onto the canvas, made smaller where it is large. @throws when the browser cannot read it as a picture. */
async function draw(file: File, canvas: HTMLCanvasElement): Promise<ImageData> {
  const picture = await createImageBitmap(file)
  const scale = Math.min(1, longestSide / Math.max(picture.width, picture.height))
  canvas.width = Math.max(1, Math.round(picture.width * scale))
  canvas.height = Math.max(1, Math.round(picture.height * scale))
  const context = canvas.getContext('2d', { willReadFrequently: true, colorSpace: 'srgb' })
  if (!context) throw new Error('draw: no canvas to draw on')
  context.drawImage(picture, 0, 0, canvas.width, canvas.height)
  picture.close()
  return context.getImageData(0, 0, canvas.width, canvas.height)
}

/** The square that is averaged, to the photo's scale. */
function Mark({ photo, point, reach }: { photo: Photo; point: Point; reach: number }) {
  const { width, height } = photo.pixels
  const side = 2 * reach + 1
  return (
    <svg className={s.mark} viewBox={`0 0 ${width} ${height}`} preserveAspectRatio="none" aria-hidden="true">
      {(['outer', 'inner'] as const).map((line) => (
        <rect key={line} className={s[line]} x={point.x - reach} y={point.y - reach} width={side} height={side} />
      ))}
    </svg>
  )
}
