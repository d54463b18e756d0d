/** The recordings of the folder, each a link that opens it. */
import type { RecordingEntry } from '../../api/files.ts'
import { PageLink } from '../frame/page-link.tsx'
import { bytesShown } from '../look/shown.ts'
import { type BenchAddress, moreOf, ofRecording } from './address.ts'

export interface RecordingsListProps {
  readonly recordings: readonly RecordingEntry[]
  readonly bench: BenchAddress
}

export function RecordingsList({ recordings, bench }: RecordingsListProps) {
  if (recordings.length === 0)
    return (
      <p className="empty">
        There is no recording in the folder yet. Drop a file below, or record from a serial port.
      </p>
    )
  return (
    <ul className="recordings">
      {recordings.map(({ file, bytes, kept }) => (
        <li key={file}>
          <PageLink to={{ more: moreOf(ofRecording(bench, file)) }} isCurrent={file === bench.recording}>
            {file}
          </PageLink>{' '}
          <span className="faint">
            {bytesShown(bytes)}
            {kept ? ', read before' : ''}
          </span>
        </li>
      ))}
    </ul>
  )
}
