/** Where files are dropped or chosen, and how far each is. */
import { type DragEvent, useId, useState } from 'react'
import { bytesShown, shareShown } from '../look/shown.ts'
import { drop, goOn, pause, send, type Upload, useUploads } from './uploads.ts'

export interface DropZoneProps {
  /** One that came whole is opened. */
  readonly onKept: (file: string) => void
}

export function DropZone({ onKept }: DropZoneProps) {
  const id = useId()
  const uploads = useUploads()
  const [isOver, setOver] = useState(false)
  const take = (files: FileList | null) => {
    for (const file of files ?? []) send(file, onKept)
  }
  const onDrop = (event: DragEvent) => {
    event.preventDefault()
    setOver(false)
    take(event.dataTransfer.files)
  }
  return (
    <div className="bench-way">
      <h3>A file</h3>
      {/* biome-ignore lint/a11y/noStaticElementInteractions: the file button inside does the same by keys */}
      <div
        className={`drop-zone ${isOver ? 'is-over' : ''}`}
        onDragOver={(event) => {
          event.preventDefault()
          setOver(true)
        }}
        onDragLeave={() => setOver(false)}
        onDrop={onDrop}
      >
        <label htmlFor={id}>Drop recordings of any size here, or choose them:</label>
        <input
          id={id}
          type="file"
          multiple
          accept=".csv,.tsv,.txt,.log,.dat,.asc,.tab,.npy,.f32,.raw,.gz"
          onChange={(event) => {
            take(event.target.files)
            event.target.value = ''
          }}
        />
        <p className="hint">
          Tables of text from any meter or logger (.csv, .tsv, .txt …), NumPy .npy, raw float32 (.f32), packed
          by gzip or not. They are copied into the folder.
        </p>
      </div>
      <ul className="uploads">
        {uploads.map((upload) => (
          <li key={upload.key}>
            <UploadLine upload={upload} onKept={onKept} />
          </li>
        ))}
      </ul>
    </div>
  )
}

function UploadLine({ upload, onKept }: { readonly upload: Upload } & DropZoneProps) {
  const { key, name, bytes, received, state } = upload
  const share = bytes === 0 ? 1 : received / bytes
  const far = `${bytesShown(received)} of ${bytesShown(bytes)}`
  const dropButton = (words: string) => (
    <button type="button" className="quiet" onClick={() => drop(key)} aria-label={`${words} ${name}`}>
      {words}
    </button>
  )
  switch (state.is) {
    case 'kept':
      return (
        <p>
          {state.file === name ? name : `${name} is in the folder as ${state.file}`}, {bytesShown(bytes)}: it
          is here. {dropButton('Forget')}
        </p>
      )
    case 'refused':
      return (
        <p className="problem error">
          {name}: {state.why} {dropButton('Forget')}
        </p>
      )
    default:
      return (
        <p>
          {name} <progress value={share} aria-label={`${name}, copied so far`} /> {shareShown(share)}, {far}
          {state.is === 'paused' && ', paused'}{' '}
          {state.is === 'sending' ? (
            <button type="button" className="quiet" onClick={() => pause(key)} aria-label={`Pause ${name}`}>
              Pause
            </button>
          ) : (
            <button
              type="button"
              className="quiet"
              onClick={() => goOn(key, onKept)}
              aria-label={`Go on with ${name}`}
            >
              Go on
            </button>
          )}
          {dropButton('Cancel')}
          {state.is === 'held' && <span className="problem error"> {state.why}</span>}
        </p>
      )
  }
}
