/** The whole outpost file: its sections, and the JSON Schema made from them for editors. */
import { z } from 'zod'
import { aimsSection, placeSection } from './schema-place.ts'
import { supplySection } from './schema-supply.ts'
import {
  cadenceSection,
  keepsSection,
  restSection,
  resumeSection,
  standingSection,
  wakeSection,
} from './schema-wake.ts'

// The functions that zod would write at run time are not worth their compilation for one file, and no page may have them.
z.config({ jitless: true })

/** The version of the format that this reader knows. */
export const FORMAT_VERSION = 1

const sections = {
  overwinter: z.literal(FORMAT_VERSION).meta({
    title: 'Format version',
    description: 'Version of this file format.',
    examples: [FORMAT_VERSION],
  }),
  title: z
    .string()
    .min(1)
    .meta({ title: 'Title', description: 'What this outpost is.', examples: ['Tide hut on the fjord'] }),
  wake: wakeSection,
  cadence: cadenceSection,
  rest: restSection,
  standing: standingSection.optional(),
  resume: resumeSection.optional(),
  keeps: keepsSection.optional(),
  supply: supplySection,
  place: placeSection,
  aims: aimsSection.optional(),
}

export const outpostSchema = z
  .strictObject({
    ...sections,
    variants: z
      .record(z.string().min(1), z.record(z.string(), z.unknown()))
      .meta({
        title: 'Variants',
        description:
          'Named patches over the file, merged section by section; steps, drains and kept things are addressed by name, null removes.',
        examples: [{ 'batch of six': { wake: { steps: { send: { every: 6, reports: 6 } } } } }],
      })
      .optional(),
  })
  .meta({
    title: 'Outpost',
    description: 'A small unattended device: what it does, what feeds it, where it stands.',
  })

export type OutpostFile = z.output<typeof outpostSchema>

/** JSON Schema 2020-12 of what one writes, for editors and other programs. */
export function outpostJsonSchema(): object {
  return z.toJSONSchema(outpostSchema, { io: 'input' })
}
