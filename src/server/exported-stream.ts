/** A span of a recording as a download: made block by block, as fast as it is taken. */
import type { Span } from '../recording/span.ts'
import { type ExportFormat, spanPieces } from '../store/export-span.ts'
import type { OpenRecording } from '../store/recording-folder.ts'

/** Closes the recording at the end, and when nobody takes it any more. */
export function exportedStream(
  recording: OpenRecording,
  format: ExportFormat,
  span: Span,
): ReadableStream<Uint8Array<ArrayBuffer>> {
  const pieces = spanPieces(recording, format, span)
  return new ReadableStream(
    {
      async pull(controller) {
        // Between two blocks, others get their answers.
        await new Promise(setImmediate)
        const { done, value } = await pieces.next()
        if (!done) return controller.enqueue(new Uint8Array(value.bytes))
        recording.close()
        controller.close()
      },
      async cancel() {
        await pieces.return(undefined)
        recording.close()
      },
    },
    { highWaterMark: 1 },
  )
}
