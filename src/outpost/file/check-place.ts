/** What is doubtful about the way the panel stands. */
import { best } from '../../quantity/spread.ts'
import { wrap180_deg } from '../../sky/angle.ts'
import type { Place } from '../../sky/place.ts'
import type { Findings } from './findings.ts'

/** Flatter than this, it hardly matters where a panel looks. */
const FLAT_deg = 20
/** So near the equator the sun comes from both sides. */
const TROPIC_deg = 23.5

export function checkPlane(place: Place, findings: Findings): void {
  const tilt_deg = best(place.tilt_deg)
  const azimuth_deg = best(place.azimuth_deg)
  const equator_deg = place.latitude_deg >= 0 ? 180 : 0
  const off_deg = Math.abs(wrap180_deg(azimuth_deg - equator_deg))
  if (tilt_deg > 90)
    findings.warn(['place', 'tilt'], {
      code: 'panel-faces-down',
      message: `tilted by ${tilt_deg}°, the panel looks at the ground`,
      expected: 'from 0° (flat) to 90° (upright)',
      cure: 'check the tilt',
    })
  if (tilt_deg > FLAT_deg && off_deg > 90 && Math.abs(place.latitude_deg) > TROPIC_deg)
    findings.warn(['place', 'azimuth'], {
      code: 'panel-faces-pole',
      message: `at latitude ${place.latitude_deg}° the sun stands towards ${equator_deg}°, and the panel looks to ${azimuth_deg}°`,
      expected: `an azimuth near ${equator_deg}°`,
      cure: 'azimuth counts clockwise from north: 90 is east, 180 south, 270 west',
    })
}
