import { readKey } from '#lib/chart/key-text/read-key'
import type { KeyReading } from '#lib/chart/key-text/reading'
import { splitText } from '#lib/chart/key-text/split-text'
import { vocabularyOf } from '#lib/chart/key-text/vocabulary'
import { runReader } from '#lib/reader/run-reader'
import type { CorpusFile, CorpusText } from './truth'

/** The reader, as the screens call it, on a text of the corpus. */
export const readText = ({ text, known }: Pick<CorpusText, 'text' | 'known'>): KeyReading =>
  readKey(splitText(text), vocabularyOf(known))

/** The same on a file. One that is refused was read as nothing. */
export async function readFile(
  kind: 'pdf' | 'picture',
  { bytes, known }: Pick<CorpusFile, 'bytes' | 'known'>,
): Promise<{ reading: KeyReading; refusal: string | null }> {
  const read = await runReader({ kind, bytes })
  if (!read.ok) return { reading: { designs: [], unread: [] }, refusal: read.error.kind }
  return { reading: readKey(read.value.lines, vocabularyOf(known)), refusal: null }
}
