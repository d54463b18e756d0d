/** The Choices page: variants, sizes, what to measure or mend, what to do when light fails, and what the firmware gets. */
import '../choices/choices.css'
import { HandoffPart } from '../choices/handoff-part.tsx'
import { MattersPart } from '../choices/matters-part.tsx'
import { SizePart } from '../choices/size-part.tsx'
import { ThriftPart } from '../choices/thrift-part.tsx'
import { VariantsPart } from '../choices/variants-part.tsx'
import '../outlook/outlook.css'
import { useAnswers } from '../verdict/answers.ts'

export default function ChoicesPage() {
  const { outpost } = useAnswers()
  const hasPanel = outpost !== null && outpost.supply.panel !== null
  return (
    <>
      <VariantsPart />
      <SizePart />
      <MattersPart />
      {hasPanel && <ThriftPart />}
      <HandoffPart />
    </>
  )
}
