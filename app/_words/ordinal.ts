import { say } from '#language/say'

/** "eighth", "13th", "22nd". */
export const ordinal = (number: number): string =>
  say(
    '{number, selectordinal, =1 {first} =2 {second} =3 {third} =4 {fourth} =5 {fifth} =6 {sixth} =7 {seventh} =8 {eighth} =9 {ninth} =10 {tenth} =11 {eleventh} =12 {twelfth} one {#st} two {#nd} few {#rd} other {#th}}',
    { number },
  )
