/** What all work on an outpost asks with: its text, under the name that it has or will have. */
import { z } from 'zod'
import type { OfOutpost } from '../../api/work.ts'
import type { OutpostText } from '../../workbench/open-design.ts'
import { MOST_TEXT } from '../request-body.ts'
import { checkedName } from '../served-file.ts'
import type { Doing } from './work.ts'

/** Longer names are none that a person gave. */
export const MOST_NAME = 1000

export const askedOutpost = {
  file: z.string().max(MOST_NAME),
  text: z.string().max(MOST_TEXT),
  variant: z.string().max(MOST_NAME).nullable(),
  seed: z.int().min(0),
}

export const outpostOf = ({ file, text }: OfOutpost, { folder }: Doing): OutpostText => ({
  path: checkedName(file, 'outpost'),
  text,
  folder,
})
