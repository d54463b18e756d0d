/** A number of the file made larger or smaller as it is written: unit, tolerance and comment stay what they are. */

const NUMBER = /(\d+(?:\.\d+)?(?:e[+-]?\d+)?)(\s*)/i
/** Charge, capacitance, energy, current or power with a prefix: what a size is told in. */
const SIZED = new RegExp(`${NUMBER.source}((?:[pnuµmkM])?(?:Ah|Wh|A|W|F|C)\\b)`, 'gi')
/** As in `20..35 mA`, whose first number has no unit of its own. */
const RANGE = new RegExp(`${NUMBER.source}\\.\\.\\s*(?=\\d)`, 'gi')

/**
 * `600 mAh ± 6 %` times 2 is `1200 mAh ± 6 %`; of `5.6 V at 22.5 mA` the current alone grows. Three digits, as sizes are
 * bought. Null where no number of a size stands in it.
 */
export function scaledText(text: string, factor: number): string | null {
  if (!SIZED.test(text)) return null
  SIZED.lastIndex = 0
  const scaled = (number: string) => String(Number((Number(number) * factor).toPrecision(3)))
  return text
    .replace(RANGE, (_, number: string, space: string) => `${scaled(number)}${space}..`)
    .replace(SIZED, (_, number: string, space: string, unit: string) => `${scaled(number)}${space}${unit}`)
}
