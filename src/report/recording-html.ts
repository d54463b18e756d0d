/** A reading as one HTML file. */
import type { Overlay } from '../recording/cycles-overlay.ts'
import type { View } from '../recording/view.ts'
import type { Figure } from './figure.ts'
import { escapeHtml, figureSection, pageToHtml } from './page.ts'
import { cycleChargeFigure, sharesFigure, traceFigure, wakesFigure } from './recording-figures.ts'
import type { RecordingReading } from './recording-reading.ts'
import { chargeInWords, duration, flawInWords, placeInTime } from './recording-words.ts'

const FLAWS_SHOWN = 20

/** What the figures need besides the reading. */
export interface ReadingDrawings {
  readonly view: View
  readonly overlay: Overlay | null
}

export function readingToHtml(reading: RecordingReading, { view, overlay }: ReadingDrawings): string {
  const figures = [
    traceFigure(reading, view),
    wakesFigure(reading, overlay),
    sharesFigure(reading),
    cycleChargeFigure(reading),
  ].filter((figure): figure is Figure => figure !== null)
  const { file, samples, span, charge, instrument, notes } = reading
  const known =
    instrument === null ? 'the accuracy of the instrument is not known' : `measured by ${instrument}`
  return pageToHtml({
    window: `${file}: recording`,
    kind: 'Recording',
    heading: file,
    verdict: reading.verdict,
    sections: [flawsSection(reading), ...figures.map(figureSection)],
    footer: `${samples} samples in ${duration(span.duration_s)}, ${chargeInWords(charge)} in all; ${known}. Behind ± stands twice the standard uncertainty. Read: ${notes.join('; ')}.`,
  })
}

function flawsSection({ flaws, flawTotals }: RecordingReading): string {
  if (flawTotals.length === 0) return ''
  const items = flawTotals.map((total) => {
    const these = flaws.filter(({ kind }) => kind === total.kind)
    const places = these
      .slice(0, FLAWS_SHOWN)
      .map(({ line, at_s }) => (line !== null ? `line ${line}` : at_s === null ? '' : placeInTime(at_s)))
      .filter((place) => place !== '')
    const more = total.places > places.length ? ' and more' : ''
    return `<li>${escapeHtml(`${flawInWords(total)} (${places.join(', ')}${more}).`)}</li>`
  })
  return `<section class="care"><h2>What is wrong with it</h2><ul>${items.join('')}</ul></section>`
}
