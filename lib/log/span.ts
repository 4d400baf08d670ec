import { type Attributes, SpanStatusCode, trace } from '@opentelemetry/api'

/**
 * Do something as a span of OpenTelemetry. Where no SDK was loaded, as is usual, nothing is recorded and nothing leaves.
 *
 * @param attributes  figures and words of the program's own: never what somebody typed
 */
export function inSpan<T>(name: string, attributes: Attributes, work: () => Promise<T>): Promise<T> {
  return trace.getTracer('chart-larder').startActiveSpan(name, { attributes }, async (span) => {
    try {
      return await work()
    } catch (error) {
      span.setStatus({ code: SpanStatusCode.ERROR, message: (error as Error)?.name })
      throw error
    } finally {
      span.end()
    }
  })
}
