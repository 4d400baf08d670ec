/** What is wrong with a field, in words: outright, or said once somebody is to be told, in their language. */
export type Sentence = string | (() => string)

export const sentenceText = (sentence: Sentence): string => (typeof sentence === 'string' ? sentence : sentence())
