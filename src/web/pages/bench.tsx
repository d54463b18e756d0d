/** Recordings: what the device really draws, measured, named, compared, and taken into the outpost. */
import '../bench/bench.css'
import '../bench/trace.css'
import { useBench } from '../bench/address.ts'
import { BenchWays } from '../bench/bench-ways.tsx'
import { OpenRecording } from '../bench/open-recording.tsx'
import { useOpenedRecording } from '../bench/opened.ts'
import { Opening } from '../bench/opening.tsx'

export default function BenchPage() {
  const [bench, change] = useBench()
  const { recording, rate_Hz } = bench
  const opened = useOpenedRecording(recording, rate_Hz)
  return (
    <>
      <BenchWays bench={bench} />
      {recording !== null && opened.is !== 'none' && opened.is !== 'open' && (
        <Opening file={recording} opened={opened} bench={bench} change={change} />
      )}
      {opened.is === 'open' && (
        <OpenRecording
          key={opened.query}
          bench={bench}
          change={change}
          imported={opened.imported}
          query={opened.query}
          onAgain={opened.again}
        />
      )}
    </>
  )
}
