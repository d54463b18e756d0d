/**
 * What the engine takes for granted of a design with numbers, whoever made it: a file, a program, a draw from
 * tolerances. A broken rule is a fault of the maker, not of the user, and is found before years are simulated on it.
 */
import type { Outpost } from './outpost.ts'

/** Everything that breaks a rule, as `path: what is wrong`; empty where the design is sound. */
export function brokenRules(outpost: Outpost<number>): string[] {
  const { wake, supply, place } = outpost
  const rules: readonly (readonly [path: string, holds: boolean, rule: string])[] = [
    ...numbersIn(outpost, '').map(
      ({ path, value }) => [path, Number.isFinite(value), `${value} is no finite number`] as const,
    ),
    ['wake.steps', wake.steps.length > 0, 'a wake has at least one step'],
    ...(['boot', 'steps'] as const).flatMap((list) =>
      wake[list].flatMap((step, i) => stepRules(step, `wake.${list}[${i}]`)),
    ),
    ['wake.cadence', wake.cadence.schedule !== null || wake.cadence.events !== null, 'something wakes it'],
    ...wake.cadence.thrift
      .slice(1)
      .map(
        (row, i) =>
          [
            `wake.cadence.thrift[${i + 1}]`,
            row.below_V < wake.cadence.thrift[i].below_V,
            'voltages fall from row to row',
          ] as const,
      ),
    ['wake.rest_A', wake.rest_A >= 0, 'no negative current'],
    ...wake.standing.map(
      (drain, i) => [`wake.standing[${i}]`, drain.current_A >= 0, 'no negative current'] as const,
    ),
    ...supplyRules(supply),
    ['place.latitude_deg', Math.abs(place.latitude_deg) <= 90, 'from -90° to 90°'],
    ['place.longitude_deg', Math.abs(place.longitude_deg) <= 180, 'from -180° to 180°'],
    ['place.soiling', isShare(place.soiling), 'a share from 0 to 1'],
    ['place.albedo', isShare(place.albedo), 'a share from 0 to 1'],
    [
      'place.horizon',
      place.horizon.every((point, i) => i === 0 || point.azimuth_deg > place.horizon[i - 1].azimuth_deg),
      'sorted by azimuth',
    ],
    ...(['clearness', 'temperature_C', 'dailyRange_K'] as const).map(
      (key) => [`place.climate.${key}`, place.climate[key].length === 12, 'twelve months'] as const,
    ),
  ]
  return rules.filter(([, holds]) => !holds).map(([path, , rule]) => `${path}: ${rule}`)
}

/** Throws RangeError that lists every broken rule. */
export function requireSound(outpost: Outpost<number>): void {
  const broken = brokenRules(outpost)
  if (broken.length > 0) throw new RangeError(`this design cannot be: ${broken.join('; ')}`)
}

function stepRules(step: Outpost<number>['wake']['steps'][number], path: string) {
  const { retries } = step
  return [
    [`${path}.duration_s`, step.duration_s >= 0, 'no negative duration'],
    [`${path}.current_A`, step.current_A >= 0, 'no negative current'],
    [`${path}.chance`, isShare(step.chance), 'a share from 0 to 1'],
    [`${path}.every`, Number.isInteger(step.every) && step.every >= 1, 'a whole number from 1 on'],
    [`${path}.retries.probability`, retries === null || isShare(retries.probability), 'a share from 0 to 1'],
  ] as const
}

function supplyRules({ pack, regulator, charger, panel }: Outpost<number>['supply']) {
  const counts = ['series', 'parallel'] as const
  return [
    ...counts.map(
      (key) =>
        [
          `supply.pack.${key}`,
          Number.isInteger(pack[key]) && pack[key] >= 1,
          'a whole number from 1 on',
        ] as const,
    ),
    ['supply.pack.capacity_C', pack.capacity_C > 0, 'a capacity above zero'],
    ['supply.pack.initial', isShare(pack.initial), 'a share from 0 to 1'],
    ['supply.pack.age_s', pack.age_s >= 0, 'no negative age'],
    [
      'supply.regulator.efficiency',
      !('efficiency' in regulator) || regulator.efficiency.y.every((share) => share > 0 && share <= 1),
      'shares above 0 and up to 1',
    ],
    ['supply.charger', charger === null || pack.cell.charging !== null, 'a primary cell has no charger'],
    ['supply.panel', panel === null || charger !== null, 'a panel has a charger'],
  ] as const
}

const isShare = (value: number): boolean => value >= 0 && value <= 1

function numbersIn(node: unknown, path: string): { path: string; value: number }[] {
  if (typeof node === 'number') return [{ path, value: node }]
  if (typeof node !== 'object' || node === null || ArrayBuffer.isView(node)) return []
  if (Array.isArray(node)) return node.flatMap((item, i) => numbersIn(item, `${path}[${i}]`))
  return Object.entries(node).flatMap(([key, item]) => numbersIn(item, path === '' ? key : `${path}.${key}`))
}
