/** One thread of an ensemble. */
import { chunkPlay } from './chunk-play.ts'

export const work = chunkPlay()
