import { say } from '#language/say'
import type { BackupCheck } from '#lib/backup/check'
import { CheckMark } from '#ui/check-mark'
import { MarkedWord } from '#ui/marked-word'
import { checkWords } from '#words/backup'

/** What is known of a backup, as a shape and in words; in madder when it is not good. */
export const CheckState = ({ check }: { check: BackupCheck | null }) => (
  <MarkedWord
    mark={<CheckMark state={check === null ? 'unknown' : check.isGood ? 'good' : 'bad'} />}
    word={
      check === null ? say('not checked') : check.isGood ? say('checked') : check.canRestore ? say('mind this') : say('not good')
    }
    note={check === null ? say('nobody has looked at it yet') : checkWords(check)}
    needsDoing={check !== null && !check.isGood}
  />
)
