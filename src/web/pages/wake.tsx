/** What the device does: one wake as a wave and as a table, when it wakes, what it draws between, where a day's charge goes. */
import '../wake/wake.css'
import { BetweenPart, ResumePart } from '../wake/between-part.tsx'
import { CadencePart } from '../wake/cadence-part.tsx'
import { ChargePart } from '../wake/charge-part.tsx'
import { StepsPart } from '../wake/steps-part.tsx'
import { WaveFigure } from '../wake/wave-figure.tsx'

export default function WakePage() {
  return (
    <>
      <WaveFigure />
      <StepsPart />
      <ChargePart />
      <CadencePart />
      <BetweenPart />
      <ResumePart />
    </>
  )
}
