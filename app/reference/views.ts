import { apiDocument, problemsOf } from '#api/document'
import { type AnyOperation, groups, type OperationGroup } from '#api/operation'
import { operations } from '#api/operations'
import { problemKinds } from '#api/problem'
import type { OperationView } from './operation-entry'
import { parameterRow, type Schema, type Schemas, schemaRows } from './schema-rows'

type Content = Record<string, { schema?: Schema; example?: unknown }>
type Described = {
  parameters?: { name: string; in: string; required?: boolean; schema?: Schema }[]
  requestBody?: { content: Content }
  responses: Record<string, { description: string; content?: Content }>
}

const fewLines = 20

const pretty = (value: unknown): string => JSON.stringify(value, null, 2)

/** One operation as the document has it. */
export function operationView(declared: AnyOperation): OperationView {
  const document = apiDocument()
  const schemas = (document.components?.schemas ?? {}) as Schemas
  const paths = document.paths as unknown as Record<string, Record<string, Described>>
  const described = paths[declared.path]?.[declared.method] as Described
  const json = described.requestBody?.content['application/json']
  const status = String(declared.answerStatus ?? 200)
  const answerExample = pretty(declared.example.answer)
  const answer = described.responses[status]?.content?.['application/json']
  return {
    method: declared.method.toUpperCase(),
    path: declared.path,
    description: declared.description ?? null,
    parameters: (described.parameters ?? []).map((parameter) => parameterRow(parameter, schemas)),
    bodyFields: json?.schema ? schemaRows(json.schema, schemas) : [],
    bodyKinds: Object.keys(described.requestBody?.content ?? {}),
    bodyExample: json ? pretty(json.example) : null,
    answerStatus: status,
    answerMeans: declared.answerMeans,
    answerFields: answer?.schema ? schemaRows(answer.schema, schemas) : [],
    answerExample,
    isAnswerShort: answerExample.split('\n').length <= fewLines,
    problems: problemsOf(declared).map((kind) => ({
      kind,
      status: problemKinds[kind].status,
      title: problemKinds[kind].title,
    })),
  }
}

/** All operations, by group. */
export const operationGroups = (): { group: OperationGroup; operations: readonly AnyOperation[] }[] =>
  groups.flatMap((group) => {
    const some: readonly AnyOperation[] = operations.filter((one) => one.group === group)
    return some.length > 0 ? [{ group, operations: some }] : []
  })
