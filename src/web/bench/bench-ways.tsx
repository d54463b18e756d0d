/** The ways to a recording: one of the folder, a file that is dropped, a serial port. */
import { useFolder } from '../draft/folder.ts'
import { go } from '../route.ts'
import { type BenchAddress, moreOf, ofRecording } from './address.ts'
import { DropZone } from './drop-zone.tsx'
import { useLive } from './live.ts'
import { LivePart } from './live-part.tsx'
import { RecordingsList } from './recordings-list.tsx'
import { useUploads } from './uploads.ts'

export function BenchWays({ bench }: { readonly bench: BenchAddress }) {
  const folder = useFolder()
  const live = useLive()
  const uploads = useUploads()
  const openIt = (file: string) => go({ more: moreOf(ofRecording(bench, file)) })
  const isBusy = live.is !== 'none' || uploads.length > 0
  const ways = (
    <div className="bench-ways">
      <div className="bench-way">
        <h3>In the folder</h3>
        {folder.is === 'there' ? (
          <RecordingsList recordings={folder.folder.recordings} bench={bench} />
        ) : (
          <p className="waiting">{folder.is === 'refused' ? folder.why : 'Looking into the folder …'}</p>
        )}
      </div>
      <DropZone onKept={openIt} />
      <LivePart onOpen={openIt} />
    </div>
  )
  if (bench.recording === null)
    return (
      <section aria-labelledby="ways-title">
        <h2 id="ways-title">Open a recording</h2>
        <p>
          A recording is current over time, from a meter, a current-sense board or an oscilloscope. Here it
          shows what the device really does, and its numbers go into the outpost.
        </p>
        {ways}
      </section>
    )
  return (
    <details className="other-ways" open={isBusy || undefined}>
      <summary>Another recording: from the folder, a file, a serial port</summary>
      <h2 className="for-ears">Another recording</h2>
      {ways}
    </details>
  )
}
