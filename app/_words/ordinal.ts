const ordinals = 'first second third fourth fifth sixth seventh eighth ninth tenth eleventh twelfth'.split(' ')

/** "eighth", "13th", "22nd". */
export function ordinal(number: number): string {
  const small = ordinals[number - 1]
  if (small !== undefined) return small
  const teen = number % 100 >= 11 && number % 100 <= 13
  const end = teen ? 'th' : (['th', 'st', 'nd', 'rd'][number % 10] ?? 'th')
  return `${number.toLocaleString('en-GB')}${end}`
}
