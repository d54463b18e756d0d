/** What all work on an outpost asks with: its text, under the name that it has or will have. */
import { relative } from 'node:path'
import { z } from 'zod'
import type { OfOutpost } from '../../api/work.ts'
import type { OutpostText } from '../../workbench/open-design.ts'
import type { FileKind } from '../file-kinds.ts'
import { MOST_TEXT } from '../request-body.ts'
import { checkedName, servedFile } from '../served-file.ts'
import type { Doing } from './work.ts'

/** Longer names are none that a person gave. */
export const MOST_NAME = 1000

export const askedOutpost = {
  file: z.string().max(MOST_NAME),
  text: z.string().max(MOST_TEXT),
  variant: z.string().max(MOST_NAME).nullable(),
  seed: z.int().min(0),
}

/** How it is played; what the commands allow. */
export const askedPlay = {
  years: z.int().min(1).max(60).nullable().default(null),
  runs: z.int().min(1).max(100_000).nullable().default(null),
  weather: z.string().max(MOST_NAME).nullable().default(null),
}

/** The path of a file of the folder, from where the program was started, as a command would be told it. */
export const pathOf = (name: string | null | undefined, kind: FileKind, { folder }: Doing): string | null =>
  name === null || name === undefined ? null : relative(process.cwd(), servedFile(folder, name, kind))

export const outpostOf = ({ file, text }: OfOutpost, { folder }: Doing): OutpostText => ({
  path: checkedName(file, 'outpost'),
  text,
  folder,
})
