'use client'

import { type ReactNode, useContext, useEffect, useId, useRef, useState } from 'react'
import { say } from '#language/say'
import { sayParts } from '#language/say-parts'
import s from './field.module.css'
import { FormContext, fieldId } from './form-context'
import { takesPictures } from './which-field'

type FieldProps = {
  name: string
  label: ReactNode
  hint?: ReactNode
  /** What is wrong with it. Inside a Form it comes by itself. */
  error?: string
  isRequired?: boolean
  /** How wide: as wide as the form, half of it, or a figure's width. */
  width?: 'full' | 'half' | 'short'
}

/** What every field gets from its own props and from the form around it. */
function useField({ name, hint, error, isRequired }: Pick<FieldProps, 'name' | 'hint' | 'error' | 'isRequired'>) {
  const context = useContext(FormContext)
  const own = useId()
  const id = context ? fieldId(context.formId, name) : `${own}${name}`
  const wrong = error ?? context?.errors[name]?.join(' ')
  const describedBy = [wrong && `${id}-error`, hint && `${id}-hint`].filter(Boolean).join(' ') || undefined
  return {
    id,
    wrong,
    sent: context?.values[name],
    isAnswered: context?.isAnswered ?? false,
    control: {
      id,
      name,
      'aria-describedby': describedBy,
      'aria-invalid': wrong ? (true as const) : undefined,
      'aria-required': isRequired || undefined,
    },
  }
}

type FrameProps = Pick<FieldProps, 'label' | 'hint' | 'isRequired' | 'width'> & {
  id: string
  wrong?: string
  children: ReactNode
}

function Frame({ id, label, hint, wrong, isRequired, width = 'full', children }: FrameProps) {
  return (
    <div className={s.field} data-width={width}>
      <label htmlFor={id} className={s.label}>
        {label}
        {isRequired && <span className={s.needed}> {say('needed')}</span>}
      </label>
      <Hint id={id} hint={hint} />
      {children}
      <ErrorLine id={id} wrong={wrong} />
    </div>
  )
}

const Hint = ({ id, hint }: { id: string; hint: ReactNode }) =>
  hint ? (
    <p className={s.hint} id={`${id}-hint`}>
      {hint}
    </p>
  ) : null

const ErrorLine = ({ id, wrong }: { id: string; wrong: string | undefined }) =>
  wrong ? (
    <p className={s.error} id={`${id}-error`}>
      {wrong}
    </p>
  ) : null

type TextFieldProps = FieldProps & {
  defaultValue?: string
  type?: 'text' | 'search' | 'password' | 'email' | 'url'
  autoComplete?: string
  placeholder?: string
  maxLength?: number
  /** Offered while typing; anything else may be typed too. */
  suggestions?: readonly string[]
  /** The id of `Suggestions` elsewhere on the page, where many fields offer the same. */
  suggestionsId?: string
  autoFocus?: boolean
}

export function TextField({
  defaultValue,
  type = 'text',
  suggestions,
  suggestionsId,
  autoComplete = 'off',
  ...props
}: TextFieldProps) {
  const field = useField(props)
  const listId = suggestionsId ?? (suggestions && `${field.id}-list`)
  return (
    <Frame {...props} id={field.id} wrong={field.wrong}>
      <input
        {...field.control}
        className={s.box}
        type={type}
        defaultValue={field.sent ?? defaultValue}
        autoComplete={autoComplete}
        placeholder={props.placeholder}
        maxLength={props.maxLength}
        // biome-ignore lint/a11y/noAutofocus: asked for by the screen, for a dialog's or page's one field
        autoFocus={props.autoFocus}
        list={listId}
      />
      {suggestions && listId && <Suggestions id={listId} suggestions={suggestions} />}
    </Frame>
  )
}

/** What every field offers that names its id as `suggestionsId`. */
export const Suggestions = ({ id, suggestions }: { id: string; suggestions: readonly string[] }) => (
  <datalist id={id}>
    {suggestions.map((suggestion) => (
      <option key={suggestion} value={suggestion} />
    ))}
  </datalist>
)

type NumberFieldProps = FieldProps & {
  defaultValue?: string | number
  /** Stands after the figure: in, cm, skeins. */
  unit?: ReactNode
  /** Only whole numbers: a plain number pad on a phone. */
  isWhole?: boolean
  placeholder?: string
}

/** A figure, kept as typed: the server reads 12½, 1 1/2 and 12,5, which a number box would throw away. */
export function NumberField({ defaultValue, unit, isWhole = false, width = 'short', ...props }: NumberFieldProps) {
  const field = useField(props)
  return (
    <Frame {...props} width={width} id={field.id} wrong={field.wrong}>
      <span className={s.withUnit}>
        <input
          {...field.control}
          className={s.box}
          data-number
          type="text"
          inputMode={isWhole ? 'numeric' : 'decimal'}
          autoComplete="off"
          defaultValue={field.sent ?? defaultValue}
          placeholder={props.placeholder}
        />
        {unit && <span className={s.unit}>{unit}</span>}
      </span>
    </Frame>
  )
}

export type Option = { value: string; label: string; group?: string; isDisabled?: boolean }

type SelectFieldProps = FieldProps & {
  options: readonly Option[]
  defaultValue?: string
  /** The first choice, meaning none. */
  none?: string
}

export function SelectField({ options, defaultValue, none, ...props }: SelectFieldProps) {
  const field = useField(props)
  return (
    <Frame {...props} id={field.id} wrong={field.wrong}>
      <span className={s.select}>
        <select {...field.control} className={s.box} defaultValue={field.sent ?? defaultValue}>
          {none !== undefined && <option value="">{none}</option>}
          <Options options={options} />
        </select>
        <Arrow />
      </span>
    </Frame>
  )
}

/** Options in the order given; those that share a group stand under its heading, at the place of its first. */
export function Options({ options }: { options: readonly Option[] }) {
  const groups = new Map<string, Option[]>()
  for (const option of options) {
    const key = option.group ?? ''
    const members = groups.get(key)
    if (members) members.push(option)
    else groups.set(key, [option])
  }
  return [...groups].map(([group, members]) => {
    const drawn = members.map((option) => (
      <option key={option.value} value={option.value} disabled={option.isDisabled}>
        {option.label}
      </option>
    ))
    return group ? (
      <optgroup key={group} label={group}>
        {drawn}
      </optgroup>
    ) : (
      drawn
    )
  })
}

export const Arrow = () => (
  <svg className={s.arrow} viewBox="0 0 11 7" width="11" height="7" aria-hidden="true">
    <path d="m1 1 4.5 4.5L10 1" fill="none" stroke="currentColor" strokeWidth="var(--pen-line)" />
  </svg>
)

type TextAreaProps = FieldProps & { defaultValue?: string; rows?: number; placeholder?: string }

export function TextArea({ defaultValue, rows = 4, placeholder, ...props }: TextAreaProps) {
  const field = useField(props)
  return (
    <Frame {...props} id={field.id} wrong={field.wrong}>
      <textarea
        {...field.control}
        className={s.box}
        rows={rows}
        placeholder={placeholder}
        defaultValue={field.sent ?? defaultValue}
      />
    </Frame>
  )
}

type CheckFieldProps = Omit<FieldProps, 'width' | 'isRequired'> & { defaultChecked?: boolean; value?: string }

export function CheckField({ defaultChecked = false, value = 'on', ...props }: CheckFieldProps) {
  const field = useField(props)
  return (
    <div className={s.field}>
      <span className={s.check}>
        <input
          {...field.control}
          className={s.tick}
          type="checkbox"
          value={value}
          defaultChecked={field.isAnswered ? field.sent === value : defaultChecked}
        />
        <label htmlFor={field.id}>{props.label}</label>
      </span>
      <Hint id={field.id} hint={props.hint} />
      <ErrorLine id={field.id} wrong={field.wrong} />
    </div>
  )
}

type ChoiceFieldProps = Omit<FieldProps, 'width'> & {
  options: readonly { value: string; label: ReactNode; note?: ReactNode }[]
  defaultValue?: string
}

/** One of a few, all in sight. */
export function ChoiceField({ options, defaultValue, ...props }: ChoiceFieldProps) {
  const field = useField(props)
  const chosen = field.sent ?? defaultValue
  return (
    <fieldset className={s.field} aria-describedby={field.control['aria-describedby']}>
      <legend className={s.label}>
        {props.label}
        {props.isRequired && <span className={s.needed}> {say('needed')}</span>}
      </legend>
      <Hint id={field.id} hint={props.hint} />
      {options.map((option, index) => (
        <span className={s.check} key={option.value}>
          <input
            id={index === 0 ? field.id : `${field.id}-${option.value}`}
            className={s.round}
            type="radio"
            name={props.name}
            value={option.value}
            defaultChecked={chosen === option.value}
            aria-invalid={field.control['aria-invalid']}
          />
          <label htmlFor={index === 0 ? field.id : `${field.id}-${option.value}`}>
            {option.label}
            {option.note && <small>{option.note}</small>}
          </label>
        </span>
      ))}
      <ErrorLine id={field.id} wrong={field.wrong} />
    </fieldset>
  )
}

type DateFieldProps = FieldProps & {
  /** As 2026-09-07. */
  defaultValue?: string
  min?: string
  max?: string
}

export function DateField({ defaultValue, min, max, width = 'short', ...props }: DateFieldProps) {
  const field = useField(props)
  return (
    <Frame {...props} width={width} id={field.id} wrong={field.wrong}>
      <input {...field.control} className={s.box} type="date" min={min} max={max} defaultValue={field.sent ?? defaultValue} />
    </Frame>
  )
}

type FileFieldProps = FieldProps & { accept?: string; isMany?: boolean; capture?: 'environment' }

/** A file to send. One that takes pictures takes them pasted and dropped too, and shows them before they are sent. */
export function FileField({ accept, isMany, capture, ...props }: FileFieldProps) {
  const field = useField(props)
  // The camera's own field may send as soon as it is filled; a pasted picture is looked at first.
  const isForPictures = takesPictures(accept) && capture === undefined
  const around = useRef<HTMLDivElement>(null)
  const [chosen, setChosen] = useState<readonly File[]>([])
  const [refused, setRefused] = useState<string | null>(null)

  useEffect(() => {
    const input = around.current?.querySelector('input')
    if (!isForPictures || !input || !around.current) return
    const spot = around.current
    const { form } = input
    const empty = () => setChosen([])
    form?.addEventListener('reset', empty)
    let end: (() => void) | undefined
    let isGone = false
    import('./picture-watch').then(
      ({ watchPictures }) => {
        if (!isGone) end = watchPictures(input, spot, setRefused)
      },
      () => {},
    )
    return () => {
      isGone = true
      end?.()
      form?.removeEventListener('reset', empty)
    }
  }, [isForPictures])

  return (
    <Frame {...props} id={field.id} wrong={field.wrong}>
      <div ref={around} className={s.drop}>
        <input
          {...field.control}
          className={s.file}
          type="file"
          accept={accept}
          multiple={isMany}
          capture={capture}
          onChange={(event) => {
            setRefused(null)
            if (isForPictures) setChosen([...(event.target.files ?? [])])
          }}
        />
        {isForPictures && <p className={s.paste}>{say('A picture can be pasted here too (Ctrl+V), or dropped.')}</p>}
        <div aria-live="polite">
          {refused !== null && (
            <p className={s.error}>{sayParts('{refused} is not of a kind that is taken here.', { refused })}</p>
          )}
          {chosen.map((file) => (
            <Chosen key={`${file.name} ${file.size} ${file.lastModified}`} file={file} />
          ))}
        </div>
      </div>
    </Frame>
  )
}

/** A file as it will be sent. */
function Chosen({ file }: { file: File }) {
  const [address, setAddress] = useState<string | null>(null)
  useEffect(() => {
    if (!file.type.startsWith('image/')) return
    const made = URL.createObjectURL(file)
    setAddress(made)
    return () => URL.revokeObjectURL(made)
  }, [file])
  return (
    <p className={s.chosen}>
      {/* biome-ignore lint/performance/noImgElement: a picture of this page alone */}
      {address && <img src={address} alt="" />}
      <span>
        {sayParts('{name}, {max, number} KB, not sent yet', { name: file.name, max: Math.max(1, Math.round(file.size / 1024)) })}
      </span>
    </p>
  )
}

/** Fields side by side where there is room. */
export function FieldRow({ children }: { children: ReactNode }) {
  return <div className={s.row}>{children}</div>
}
