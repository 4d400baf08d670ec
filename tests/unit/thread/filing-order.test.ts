import { expect, it } from 'vitest'
import { compareFiled, type FiledThread, type FilingOrder } from '#lib/thread/filing-order'

const thread = (code: string, change: Partial<FiledThread> = {}): FiledThread => ({
  code,
  name: null,
  lab: null,
  family: null,
  ...change,
})
const inOrder = (order: FilingOrder, threads: FiledThread[]) =>
  threads.sort((a, b) => compareFiled(order, a, b)).map(({ code }) => code)

it('files by number as codes go in a drawer', () => {
  expect(
    inOrder(
      'number',
      ['100', '17A', 'Ecru', '0017', '9'].map((code) => thread(code)),
    ),
  ).toEqual(['Ecru', '9', '0017', '17A', '100'])
})

it('files by name, "The" passed over, the code standing in for a name', () => {
  const named = [
    thread('3', { name: 'The Ropewalk' }),
    thread('2', { name: 'Straw' }),
    thread('1', { name: 'quince' }),
    thread('Rush'),
  ]
  expect(inOrder('name', named)).toEqual(['1', '3', 'Rush', '2'])
})

it('files by colour family, the code deciding among equals', () => {
  const colours = [
    thread('1', { family: 'blue' }),
    thread('9', { family: 'red' }),
    thread('2', { family: 'red' }),
    thread('5'),
    thread('4', { family: 'white' }),
  ]
  expect(inOrder('colour', colours)).toEqual(['4', '2', '9', '1', '5'])
})
