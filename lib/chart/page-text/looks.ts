/**
 * A short word with a figure in it, as makers number colours and as blends of them are written: `0311`, `17A`, `E4021`, `L-12`, `3.07`,
 * `0742+0087`. A count may look like one.
 */
export const codeLike = (text: string): boolean =>
  text.length <= 24 && /^(?=\D*\d)[A-Za-z\d]{1,6}([.+&/-][A-Za-z\d]{1,6}){0,4}[,.;:]?$/.test(text)

/** One mark alone that is no figure of an amount: a sign, or a letter. */
export const symbolLike = (text: string): boolean => [...text].length === 1 && !/[0-9]/.test(text)
