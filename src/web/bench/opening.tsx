/** A recording on its way to being open, or what is missing for that. */
import { useState } from 'react'
import { Waiting } from '../frame/waiting.tsx'
import { bytesShown } from '../look/shown.ts'
import type { BenchAddress } from './address.ts'
import type { OpenedRecording } from './opened.ts'
import { RateField, rateOf } from './rate-field.tsx'

export interface OpeningProps {
  readonly file: string
  readonly opened: Exclude<OpenedRecording, { is: 'open' | 'none' }>
  readonly bench: BenchAddress
  readonly change: (change: Partial<BenchAddress>) => void
}

export function Opening({ file, opened, bench, change }: OpeningProps) {
  switch (opened.is) {
    case 'looking':
      return <Waiting what={file} />
    case 'importing':
      return (
        <p role="status">
          Reading {file} in:{' '}
          <progress value={opened.of > 0 ? opened.done / opened.of : 0} aria-label="Read so far" />{' '}
          {bytesShown(opened.done)} of {bytesShown(opened.of)}.{' '}
          <button
            type="button"
            className="quiet"
            onClick={() => {
              opened.cancel()
              change({ recording: null })
            }}
          >
            Cancel
          </button>
        </p>
      )
    case 'refused':
      return <Refused file={file} why={opened.why} again={opened.again} bench={bench} change={change} />
  }
}

interface RefusedProps extends Pick<OpeningProps, 'file' | 'bench' | 'change'> {
  readonly why: string
  readonly again: () => void
}

/** Most often there is no time in it, and the rate is all that is missing. */
function Refused({ file, why, again, bench, change }: RefusedProps) {
  const [text, setText] = useState(bench.rate_Hz === null ? '' : `${bench.rate_Hz} Hz`)
  const rate_Hz = rateOf(text)
  return (
    <form
      onSubmit={(event) => {
        event.preventDefault()
        if (rate_Hz === undefined) return
        if (rate_Hz === bench.rate_Hz) again()
        else change({ rate_Hz })
      }}
    >
      <h2>{file}</h2>
      <p className="problem error">{why}</p>
      <div className="fields">
        <RateField
          label="Sampling rate, where there is no time in it"
          placeholder="as in 1 kHz"
          text={text}
          onText={setText}
        />
      </div>
      <button type="submit" disabled={rate_Hz === undefined}>
        {rate_Hz === null ? 'Try again' : 'Read it at this rate'}
      </button>
    </form>
  )
}
