/** Writes docs/accuracy.md: all made-up recordings analysed and compared with their truth. Takes about half a minute. */
import { writeFileSync } from 'node:fs'
import {
  ACCURACY_CASES,
  ACCURACY_HEAD,
  ACCURACY_SEED,
  accuracyRow,
  accuracySummary,
} from '../src/recording/made-up-accuracy.ts'

const rows = Array.from({ length: ACCURACY_CASES }, (_, number) => accuracyRow(number))
const text = `# How well states and cycles are found

${ACCURACY_CASES} made-up recordings (seed ${ACCURACY_SEED}, \`src/recording/made-up-plan.ts\`) whose truth is known, each analysed as a user's would be. Method, and what a
made-up recording can hold: [models/states.md](models/states.md). This file is written by \`npx tsx benchmarks/accuracy.ts\`; a test does some of the
cases again and compares them line by line, and the sums with all of the lines.

## Sums

${accuracySummary(rows)}

Where what was asked is not reached:

- **Charge of a rounded reading.** A reading with little noise falls on the same digit all the time, and is off by up to half a digit however long one
  averages: the samples do not hold what flowed. What they hold is added up exactly; what rounding leaves unknown is stated as uncertainty.

The stated uncertainty alone is also exceeded by means that are within 1 %: states of few samples beside high ones, where a
sample that holds part of the change weighs, and rounding without noise, whose error is the same in every visit.

## Cases

Noise is the largest over the states, as a share of the level; hum as a share of the rest current; a digit as a part of the rest current; ρ the correlation
of noise from sample to sample. A mean is good within 1 % or twice its stated uncertainty. In brackets what rounding leaves unknown of the charge.

${ACCURACY_HEAD}
${rows.map(({ line }) => line).join('\n')}
`
writeFileSync(new URL('../docs/accuracy.md', import.meta.url), text)
