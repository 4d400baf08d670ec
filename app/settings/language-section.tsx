import { say } from '#language/say'
import { Button } from '#ui/button'
import { ChoiceField } from '#ui/field'
import { Section } from '#ui/section'
import { findLanguage, languages } from '../_language/languages'
import s from './settings.module.css'

/** What this device's pages are said in. A form of its own kind: the page is loaded whole afterwards. */
export function LanguageSection({ chosen }: { chosen: string | undefined }) {
  return (
    <Section
      title={say('Language')}
      id="language"
      note={say('On this device. Names, notes and all else that was typed stay as they are.')}
    >
      <form method="post" action="/language" className={s.language} aria-label={say('Language')}>
        <input type="hidden" name="to" value="/settings#language" />
        <ChoiceField
          name="language"
          label={say('The page is in')}
          defaultValue={findLanguage(chosen)?.key ?? 'browser'}
          options={[
            { value: 'browser', label: say('as the browser asks') },
            ...languages.map(({ key, name }) => ({ value: key, label: name })),
          ]}
        />
        <Button type="submit">{say('Keep')}</Button>
      </form>
    </Section>
  )
}
